/* Sentences that come ready made, in the units that the reader chose. */
(function (page) {
  "use strict";

  const ACRES_PER_HECTARE = 2.47105;
  // A number right before its unit; "hectare-days" and "for each hectare" are words, not measures.
  const HECTARES = /(\d+(?:\.\d+)?)([ \u00a0])ha\b/g;
  const CELSIUS = /(-?\d+(?:\.\d+)?)([ \u00a0])°C/g;

  /* Names are as the user wrote them: where one reads like a measure, sentences stay as they came. */
  function isSpoilt(app) {
    if (app.spoilt === undefined) {
      const { id, name } = app.data.blocks;
      const reads = (text) => /\d[ \u00a0](ha\b|°C)/.test(text);
      app.spoilt = false;
      for (let block = 0; block < id.length && !app.spoilt; block++) app.spoilt = reads(id[block]) || reads(name[block]);
    }
    return app.spoilt;
  }

  page.said = function (app, text) {
    const isPlain = app.units.area !== "acre" && app.units.temperature !== "F";
    if (!text || isPlain || isSpoilt(app)) return text;
    let told = text;
    if (app.units.area === "acre") {
      told = told.replace(HECTARES, (_, number, gap) => page.two(Number(number) * ACRES_PER_HECTARE) + gap + "acre");
    }
    if (app.units.temperature === "F") {
      told = told.replace(CELSIUS, (_, number, gap) => {
        const decimals = (number.split(".")[1] || "").length;
        return ((Number(number) * 9) / 5 + 32).toFixed(decimals) + gap + "°F";
      });
    }
    return told;
  };
})(window.mangoPage);
