/* Blocks without a number in the spray order, and why. */
(function (page) {
  "use strict";

  const { element, cell, nameCell, row, table } = page;
  const heads = (reason) => [["", "rank"], [page.phrase("Block"), "third"], [reason]];

  page.notWorth = function (app, entries) {
    const rowOf = (entry) =>
      row(
        app,
        entry.block,
        cell("rank", element("span", { class: "ring", title: page.phrase("Not worth it now") })),
        nameCell(app, entry.block),
        cell("cannot", page.chip(app, entry.class), element("p", null, page.said(app, entry.reason))),
      );
    return [
      element("h2", null, page.phrase("Not worth it now")),
      element(
        "p",
        { class: "about" },
        page.phrase("Open today, and a spray would add little. Judged without costs: no money is reckoned at this level."),
      ),
      table(page.phrase("Not worth it now"), heads(page.phrase("Why")), entries, rowOf),
    ];
  };

  page.cannotNow = function (app, entries) {
    const rowOf = (entry) => {
      const clears = entry.clears
        ? page.phrase("Clears {hour}.", { hour: entry.clears })
        : page.phrase("Does not clear within the forecast.");
      return row(
        app,
        entry.block,
        cell("rank", element("span", { class: "bar", title: page.phrase("Cannot spray now") })),
        nameCell(app, entry.block),
        cell(
          "cannot",
          page.chip(app, entry.class),
          element("p", null, forecastWords(app, entry)),
          element("small", null, clears),
        ),
      );
    };
    const rules = app.data.spray.rules.map((rule) => {
      const limit = page.measure(rule.limit, rule.unit, app.units);
      return element("p", { class: "about" }, page.phrase("{rule}: {limit}.", { rule: rule.words, limit }) + ` ${rule.standing}.`);
    });
    return [
      element("h2", null, page.phrase("Cannot now")),
      ...rules,
      table(page.phrase("Cannot now"), heads(page.phrase("Why, and when it clears")), entries, rowOf),
    ];
  };

  /* What the rule found, and for which day. */
  function forecastWords(app, { title, value, unit, day }) {
    const found = page.measure(value, unit, app.units);
    if (title) return page.phrase("{rule}: {found} on {day}.", { rule: title, found, day });
    return page.isKnown(value)
      ? page.phrase("{found} on {day}.", { found, day })
      : page.phrase("No forecast on {day}.", { day });
  }

  page.notRanked = function (app, entries) {
    const rowOf = ({ block, reason }) =>
      row(app, block, cell("rank", "–"), nameCell(app, block), cell("cannot", element("p", null, page.said(app, reason))));
    const words = page.phrase("Not ranked");
    return [element("h2", null, words), table(words, heads(page.phrase("Why")), entries, rowOf)];
  };
})(window.mangoPage);
