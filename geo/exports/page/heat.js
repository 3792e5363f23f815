/* All blocks by all days as one drawing: a row a block, a cell a day, classes in colours and digits. */
(function (page) {
  "use strict";

  const { element, svg } = page;
  const ROW = 20;
  const HEAD = 24;
  const MOST_LETTERS = 9; // of a name
  const LETTER = 8; // pixels of each, with air
  const ROOM_FOR_DIGIT = 10; // pixels of a column
  const ROOM_FOR_DATE = 17;
  const MOST_ROWS = 500;

  const digit = (look) => (look < 0 ? "?" : String(look + 1));

  /* Days in a row of the same class. */
  function runs(app, block) {
    const found = [];
    app.data.days.words.forEach((_, day) => {
      const look = app.classOn(block, day);
      const last = found[found.length - 1];
      if (last && last.look === look) last.days++;
      else found.push({ look, first: day, days: 1 });
    });
    return found;
  }

  function patterns() {
    const of = (id, d) =>
      svg("pattern", { id, width: 6, height: 6, patternUnits: "userSpaceOnUse" }, svg("path", { class: id, d }));
    return svg(
      "defs",
      null,
      of("heat-top", "M-1 1L1 -1M0 6L6 0M5 7L7 5"),
      of("heat-unknown", "M-1 5L1 7M0 0L6 6M5 -1L7 1"),
    );
  }

  /* As wide as the longest name asks for, within reason. */
  const namesOf = (app, blocks) =>
    10 + LETTER * blocks.reduce((most, block) => Math.max(most, Math.min(app.data.blocks.id[block].length, MOST_LETTERS)), 2);

  function cells(app, block, place, { names, step }) {
    const { colours } = app.data.classes;
    const top = HEAD + place * ROW;
    const parts = [];
    for (const { look, first, days } of runs(app, block)) {
      const box = { x: names + first * step, y: top + 1, width: days * step, height: ROW - 2 };
      parts.push(svg("rect", { ...box, fill: look < 0 ? page.unknownFill : colours[look] }));
      const hatch = look < 0 ? "heat-unknown" : look === colours.length - 1 ? "heat-top" : null;
      if (hatch) parts.push(svg("rect", { ...box, fill: `url(#${hatch})` }));
      if (step < ROOM_FOR_DIGIT) continue;
      const kind = look === colours.length - 1 ? "heat-digit light" : "heat-digit";
      parts.push(svg("text", { class: kind, x: box.x + step / 2, y: top + ROW / 2 }, digit(look)));
    }
    return parts;
  }

  function row(app, block, place, frame) {
    const name = app.data.blocks.id[block];
    const shown = name.length > MOST_LETTERS ? name.slice(0, MOST_LETTERS - 1) + "…" : name;
    return svg(
      "g",
      { class: block === app.selected ? "heat-row chosen" : "heat-row", "data-block": block },
      svg("text", { class: "heat-name", x: 2, y: HEAD + place * ROW + ROW / 2 }, shown),
      ...cells(app, block, place, frame),
    );
  }

  /* The number of the day of the month, as often as there is room. */
  function dates(app, { names, step }) {
    const every = Math.max(1, Math.ceil(ROOM_FOR_DATE / step));
    return app.data.days.words
      .map((words, day) => [words.split(" ")[1], day])
      .filter(([, day]) => (day - app.data.days.today) % every === 0)
      .map(([number, day]) =>
        svg(
          "text",
          { class: day === app.data.days.today ? "heat-date strong" : "heat-date", x: names + (day + 0.5) * step, y: 15 },
          number,
        ),
      );
  }

  function drawing(app, blocks, width) {
    const { words, today } = app.data.days;
    const names = namesOf(app, blocks);
    const step = (width - names - 2) / words.length;
    const frame = { names, step };
    const height = HEAD + blocks.length * ROW + 2;
    const ahead = names + (today + 1) * step;
    const picture = svg(
      "svg",
      {
        class: "heat",
        role: "img",
        width,
        height,
        viewBox: `0 0 ${width} ${height}`,
        "aria-label": page.phrases(
          "Class of {count} block on each day from {first} to {last}",
          "Classes of {count} blocks on each day from {first} to {last}",
          blocks.length,
          { first: words[0], last: words[words.length - 1] },
        ),
      },
      patterns(),
      ...dates(app, frame),
      ...blocks.map((block, place) => row(app, block, place, frame)),
      svg("path", { class: "heat-ahead", d: `M${ahead} ${HEAD - 4}V${height}` }),
      svg("rect", { class: "heat-day", x: names + app.day * step, y: HEAD - 1, width: step, height: height - HEAD }),
    );
    picture.addEventListener("click", (event) => {
      const box = picture.getBoundingClientRect();
      const scale = width / box.width;
      const place = Math.floor(((event.clientY - box.top) * scale - HEAD) / ROW);
      const day = Math.floor(((event.clientX - box.left) * scale - names) / step);
      if (!(place in blocks)) return;
      if (day >= 0 && day < words.length) app.set({ day });
      app.choose(blocks[place], "list");
    });
    return picture;
  }

  /* What a file of its own must say, since nobody sees the page beside it. */
  function told(app) {
    const { words, unknown } = app.data.classes;
    const key = words.map((word, look) => `${digit(look)} ${word}`).join(", ");
    return [...page.savedHead(app), `${key}, ? ${unknown}`];
  }

  /* One day as a list, or all of them as a drawing. */
  page.daysSwitch = function (app) {
    const button = (words, all) => {
      const one = element("button", { type: "button", "aria-pressed": String(app.allDays === all) }, words);
      one.addEventListener("click", () => {
        app.set({ allDays: all });
        document.querySelector(".days-switch [aria-pressed=true]").focus();
      });
      return one;
    };
    return element(
      "div",
      { class: "days-switch switch", role: "group", "aria-label": page.phrase("By day") },
      button(page.phrase("One day"), false),
      button(page.phrase("All days"), true),
    );
  };

  page.heat = function (app, blocks) {
    const panel = document.getElementById("list-day");
    const edges = 2 * parseFloat(getComputedStyle(document.querySelector(".lists .about") || panel).paddingLeft);
    const shown = blocks.slice(0, MOST_ROWS);
    const picture = drawing(app, shown, Math.max(280, panel.clientWidth - (edges || 40)));
    return [
      element(
        "p",
        { class: "about" },
        page.phrase("The class of each block by day, right of the dotted line as forecast: 1 is {low}, {most} is {high}. Sorted by the hazard of {day}.", {
          low: app.data.classes.words[0].toLowerCase(),
          most: app.data.classes.words.length,
          high: app.data.classes.words[app.data.classes.words.length - 1].toLowerCase(),
          day: app.data.days.words[app.day],
        }),
        blocks.length > MOST_ROWS ? " " + page.phrase("Only the first {most} are drawn: find narrows them.", { most: MOST_ROWS }) : null,
      ),
      element("div", { class: "heat-place" }, picture),
      page.saveButtons(picture, "blocks-by-day", () => told(app)),
    ];
  };

  /* The chosen block is framed without drawing everything anew. */
  page.addHeat = function (app) {
    app.listen((changed) => {
      if (!changed.selected) return;
      for (const line of document.querySelectorAll(".heat-row")) {
        line.classList.toggle("chosen", Number(line.dataset.block) === app.selected);
      }
    });
  };
})(window.mangoPage);
