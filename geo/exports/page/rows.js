/* Rows of the lists: how they look, when they are made, and the keys that walk them. */
(function (page) {
  "use strict";

  const AT_FIRST = 40; // more rows than any screen shows: the rest are made when the browser is idle
  const AT_ONCE = 60; // of those, so that a slow phone answers in between
  const LATEST = 3000; // milliseconds, for a browser that is never idle
  const STILL = 18; // milliseconds to spare that there are only while nothing moves: more than a frame
  const whenIdle = window.requestIdleCallback || ((then) => setTimeout(then, 50));
  const { element } = page;

  const chips = new Map();

  /* A class in colour, hatch and word. They are many and alike: each is made once and copied. */
  page.chip = function (app, look) {
    if (!chips.has(look)) chips.set(look, newChip(app, look));
    return chips.get(look).cloneNode(true);
  };

  function newChip(app, look) {
    const { words, unknown, colours } = app.data.classes;
    const picture = page.svg("svg", { class: "swatch", viewBox: "0 0 34 20", "aria-hidden": "true" });
    picture.append(
      page.svg("rect", { width: 34, height: 20, fill: look < 0 ? page.unknownFill : colours[look] }),
    );
    if (look === colours.length - 1) {
      picture.append(
        page.svg("path", { class: "hatch", d: "M-6 12L8 -2M0 20L22 -2M12 22L36 -2M26 22L40 8" }),
      );
    } else if (look < 0) {
      picture.append(
        page.svg("path", { class: "hatch-unknown", d: "M-4 6L10 20M2 -2L24 20M14 -2L36 20M26 -2L38 10" }),
      );
    }
    picture.append(page.svg("rect", { class: "rim", x: 0.6, y: 0.6, width: 32.8, height: 18.8 }));
    return element("span", { class: "chip" }, picture, look < 0 ? unknown : words[look]);
  }

  /* Beside the spray order: where the earlier run had the block, and the ratio of its hazard. */
  function moved(app, block) {
    const { since } = app.data;
    if (app.tab !== "spray" || !since || !since.brief[block]) return null;
    return element(
      "small",
      { class: "moved" },
      since.brief[block],
      element("span", { class: "unseen" }, " " + page.phrase("since {day}", { day: since.day })),
    );
  }

  page.nameCell = function (app, block) {
    const { id, name, area } = app.data.blocks;
    const own = name[block] === id[block] ? [] : [element("bdi", null, id[block]), " · "];
    return element(
      "th",
      { scope: "row" },
      element("bdi", { class: "name" }, name[block]),
      element("small", null, ...own, page.area(area[block], app.units)),
      moved(app, block),
    );
  };

  page.row = function (app, block, ...cells) {
    const chosen = block === app.selected;
    return element(
      "tr",
      { "data-block": block, tabindex: -1, "aria-selected": String(chosen) },
      ...cells,
    );
  };

  // What is still to be made of the list that is open: tables with their entries and their maker.
  let unmade = [];
  let room = 0;

  page.startRows = function () {
    unmade = [];
    room = AT_FIRST;
  };

  /* Whoever looks for a row by its block needs all of them. */
  page.makeAllRows = function () {
    while (unmade.length) makeSome(Infinity);
  };

  function makeSome(most) {
    const { body, entries, rowOf } = unmade[0];
    body.append(...entries.splice(0, most).map(rowOf));
    if (!body.querySelector("[tabindex='0']")) body.rows[0].tabIndex = 0;
    if (!entries.length) unmade.shift();
  }

  page.makeRowsWhenIdle = function () {
    const own = unmade;
    const make = (idle) => {
      // Another list may have been opened meanwhile, or all have been made.
      if (own !== unmade || !own.length) return;
      if (!idle || idle.didTimeout || idle.timeRemaining() > STILL) makeSome(AT_ONCE);
      whenIdle(make, { timeout: LATEST });
    };
    // After the frame that shows the first ones.
    requestAnimationFrame(() => requestAnimationFrame(() => whenIdle(make, { timeout: LATEST })));
  };

  /* A table of the list: rowOf makes a row of an entry. */
  page.table = function (label, headings, entries, rowOf) {
    const rows = entries.slice(0, room).map(rowOf);
    const body = element("tbody", null, ...rows);
    if (rows.length < entries.length) unmade.push({ body, entries: entries.slice(rows.length), rowOf });
    room -= rows.length;
    const heads = headings.map(([words, kind]) => element("th", { scope: "col", class: kind }, words));
    const grid = element(
      "table",
      { role: "grid", "aria-label": label },
      element("thead", null, element("tr", null, ...heads)),
      body,
    );
    if (rows.length) rows[0].tabIndex = 0;
    return grid;
  };

  page.cell = (kind, ...children) => element("td", { class: kind }, ...children);

  page.focusRow = function (line) {
    if (!line) return;
    for (const other of line.parentElement.children) other.tabIndex = -1;
    line.tabIndex = 0;
    line.focus({ preventScroll: false });
  };

  page.walkRows = function (app, event) {
    const line = event.target.closest("tbody tr");
    if (!line) return;
    page.makeAllRows();
    const body = line.parentElement;
    const to = {
      ArrowDown: line.nextElementSibling,
      ArrowUp: line.previousElementSibling,
      Home: body.firstElementChild,
      End: body.lastElementChild,
    }[event.key];
    if (to !== undefined) {
      event.preventDefault();
      page.focusRow(to);
    } else if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      app.choose(Number(line.dataset.block), "list");
    }
  };
})(window.mangoPage);
