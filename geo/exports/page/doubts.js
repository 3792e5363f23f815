/* What nobody knows of the chosen block. */
(function (page) {
  "use strict";

  const { element } = page;

  page.doubts = function (app) {
    const block = app.selected;
    const scouting = app.data.scouting.of(block);
    const unranked = app.data.spray.unranked.of(block);
    const says = [];
    if (!page.isKnown(app.data.blocks.ahead[block])) {
      says.push(page.phrase("The hazard of this block: something it needs was missing, so no colour and no rank."));
    }
    const { short: disease, organs } = app.words;
    if (!scouting || !page.isKnown(scouting.looked)) {
      says.push(page.phrase("Whether {disease} is there: no look on record.", { disease }));
    } else {
      says.push(page.phrase("What happened since the last look, {when}.", { when: page.ago(scouting.looked) }));
    }
    if (app.data.blocks.ground[block]) says.push(app.data.blocks.ground[block]);
    const age = app.data.blocks.stage_age[block];
    if (!page.isKnown(age)) says.push(page.phrase("The stage of its {organs}: none on record, so it is reckoned.", { organs }));
    const assumed = app.data.factors.filter((factor) => factor.standing === "assumed");
    says.push(
      page.phrase(
        "How far {count} of the eight factors are right here: they rest on assumed numbers ({factors}).",
        { count: assumed.length, factors: assumed.map((factor) => factor.name).join(", ") },
      ),
      page.phrase("Whether the forecast comes true, and what the neighbours have sprayed."),
      page.phrase("Any chance in percent: nothing here has been tested against this farm's own seasons."),
    );
    return element(
      "section",
      { class: "doubts" },
      element("h3", null, page.phrase("What the tool does not know")),
      element("ul", null, ...says.map((words) => element("li", null, words))),
    );
  };
})(window.mangoPage);
