/* The three lists over one ranking: tabs, rows, the find box, and the keys that walk them. */
(function (page) {
  "use strict";

  const MOST_ROWS = 500;
  const { element } = page;

  page.chip = function (app, look) {
    const { words, unknown, colours } = app.data.classes;
    const picture = page.svg("svg", { class: "swatch", viewBox: "0 0 34 20", "aria-hidden": "true" });
    picture.append(
      page.svg("rect", { width: 34, height: 20, fill: look < 0 ? "#d9d7d0" : colours[look] }),
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
  };

  function nameCell(app, block) {
    const { id, name, area } = app.data.blocks;
    const own = name[block] === id[block] ? "" : id[block] + " · ";
    return element(
      "th",
      { scope: "row" },
      element("span", { class: "name" }, name[block]),
      element("small", null, own + page.area(area[block], app.units)),
    );
  }

  function row(app, block, ...cells) {
    const chosen = block === app.selected;
    return element(
      "tr",
      { "data-block": block, tabindex: -1, "aria-selected": String(chosen) },
      ...cells,
    );
  }

  function table(label, headings, rows) {
    const heads = headings.map(([words, kind]) => element("th", { scope: "col", class: kind }, words));
    const grid = element(
      "table",
      { role: "grid", "aria-label": label },
      element("thead", null, element("tr", null, ...heads)),
      element("tbody", null, ...rows),
    );
    if (rows.length) rows[0].tabIndex = 0;
    return grid;
  }

  const cell = (kind, ...children) => element("td", { class: kind }, ...children);

  function matches(app, block) {
    const { id, name } = app.data.blocks;
    return (id[block] + " " + name[block]).toLowerCase().includes(app.query);
  }

  function found(app, entries) {
    return entries.filter((entry) => matches(app, entry.block)).slice(0, MOST_ROWS);
  }

  function sprayList(app) {
    const { spray, farm, blocks } = app.data;
    const against = blocks.id[spray.reference];
    const rows = found(app, spray.entries).map((entry) =>
      row(
        app,
        entry.block,
        cell("rank", String(entry.rank)),
        nameCell(app, entry.block),
        cell("", page.chip(app, entry.class)),
        cell(
          "ratio",
          element("span", null, page.times(entry.ratio)),
          element("small", null, page.two(entry.low) + " to " + page.two(entry.high)),
        ),
      ),
    );
    const days = farm.horizon === 1 ? "today" : "the next " + farm.horizon + " days";
    const parts = [
      element("p", { class: "about" }, `For ${farm.material}, by hazard over ${days}.`),
      table("Spray order", [["#", "rank"], ["Block"], ["Class"], ["× of " + against, "ratio"]], rows),
    ];
    const cannot = found(app, spray.cannot);
    if (cannot.length) parts.push(...cannotNow(app, cannot));
    const rest = found(app, spray.unranked.map((block) => ({ block })));
    if (rest.length) parts.push(...notRanked(app, rest));
    return parts;
  }

  function cannotNow(app, entries) {
    const rows = entries.map((entry) => {
      const value = page.measure(entry.value, entry.unit, app.units);
      const limit = page.measure(entry.limit, entry.unit, app.units);
      const clears = entry.clears ? "Clears " + entry.clears : "Does not clear within the forecast";
      return row(
        app,
        entry.block,
        cell("rank", element("span", { class: "bar", title: "Cannot spray now" })),
        nameCell(app, entry.block),
        cell(
          "cannot",
          page.chip(app, entry.class),
          element("p", null, entry.reason),
          element(
            "small",
            null,
            `Rule ${entry.rule} (${entry.standing}): ${value} on ${entry.day}, limit ${limit}. ${clears}.`,
          ),
        ),
      );
    });
    return [
      element("h2", null, "Cannot now"),
      table("Cannot now", [["", "rank"], ["Block"], ["Why, and when it clears"]], rows),
    ];
  }

  function notRanked(app, entries) {
    const rows = entries.map(({ block }) =>
      row(app, block, cell("rank", "–"), nameCell(app, block), cell("", page.chip(app, -1))),
    );
    return [element("h2", null, "Not ranked"), table("Not ranked", [["", "rank"], ["Block"], ["Class"]], rows)];
  }

  function scoutingList(app) {
    const rows = found(app, app.data.scouting).map((entry) =>
      row(
        app,
        entry.block,
        cell("rank", String(entry.rank)),
        nameCell(app, entry.block),
        cell(
          "cannot",
          element("p", null, entry.reason),
          element(
            "small",
            null,
            `Doubt ${doubtWords(entry.doubt)}; stake ${page.two(entry.stake)}; last look ${page.ago(entry.looked)}.`,
          ),
        ),
      ),
    );
    return [
      element(
        "p",
        { class: "about" },
        "Where a look is worth most: much doubt and much at stake. Stake is hazard index times hectares.",
      ),
      table("Scouting order", [["#", "rank"], ["Block"], ["Why"]], rows),
    ];
  }

  /* The doubt is a standard deviation of a logarithm: said as a factor either way. */
  function doubtWords(doubt) {
    return page.isKnown(doubt) ? "×/÷\u202f" + page.two(Math.exp(doubt)) : "not known";
  }

  function dayList(app) {
    const entries = found(app, app.orderOn(app.day));
    const rows = entries.map(({ block, rank }) =>
      row(
        app,
        block,
        cell("rank", rank === null ? "–" : rank),
        nameCell(app, block),
        cell("", page.chip(app, app.classOn(block, app.day))),
        cell("ratio", page.two(app.hazardOn(block, app.day))),
      ),
    );
    return [
      element("p", { class: "about" }, "By hazard index on " + app.data.days.words[app.day] + "; “=” marks ties."),
      table("Blocks by day", [["#", "rank"], ["Block"], ["Class"], ["Index", "ratio"]], rows),
    ];
  }

  const LISTS = { spray: sprayList, scouting: scoutingList, day: dayList };

  page.addLists = function (app) {
    const lists = document.getElementById("lists");
    const tabs = [...document.querySelectorAll("[role=tab]")];

    function draw() {
      const focused = document.activeElement.closest ? document.activeElement.closest("#lists tr") : null;
      const panel = document.getElementById("list-" + app.tab);
      const parts = LISTS[app.tab](app);
      const empty = !parts.some((part) => part.querySelector && part.querySelector("tbody tr"));
      if (empty && app.query) parts.push(element("p", { class: "about" }, "No block by that name here."));
      panel.replaceChildren(...parts);
      if (focused) focusRow(panel.querySelector(`tr[data-block="${focused.dataset.block}"]`));
    }

    app.listen((changed) => {
      if (changed.tab) {
        for (const tab of tabs) {
          const open = tab.id === "tab-" + app.tab;
          tab.setAttribute("aria-selected", String(open));
          tab.tabIndex = open ? 0 : -1;
          document.getElementById(tab.getAttribute("aria-controls")).hidden = !open;
        }
        lists.scrollTop = 0;
      }
      if (changed.tab || changed.units || changed.query || (changed.day && app.tab === "day")) draw();
      if (changed.selected) markRow(app, lists);
    });
    for (const tab of tabs) tab.addEventListener("click", () => app.set({ tab: tab.id.slice(4) }));
    tabs[0].parentElement.addEventListener("keydown", (event) => walkTabs(app, tabs, event));
    lists.addEventListener("click", (event) => chooseRow(app, event));
    lists.addEventListener("keydown", (event) => walkRows(app, event));
    addFind(app, lists);
  };

  function addFind(app, lists) {
    const find = document.getElementById("find");
    find.addEventListener("input", () => app.set({ query: find.value.trim().toLowerCase() }));
    find.addEventListener("keydown", (event) => {
      const first = lists.querySelector("[role=tabpanel]:not([hidden]) tbody tr");
      if (event.key === "Enter" && first) app.choose(Number(first.dataset.block), "list");
    });
  }

  function markRow(app, lists) {
    for (const line of lists.querySelectorAll("tbody tr")) {
      const chosen = Number(line.dataset.block) === app.selected;
      line.setAttribute("aria-selected", String(chosen));
      if (chosen && app.chosenFrom === "map" && line.offsetParent) line.scrollIntoView({ block: "nearest" });
    }
  }

  function chooseRow(app, event) {
    const line = event.target.closest("tbody tr");
    if (!line) return;
    focusRow(line);
    app.choose(Number(line.dataset.block), "list");
  }

  function focusRow(line) {
    if (!line) return;
    for (const other of line.parentElement.children) other.tabIndex = -1;
    line.tabIndex = 0;
    line.focus({ preventScroll: false });
  }

  function walkTabs(app, tabs, event) {
    const at = tabs.findIndex((tab) => tab.id === "tab-" + app.tab);
    const last = tabs.length - 1;
    const to = {
      ArrowRight: at === last ? 0 : at + 1,
      ArrowLeft: at === 0 ? last : at - 1,
      Home: 0,
      End: last,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    app.set({ tab: tabs[to].id.slice(4) });
    tabs[to].focus();
  }

  function walkRows(app, event) {
    const line = event.target.closest("tbody tr");
    if (!line) return;
    const body = line.parentElement;
    const to = {
      ArrowDown: line.nextElementSibling,
      ArrowUp: line.previousElementSibling,
      Home: body.firstElementChild,
      End: body.lastElementChild,
    }[event.key];
    if (to !== undefined) {
      event.preventDefault();
      focusRow(to);
    } else if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      app.choose(Number(line.dataset.block), "list");
    }
  }
})(window.mangoPage);
