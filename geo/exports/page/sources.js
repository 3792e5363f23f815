/* Where the spores of a block come from. */
(function (page) {
  "use strict";

  const { element } = page;

  /* Shares of all the spores that reach the block today; the background stands apart, at the end. */
  page.sources = function (app, block) {
    const { top, background, words } = app.data.sources;
    const beyond = background[block];
    const title = element("h3", null, page.phrase("Where its spores come from"));
    if (!page.isKnown(beyond)) return element("section", null, title, element("p", null, page.phrase("Not known.")));
    const rows = top[block].map(([source, share]) => {
      const whose = source === block ? page.phrase("The block itself") : nameOf(app, source);
      return shareRow(whose, share, source === block ? "own" : "");
    });
    const rest = 1 - beyond - top[block].reduce((sum, [, share]) => sum + share, 0);
    if (rest > 0.005) rows.push(shareRow(page.phrase("Other outlines on the map"), rest, ""));
    rows.push(shareRow(page.phrase("Background, from beyond the map"), beyond, "apart"));
    return element(
      "section",
      null,
      title,
      element("p", { class: "note" }, page.phrase("Shares of all that reaches it today. The background is assumed and never zero.")),
      element("ul", { class: "sources" }, ...rows),
      element("p", { class: "reason" }, words[block]),
    );
  };

  /* Blocks come first among the sources, neighbours after them. */
  function nameOf(app, source) {
    const { count } = app.outlines;
    return source < count ? app.data.blocks.name[source] : app.data.neighbours.name[source - count];
  }

  function shareRow(words, share, kind) {
    const fill = element("span", { class: "fill" });
    fill.style.width = 100 * share + "%";
    return element(
      "li",
      { class: kind },
      element("span", null, page.isolated(words)),
      element("span", { class: "track", "aria-hidden": "true" }, fill),
      element("span", { class: "ratio" }, page.percent(share)),
    );
  }
})(window.mangoPage);
