/* Two blocks side by side: what is known of both, their factors and their days on shared axes. */
(function (page) {
  "use strict";

  const { element } = page;
  const DECADE = 10;

  /* Opened from the card; closes back to it. */
  page.beside = function (app, back) {
    const pair = [app.selected, app.compare];
    return [
      heading(app, pair, back),
      facts(app, pair),
      factors(app, pair),
      days(app),
    ];
  };

  function heading(app, pair, back) {
    const { id } = app.data.blocks;
    const button = element("button", { type: "button", class: "back" }, page.phrase("Back to card"));
    button.addEventListener("click", back);
    const choices = pair.map((chosen, side) => {
      const label = side ? page.phrase("Second block") : page.phrase("First block");
      const choice = page.blockChoice(app, chosen, { "data-side": side, "aria-label": label }, (block) => {
        if (side) app.set({ compare: block });
        else app.choose(block, "beside");
      });
      return element("div", { class: "whose" }, swatch(side), choice);
    });
    return element(
      "header",
      null,
      button,
      element("p", { class: "eyebrow" }, page.phrase("Side by side")),
      element("h2", { id: "why-name" }, page.phrase("{first} and {second}", { first: id[pair[0]], second: id[pair[1]] })),
      element("div", { class: "choices" }, ...choices),
    );
  }

  /* Which line and which bar is whose: a full one is the first's, a striped one the second's. */
  const swatch = (side) => element("span", { class: "whose-mark side-" + side, "aria-hidden": "true" });

  function facts(app, pair) {
    const { blocks, days: known } = app.data;
    const { today } = known;
    const place = (list) => (block) => {
      const entry = list.of(block);
      return entry ? page.phrase("No. {rank}", { rank: entry.rank }) : "–";
    };
    const metres = (values, figures) => (block) =>
      page.isKnown(values[block]) ? page.isolated(figures(values[block]) + "\u00a0m") : page.phrase("not known");
    const rows = [
      [page.phrase("Name"), (block) => element("bdi", null, blocks.name[block])],
      [page.phrase("Cultivar"), (block) => blocks.cultivar[block] || page.phrase("not known")],
      [page.phrase("Area"), (block) => page.area(blocks.area[block], app.units)],
      [page.phrase("Above sea level"), metres(blocks.elevation, Math.round)],
      [page.phrase("Deep in its cool pool"), metres(blocks.pool_depth, page.two)],
      [page.phrase("Spray order"), (block) => page.sprayPlace(app, block)],
      [page.phrase("Scouting order"), place(app.data.scouting)],
      [page.phrase("Class today"), (block) => page.chip(app, app.classOn(block, today))],
      [page.phrase("Hazard ahead"), (block) => page.two(blocks.ahead[block])],
      [page.phrase("Last look"), (block) => page.ago(blocks.looked[block])],
      [page.phrase("Protection left"), (block) => page.percent(app.protectionOn(block, today))],
      [page.phrase("Susceptible {organs}", { organs: app.words.organs }), (block) => page.percent(app.stageOn(block, today))],
      [page.phrase("Coldest, warmest today"), (block) => `${page.degrees(app.minimumOn(block, today), app.units)}, ${page.degrees(app.maximumOn(block, today), app.units)}`],
    ];
    const heads = ["", ...pair.map((block) => blocks.id[block])].map((words, place_) =>
      element("th", { scope: "col" }, place_ ? swatch(place_ - 1) : element("span", { class: "unseen" }, page.phrase("What")), words),
    );
    const lines = rows.map(([words, told]) =>
      element("tr", null, element("th", { scope: "row" }, words), ...pair.map((block) => element("td", null, told(block)))),
    );
    return element(
      "table",
      { class: "two" },
      element("caption", { class: "unseen" }, page.phrase("What is known of both")),
      element("thead", null, element("tr", null, ...heads)),
      element("tbody", null, ...lines),
    );
  }

  page.sprayPlace = function (app, block) {
    const entry = app.data.spray.entries.of(block);
    if (entry) return page.phrase("No. {rank}", { rank: entry.rank });
    if (app.barred.has(block)) return page.phrase("cannot now");
    return app.notWorth.has(block) ? page.phrase("not worth it") : page.phrase("not ranked");
  };

  /* From 1, which changes nothing, to the value: the bars of a block add up to its hazard. */
  function factors(app, pair) {
    const { id } = app.data.blocks;
    const { rows, total } = page.ratios(app, ...pair);
    const logs = rows
      .flatMap((row) => [row.value, row.other])
      .filter((value) => page.isKnown(value) && value > 0)
      .map(Math.log10);
    const low = Math.min(-1, Math.floor(Math.min(0, ...logs)));
    const high = Math.max(0.5, ...logs);
    const axis = { low, high, at: (value) => (100 * (Math.log10(value) - low)) / (high - low) };
    const whole =
      total === null
        ? page.phrase("No ratio: a factor is not known, or is 0.")
        : page.phrase("All eight together: {ratio}.", { ratio: page.times(total) });
    const [first, second] = pair.map((block) => id[block]);
    const about = page.phrase(
      "Bars run from 1 to the left where a factor lowers the hazard, to the right where it raises it, all on one log axis. × is {first} over {second}.",
      { first, second },
    );
    return element(
      "section",
      null,
      element("h3", null, page.phrase("Factors of both")),
      element("p", { class: "note" }, about),
      ticks(axis),
      ...rows.map((row) => factor(row, axis)),
      element("p", { class: "total" }, whole),
    );
  }

  function ticks(axis) {
    const marks = [];
    for (let power = axis.low; power <= axis.high; power++) {
      const mark = element("span", null, String(Number(Math.pow(DECADE, power).toPrecision(1))));
      mark.style.left = axis.at(Math.pow(DECADE, power)) + "%";
      marks.push(mark);
    }
    return element("div", { class: "scale", "aria-hidden": "true" }, ...marks);
  }

  function factor(row, axis) {
    const ratio = row.ratio === null ? page.phrase("no ratio") : page.isolated("×\u202f" + page.three(row.ratio));
    return element(
      "div",
      { class: "both" },
      element("span", { class: "name" }, row.factor.name),
      element("span", { class: "ratio" }, ratio),
      ...[row.value, row.other].flatMap((value, side) => [
        bar(value, axis, side),
        element("span", { class: "value" }, page.two(value)),
      ]),
    );
  }

  function bar(value, axis, side) {
    const fill = element("span", { class: "fill side-" + side });
    const track = element("span", { class: "track", "aria-hidden": "true" }, fill);
    track.style.setProperty("--one", axis.at(1) + "%");
    if (!page.isKnown(value)) return track;
    const [one, end] = [axis.at(1), value > 0 ? axis.at(value) : 0];
    fill.style.left = Math.min(one, end) + "%";
    fill.style.width = Math.abs(end - one) + "%";
    return track;
  }

  function days(app) {
    return element(
      "section",
      null,
      element("h3", null, page.phrase("Days of both")),
      element("div", { class: "chart-place" }),
      element("p", { class: "day-facts" }),
    );
  }

  /* What both are on the day shown. */
  page.besideWords = function (app) {
    const { day, data } = app;
    const told = [app.selected, app.compare].map((block) =>
      page.phrase("{block} index {index}", { block: data.blocks.id[block], index: page.two(app.hazardOn(block, day)) }),
    );
    return [element("strong", null, data.days.words[day] + ": "), told.join("; ") + "."];
  };
})(window.mangoPage);
