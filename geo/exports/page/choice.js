/* A choice among all blocks: a list to pick from, or, where they are many, a box to type into. */
(function (page) {
  "use strict";

  const { element } = page;
  const MOST_OPTIONS = 500;
  const MOST_OFFERED = 20; // while somebody types

  function wordsOf(app, block) {
    const { id, name } = app.data.blocks;
    const text = id[block];
    return text === name[block] ? text : `${page.isolated(text)} · ${page.isolated(name[block])}`;
  }

  /* Calls `take` with the block that was chosen. */
  page.blockChoice = function (app, chosen, attributes, take) {
    return app.outlines.count > MOST_OPTIONS ? typed(app, chosen, attributes, take) : listed(app, chosen, attributes, take);
  };

  function listed(app, chosen, attributes, take) {
    const select = element("select", attributes);
    for (let block = 0; block < app.outlines.count; block++) {
      select.append(element("option", { value: block, selected: block === chosen }, wordsOf(app, block)));
    }
    select.addEventListener("change", () => take(Number(select.value)));
    return select;
  }

  /* The browser's own list of what fits, so that keys and screen readers know it. */
  function typed(app, chosen, attributes, take) {
    const offered = "offered-" + (attributes["data-side"] ?? "");
    const box = element("input", { ...attributes, type: "text", list: offered, autocomplete: "off", value: wordsOf(app, chosen) });
    const list = element("datalist", { id: offered });
    box.addEventListener("focus", () => box.select());
    box.addEventListener("input", () => {
      const fit = page.blocksLike(app, box.value, MOST_OFFERED);
      list.replaceChildren(...fit.map((block) => element("option", { value: wordsOf(app, block) })));
    });
    box.addEventListener("change", () => {
      const fit = page.blocksLike(app, box.value, MOST_OFFERED);
      const exact = fit.find((block) => [app.data.blocks.id[block], wordsOf(app, block)].includes(box.value.trim()));
      const found = exact ?? fit[0];
      if (found === undefined) box.value = wordsOf(app, chosen);
      else take(found);
    });
    return element("span", { class: "typed" }, box, list);
  }

  const plain = (words) => words.replace(/[\u2068\u2069]/g, "").trim().toLowerCase();

  /* Blocks whose id and name hold the words; the first so many of them. */
  page.blocksLike = function (app, words, most) {
    const wanted = plain(words);
    const { id, name } = app.data.blocks;
    const found = [];
    for (let block = 0; block < app.outlines.count && found.length < most; block++) {
      const [own, called] = [id[block], name[block]];
      if (`${own} ${called}`.toLowerCase().includes(wanted) || plain(wordsOf(app, block)).includes(wanted)) found.push(block);
    }
    return found;
  };
})(window.mangoPage);
