/* Why one block stands above another: eight ratios whose product is the ratio of their hazards. */
(function (page) {
  "use strict";

  const { element } = page;
  const LIMITS = [4, 10, 30, 100, 1000];

  /* What a number rests on, by the key that comes with it. */
  page.standings = {
    measured: page.phrase("measured"),
    published: page.phrase("published"),
    label: page.phrase("label"),
    assumed: page.phrase("assumed"),
  };

  /* Each factor of a block against the same factor of another. */
  page.ratios = function (app, block, against) {
    const rows = app.data.factors.map((factor, place) => {
      const value = app.factorOf(block, place);
      const other = app.factorOf(against, place);
      const ratio = page.isKnown(value) && page.isKnown(other) && other > 0 ? value / other : null;
      return { factor, value, other, ratio, standing: standingOf(app, factor, block, against) };
    });
    const { ahead } = app.data.blocks;
    const comparable = rows.every((row) => row.ratio !== null) && ahead[against] > 0;
    const total = comparable && page.isKnown(ahead[block]) ? ahead[block] / ahead[against] : null;
    return { rows, total };
  };

  /* A count is measured only where both blocks were counted. */
  function standingOf(app, factor, block, against) {
    const { looked } = app.data.blocks;
    const counted = page.isKnown(looked[block]) && page.isKnown(looked[against]);
    return factor.standing === "measured" && !counted ? "assumed" : factor.standing;
  }

  function limitOf(rows) {
    const sizes = rows.map((row) => (row.ratio ? Math.exp(Math.abs(Math.log(row.ratio))) : 1));
    const largest = Math.max(...sizes);
    return LIMITS.find((limit) => limit >= largest) || LIMITS[LIMITS.length - 1];
  }

  /* A bar from the middle (the same) to the right (raises) or to the left (lowers), on a log axis. */
  function bar(ratio, limit) {
    const track = element("span", { class: "track", "aria-hidden": "true" });
    const mark = element("span", { class: ratio >= 1 ? "mark raises" : "mark lowers" });
    if (ratio !== null) {
      const reach = ratio > 0 ? Math.log(ratio) / Math.log(limit) : -1;
      const half = Math.min(1, Math.abs(reach)) * 50;
      mark.style.left = (reach < 0 ? 50 - half : 50) + "%";
      mark.style.width = half + "%";
      track.append(mark);
    }
    return track;
  }

  function factorRow(row, limit, names) {
    const [here, there] = [page.two(row.value), page.two(row.other)];
    const values = page.phrase("{here} here, {there} in {other}", { here, there, other: names.against });
    const summary = element(
      "summary",
      null,
      element("span", { class: "factor" }, row.factor.name),
      element("span", { class: "ratio" }, row.ratio === null ? page.phrase("no ratio") : page.isolated("×\u202f" + page.three(row.ratio))),
      bar(row.ratio, limit),
      element("small", { class: "values" }, values),
      element("small", { class: "standing " + row.standing }, page.standings[row.standing]),
    );
    const basis = element("p", { class: "basis" }, row.factor.basis + ".");
    return element("details", { class: "factor-row" }, summary, basis);
  }

  page.factorTable = function (app, block, against) {
    const { id } = app.data.blocks;
    const { rows, total } = page.ratios(app, block, against);
    const limit = limitOf(rows);
    const names = { against: id[against] };
    const axis = element(
      "div",
      { class: "axis", "aria-hidden": "true" },
      ...["÷\u202f" + limit, page.phrase("same"), "×\u202f" + limit].map((words) => element("span", null, words)),
    );
    const last = element(
      "p",
      { class: "total" },
      element("span", null, page.phrase("All eight together")),
      element("span", { class: "ratio", id: "total" }, total === null ? page.phrase("no ratio") : page.times(total)),
    );
    const list = rows.map((row) => factorRow(row, limit, names));
    return [axis, ...list, last, element("p", { class: "note" }, note(total, id[block], id[against]))];
  };

  function note(total, block, against) {
    if (total === null) {
      return page.phrase("No ratio: a factor is not known, or {block} has none of it to compare with.", { block: against });
    }
    if (block === against) return page.phrase("This is the block that the others are compared with.");
    const values = { block, ratio: page.two(total), other: against };
    const size =
      total >= 1
        ? page.phrase("The hazard ahead in {block} is {ratio} times that in {other}.", values)
        : page.phrase("The hazard ahead in {block} is {ratio} of that in {other}.", values);
    return size + " " + page.phrase("Before rounding, the ratios multiply to it exactly.");
  }
})(window.mangoPage);
