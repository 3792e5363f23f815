/* Why one block stands above another: eight ratios whose product is the ratio of their hazards. */
(function (page) {
  "use strict";

  const { element } = page;
  const LIMITS = [4, 10, 30, 100, 1000];

  /* Each factor of a block against the same factor of another. */
  page.ratios = function (app, block, against) {
    const rows = app.data.factors.map((factor, place) => {
      const value = app.factorOf(block, place);
      const other = app.factorOf(against, place);
      const ratio = page.isKnown(value) && page.isKnown(other) && other > 0 ? value / other : null;
      return { factor, value, other, ratio };
    });
    const { ahead } = app.data.blocks;
    const comparable = rows.every((row) => row.ratio !== null) && ahead[against] > 0;
    const total = comparable && page.isKnown(ahead[block]) ? ahead[block] / ahead[against] : null;
    return { rows, total, printed: printed(rows, total) };
  };

  const product = (values) => values.reduce((sofar, value) => sofar * value, 1);

  /* Three figures each, and so rounded that they multiply to the total's two figures. */
  function printed(rows, total) {
    const exact = rows.map((row) => row.ratio);
    const shown = exact.map((ratio) => (ratio === null ? null : Number(ratio.toPrecision(3))));
    if (total === null) return shown;
    const free = new Set(exact.keys());
    while (free.size && page.two(product(shown)) !== page.two(total)) {
      const up = product(shown) < total ? 1 : -1;
      const moved = (place) => {
        const size = Math.floor(Math.log10(shown[place]));
        return Number((shown[place] + up * Math.pow(10, size - 2)).toPrecision(3));
      };
      // Move the one that stays nearest to the truth; an exact one would be made wrong.
      const cost = (place) => Math.abs(Math.log(moved(place) / exact[place]));
      const open = [...free].filter((place) => Math.abs(shown[place] / exact[place] - 1) > 1e-5);
      if (!open.length) break;
      const best = open.reduce((a, b) => (cost(b) < cost(a) ? b : a));
      shown[best] = moved(best);
      free.delete(best);
    }
    return shown;
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

  function factorRow(row, shown, limit, names) {
    const values = `${page.two(row.value)} here, ${page.two(row.other)} in ${names.against}`;
    const summary = element(
      "summary",
      null,
      element("span", { class: "factor" }, row.factor.name),
      element("span", { class: "ratio" }, shown === null ? "no ratio" : "×\u202f" + page.three(shown)),
      bar(row.ratio, limit),
      element("small", { class: "values" }, values),
      element("small", { class: "standing " + row.factor.standing }, row.factor.standing),
    );
    const basis = element("p", { class: "basis" }, row.factor.basis + ".");
    return element("details", { class: "factor-row" }, summary, basis);
  }

  page.factorTable = function (app, block, against) {
    const { id } = app.data.blocks;
    const { rows, total, printed: shown } = page.ratios(app, block, against);
    const limit = limitOf(rows);
    const names = { against: id[against] };
    const axis = element(
      "div",
      { class: "axis", "aria-hidden": "true" },
      ...["÷\u202f" + limit, "same", "×\u202f" + limit].map((words) => element("span", null, words)),
    );
    const last = element(
      "p",
      { class: "total" },
      element("span", null, "All eight together"),
      element("span", { class: "ratio", id: "total" }, total === null ? "no ratio" : "×\u202f" + page.two(total)),
    );
    const list = rows.map((row, place) => factorRow(row, shown[place], limit, names));
    return [axis, ...list, last, element("p", { class: "note" }, note(total, id[block], id[against]))];
  };

  function note(total, block, against) {
    if (total === null) {
      return `No ratio: a factor is not known, or ${against} has none of it to compare with.`;
    }
    if (block === against) return "This is the block that the others are compared with.";
    const size = total >= 1 ? page.two(total) + " times" : page.two(total) + " of";
    return `The hazard ahead in ${block} is ${size} that in ${against}. The ratios multiply to it exactly.`;
  }
})(window.mangoPage);
