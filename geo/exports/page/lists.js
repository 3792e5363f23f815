/* The three lists over one ranking: tabs, what each list says, and the find box. */
(function (page) {
  "use strict";

  const ROWS_AT_ONCE = 300;
  const PLACE = {
    due: page.phrase("Due for a look."),
    drawn: page.phrase("Its place is drawn by lot."),
    closed: page.phrase("Closed to people now."),
  };
  const { element, cell, nameCell, row, table } = page;

  function matches(app, block) {
    const { id, name } = app.data.blocks;
    return !app.query || (id[block] + " " + name[block]).toLowerCase().includes(app.query);
  }

  /* The first rows of a table that hold what is looked for, and how many there are in all. */
  function found(app, entries) {
    const { length, blocks } = entries;
    const rows = [];
    let count = 0;
    for (let place = 0; place < length; place++) {
      if (!matches(app, blocks[place])) continue;
      if (rows.length < app.mostRows) rows.push(entries.at(place));
      count++;
    }
    return Object.assign(rows, { count });
  }

  /* For the rows that are not shown yet. */
  function more(app, rows) {
    const rest = rows.count - rows.length;
    if (!rest) return [];
    const words = page.phrase("Show {more} more of {count}", { more: Math.min(rest, ROWS_AT_ONCE), count: rows.count });
    const button = element("button", { type: "button", class: "more" }, words);
    button.addEventListener("click", () => {
      const which = tablesShown().indexOf(button.previousElementSibling);
      app.set({ mostRows: app.mostRows + ROWS_AT_ONCE });
      page.makeAllRows();
      page.focusRow(tablesShown()[which].tBodies[0].rows[rows.length]);
    });
    return [button];
  }

  const tablesShown = () => [...document.querySelectorAll("#lists [role=tabpanel]:not([hidden]) table")];

  function sprayList(app) {
    const { spray, farm, blocks } = app.data;
    const against = blocks.id[spray.reference];
    const entries = found(app, spray.entries);
    const rowOf = (entry) =>
      row(
        app,
        entry.block,
        cell("rank", String(entry.rank)),
        nameCell(app, entry.block),
        cell("", page.chip(app, entry.class), sprayerHours(entry), entry.beyond ? element("small", null, page.phrase("beyond today")) : null),
        cell(
          "ratio",
          element("span", null, page.two(entry.loss)),
          element("small", null, ...(entry.block === spray.reference ? [page.phrase("reference")] : interval(entry))),
        ),
      );
    const isByHour = spray.loss_for === "hour";
    const about = app.words.material + " " + page.phrase("Loss if left; × of {block}.", { block: against });
    const heads = [
      ["#", "rank"],
      [page.phrase("Block")],
      [page.phrase("Class"), "class"],
      [isByHour ? page.phrase("Loss/h") : page.phrase("Loss/ha"), "ratio"],
    ];
    const parts = [element("p", { class: "about" }, about)];
    if (entries.length) {
      const foot = sprayFoot(spray, farm, against, isByHour);
      parts.push(table(page.phrase("Spray order"), heads, entries, rowOf), ...more(app, entries), element("p", { class: "about" }, foot));
    } else if (!app.query) {
      const none = page.phrase("No block to spray for {disease} now.", { disease: app.words.name });
      parts.push(element("p", { class: "about" }, none));
    }
    const apart = found(app, spray.apart);
    if (apart.length) parts.push(...page.notWorth(app, apart), ...more(app, apart));
    const cannot = found(app, spray.cannot);
    if (cannot.length) parts.push(...page.cannotNow(app, cannot), ...more(app, cannot));
    const rest = found(app, spray.unranked);
    if (rest.length) parts.push(...page.notRanked(app, rest), ...more(app, rest));
    return parts;
  }

  function sprayFoot(spray, farm, against, isByHour) {
    const said = [
      isByHour
        ? page.phrase("Loss: for each hour of sprayer, in hectare-days of index 1, until the block is next open.")
        : page.phrase("Loss: for each hectare, in hectare-days of index 1, until the block is next open."),
      page.phrases(
        "Class, and × of {block}: the mean of {day}.",
        "Class, and × of {block}: the mean of {count} days from {day}.",
        farm.horizon,
        { block: against, day: farm.first },
      ),
    ];
    if (page.isKnown(spray.hours_today)) {
      const hours = page.two(spray.hours_today);
      said.push(page.phrase("“Beyond today” is what {hours} h of sprayer do not reach, driving not counted.", { hours }));
    }
    return said.join(" ");
  }

  function sprayerHours(entry) {
    if (!page.isKnown(entry.hours)) return null;
    return element("small", null, page.phrase("takes {hours}\u00a0h", { hours: page.two(entry.hours) }));
  }

  function interval(entry) {
    const bounds = page.isolated(`(${page.two(entry.low)}–${page.two(entry.high)})`);
    return [page.times(entry.ratio) + " ", element("span", { class: "whole" }, bounds)];
  }

  function scoutingList(app) {
    const entries = found(app, app.data.scouting);
    const rowOf = (entry) =>
      row(
        app,
        entry.block,
        cell("rank", String(entry.rank)),
        nameCell(app, entry.block),
        cell(
          "cannot",
          element("p", null, stakeWords(entry)),
          element("small", null, [lookWords(app, entry), PLACE[entry.chosen]].filter(Boolean).join(" ")),
          element("small", null, treesWords(app, entry)),
          element("small", null, entry.chosen === "closed" ? page.said(app, entry.when) : null),
        ),
      );
    const heads = [["#", "rank"], [page.phrase("Block"), "third"], [page.phrase("Why")]];
    return [
      element("p", { class: "about" }, page.said(app, app.words.walk), " ", ...tallyLink(app)),
      table(page.phrase("Scouting order"), heads, entries, rowOf),
      ...more(app, entries),
      element(
        "p",
        { class: "about" },
        page.phrase(
          "Where an hour of looking is worth most: near the hazard of the middle block (a stand-in, without money, for the line from which a spray is worth it), with much doubt that a look settles, on many hectares. Doubt is how many times more or less the hazard may be by its count, stage, cultivars and ground alone; stake is the hazard index times hectares.",
        ),
      ),
    ];
  }

  function tallyLink(app) {
    const isThere = app.data.links.some((link) => link.href === "tally.html");
    return isThere ? [element("a", { href: "tally.html" }, page.phrase("Tally on this device"))] : [];
  }

  function lookWords(app, { block, looked }) {
    const seen = page.ago(app.data.blocks.stage_age[block]);
    if (!page.isKnown(looked)) return page.phrase("Never counted, stage seen {seen}.", { seen });
    return page.phrase("Counted {counted}, stage seen {seen}.", { counted: page.ago(looked), seen });
  }

  /* How far off the hazard may be either way: as in the sentence beside it. */
  function stakeWords({ within, stake }) {
    const doubt = page.isKnown(within) ? "×/÷\u202f" + page.two(within) : page.phrase("not known");
    return page.phrase("Doubt {doubt}, stake {stake}", { doubt, stake: page.two(stake) });
  }

  function treesWords(app, { trees, each }) {
    return page.phrase("{trees} trees, {each} {organs} on each.", { trees, each, organs: app.words.organs });
  }

  function dayList(app) {
    if (app.allDays) return [page.daysSwitch(app), ...page.heat(app, everyDay(app))];
    const entries = found(app, app.orderOn(app.day));
    const rowOf = ({ block, rank }) =>
      row(
        app,
        block,
        cell("rank", rank === null ? "–" : rank),
        nameCell(app, block),
        cell("", page.chip(app, app.classOn(block, app.day))),
        cell("ratio", page.two(app.hazardOn(block, app.day))),
      );
    const heads = [
      ["#", "rank"],
      [page.phrase("Block")],
      [page.phrase("Class"), "class"],
      [page.phrase("Index"), "ratio"],
    ];
    return [
      page.daysSwitch(app),
      element("p", { class: "about" }, page.phrase("By hazard index on {day}; “=” marks ties.", { day: app.data.days.words[app.day] })),
      table(page.phrase("Blocks by day"), heads, entries, rowOf),
      ...more(app, entries),
    ];
  }

  function everyDay(app) {
    return Array.from(app.orderOn(app.day).blocks.filter((block) => matches(app, block)));
  }

  const LISTS = { spray: sprayList, scouting: scoutingList, day: dayList };

  page.addLists = function (app) {
    const lists = document.getElementById("lists");
    const tabs = [...document.querySelectorAll("[role=tab]")];

    function draw() {
      const focused = document.activeElement.closest ? document.activeElement.closest("#lists tr") : null;
      const panel = document.getElementById("list-" + app.tab);
      page.startRows();
      const parts = LISTS[app.tab](app);
      const empty = !parts.some((part) => part.querySelector && part.querySelector("tbody tr, .heat-row"));
      if (empty && app.query) parts.push(element("p", { class: "about" }, page.phrase("No block by that name here.")));
      panel.replaceChildren(...parts);
      page.makeRowsWhenIdle();
      if (focused) page.makeAllRows();
      if (focused) page.focusRow(panel.querySelector(`tr[data-block="${focused.dataset.block}"]`));
    }

    app.listen((changed) => {
      if (changed.tab || changed.query) app.mostRows = ROWS_AT_ONCE;
      if (changed.tab) {
        for (const tab of tabs) {
          const open = tab.id === "tab-" + app.tab;
          tab.setAttribute("aria-selected", String(open));
          tab.tabIndex = open ? 0 : -1;
          document.getElementById(tab.getAttribute("aria-controls")).hidden = !open;
        }
        lists.scrollTop = 0;
      }
      if (changed.tab || changed.units || changed.query || changed.allDays || changed.mostRows || (changed.day && app.tab === "day")) draw();
      if (changed.selected) markRow(app, lists);
    });
    for (const tab of tabs) tab.addEventListener("click", () => app.set({ tab: tab.id.slice(4) }));
    tabs[0].parentElement.addEventListener("keydown", (event) => walkTabs(app, tabs, event));
    lists.addEventListener("click", (event) => chooseRow(app, event));
    lists.addEventListener("keydown", (event) => page.walkRows(app, event));
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
    page.makeAllRows();
    for (const line of lists.querySelectorAll("tbody tr")) {
      const chosen = Number(line.dataset.block) === app.selected;
      line.setAttribute("aria-selected", String(chosen));
      if (chosen && app.chosenFrom === "map" && line.offsetParent) line.scrollIntoView({ block: "nearest" });
    }
  }

  function chooseRow(app, event) {
    const line = event.target.closest("tbody tr");
    if (!line) return;
    page.focusRow(line);
    app.choose(Number(line.dataset.block), "list");
  }

  function walkTabs(app, tabs, event) {
    const at = tabs.findIndex((tab) => tab.id === "tab-" + app.tab);
    const last = tabs.length - 1;
    const to = {
      [page.isRightToLeft ? "ArrowLeft" : "ArrowRight"]: at === last ? 0 : at + 1,
      [page.isRightToLeft ? "ArrowRight" : "ArrowLeft"]: at === 0 ? last : at - 1,
      Home: 0,
      End: last,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    app.set({ tab: tabs[to].id.slice(4) });
    tabs[to].focus();
  }
})(window.mangoPage);
