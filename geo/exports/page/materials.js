/* What of the user's own label file could be sprayed in a block: a suggestion, never more. */
(function (page) {
  "use strict";

  const { element } = page;

  page.materials = function (app, block) {
    const data = app.data.materials;
    if (!data) return null;
    const title = element("h3", null, "What could be sprayed: check the label");
    if (data.need) return element("section", null, title, element("p", { class: "note" }, data.need));
    const effects = data.effects[app.words.key];
    const order = data.materials
      .map((material, place) => ({ material, effect: effects[place] }))
      .sort((one, other) => isShut(one, block) - isShut(other, block) || other.effect.expected - one.effect.expected);
    return element(
      "section",
      { class: "materials" },
      title,
      element("ul", null, ...order.map((one) => line(app, data, one, block))),
      element(
        "p",
        { class: "note" },
        `From your own label file, for ${app.words.name}. The share is of infections prevented when fresh; ` +
          `its sources are in materials.csv. Nothing is picked here. ${data.check}`,
      ),
    );
  };

  function isShut({ material }, block) {
    return Number(material.open[block] < 0);
  }

  function line(app, data, { material, effect }, block) {
    const said = (place) => (place < 0 ? "" : page.said(page.app, data.words[place]));
    const acts = effect.expected > 0;
    const open = said(material.open[block]);
    const verdict = open
      ? `${acts ? "suggest: " : ""}passes every rule asked, open from ${open}`
      : `closed today: ${said(material.closed[block])}`;
    const share = acts
      ? `prevents ${page.two(effect.expected)} (${page.two(effect.low)} to ${page.two(effect.high)}; efficacy ${effect.standing})`
      : `not known to act on ${app.words.name}`;
    const premix = material.premix ? `of the premix only ${material.name} is counted` : "";
    const caution = said(material.cautions[block]);
    return element(
      "li",
      { class: open && acts ? "may" : "" },
      element("strong", null, material.name),
      material.codes ? ` FRAC ${material.codes}` : "",
      element("span", null, verdict),
      element("small", null, [share, premix, said(material.uses[block]), caution && "caution: " + caution].filter(Boolean).join("; ") + "."),
    );
  }
})(window.mangoPage);
