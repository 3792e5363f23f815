/* Blocks without a number in the spray order, and why. */
(function (page) {
  "use strict";

  const { element, cell, nameCell, row, table } = page;

  page.notWorth = function (app, entries) {
    const rows = entries.map((entry) =>
      row(
        app,
        entry.block,
        cell("rank", element("span", { class: "ring", title: "Not worth it now" })),
        nameCell(app, entry.block),
        cell("cannot", page.chip(app, entry.class), element("p", null, page.said(app, entry.reason))),
      ),
    );
    return [
      element("h2", null, "Not worth it now"),
      element("p", { class: "about" }, "Open today, and a spray would add little. Judged without costs: no money is reckoned at this level."),
      table("Not worth it now", [["", "rank"], ["Block", "third"], ["Why"]], rows),
    ];
  };

  page.cannotNow = function (app, entries) {
    const rows = entries.map((entry) => {
      const known = page.isKnown(entry.value);
      const measured = known ? page.measure(entry.value, entry.unit, app.units) : "not known";
      const value = entry.title ? `${entry.title}: ${measured}` : known ? measured : "No forecast";
      const clears = entry.clears ? "Clears " + entry.clears : "Does not clear within the forecast";
      return row(
        app,
        entry.block,
        cell("rank", element("span", { class: "bar", title: "Cannot spray now" })),
        nameCell(app, entry.block),
        cell(
          "cannot",
          page.chip(app, entry.class),
          element("p", null, `${value} on ${entry.day}.`),
          element("small", null, clears + "."),
        ),
      );
    });
    const rules = app.data.spray.rules.map((rule) => {
      const limit = page.measure(rule.limit, rule.unit, app.units);
      return element("p", { class: "about" }, `${rule.words}: ${limit}. ${rule.standing}.`);
    });
    return [
      element("h2", null, "Cannot now"),
      ...rules,
      table("Cannot now", [["", "rank"], ["Block", "third"], ["Why, and when it clears"]], rows),
    ];
  };

  page.notRanked = function (app, entries) {
    const rows = entries.map(({ block, reason }) =>
      row(app, block, cell("rank", "–"), nameCell(app, block), cell("cannot", element("p", null, page.said(app, reason)))),
    );
    return [element("h2", null, "Not ranked"), table("Not ranked", [["", "rank"], ["Block", "third"], ["Why"]], rows)];
  };
})(window.mangoPage);
