/* What of the user's own label file could be sprayed in a block: a suggestion, never more. */
(function (page) {
  "use strict";

  const { element } = page;

  page.materials = function (app, block) {
    const data = app.data.materials;
    if (!data) return null;
    const title = element("h3", null, page.phrase("What could be sprayed: check the label"));
    if (data.need) return element("section", null, title, element("p", { class: "note" }, data.need));
    const effects = data.effects[app.words.key];
    const order = data.materials
      .map((material, place) => ({ material, effect: effects[place] }))
      .sort((one, other) => isShut(one, block) - isShut(other, block) || other.effect.expected - one.effect.expected);
    const note = page.phrase(
      "From your own label file, for {disease}. The share is of infections prevented when fresh; its sources are in materials.csv. Nothing is picked here.",
      { disease: app.words.name },
    );
    return element(
      "section",
      { class: "materials" },
      title,
      element("ul", null, ...order.map((one) => line(app, data, one, block))),
      element("p", { class: "note" }, `${note} ${data.check}`),
    );
  };

  function isShut({ material }, block) {
    return Number(material.open[block] < 0);
  }

  function verdictWords(hour, acts, rules) {
    if (!hour) return page.phrase("closed today: {rules}", { rules });
    return acts
      ? page.phrase("suggest: passes every rule asked, open from {hour}", { hour })
      : page.phrase("passes every rule asked, open from {hour}", { hour });
  }

  function shareWords(effect) {
    const [expected, low, high] = [effect.expected, effect.low, effect.high].map(page.two);
    const standing = page.standings[effect.standing];
    return page.phrase("prevents {expected} ({low} to {high}; efficacy {standing})", { expected, low, high, standing });
  }

  function line(app, data, { material, effect }, block) {
    const said = (place) => (place < 0 ? "" : page.said(page.app, data.words[place]));
    const acts = effect.expected > 0;
    const open = said(material.open[block]);
    const share = acts ? shareWords(effect) : page.phrase("not known to act on {disease}", { disease: app.words.name });
    const premix = material.premix
      ? page.phrase("of the premix only {material} is counted", { material: material.name })
      : "";
    const warned = said(material.cautions[block]);
    const caution = warned && page.phrase("caution: {cautions}", { cautions: warned });
    return element(
      "li",
      { class: open && acts ? "may" : "" },
      element("strong", null, material.name),
      material.codes ? ` FRAC ${material.codes}` : "",
      element("span", null, verdictWords(open, acts, said(material.closed[block]))),
      element("small", null, [share, premix, said(material.uses[block]), caution].filter(Boolean).join("; ") + "."),
    );
  }
})(window.mangoPage);
