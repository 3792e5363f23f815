/* Small things that every part of the page needs: elements, numbers, units. */
(function (page) {
  "use strict";

  const ACRES_PER_HECTARE = 2.47105;
  const SVG = "http://www.w3.org/2000/svg";

  /* Names come from users' files: text only ever goes in as text. */
  page.element = function (tag, attributes, ...children) {
    return fill(document.createElement(tag), attributes, children);
  };

  /* Drawings run from left to right whatever the language does, so words in them stand apart. */
  page.svg = function (tag, attributes, ...children) {
    const apart = (child) => (typeof child === "string" ? page.isolated(child) : child);
    return fill(document.createElementNS(SVG, tag), attributes, tag === "text" ? children.map(apart) : children);
  };

  /* Words that a longer language makes too long for their drawing are drawn narrower. */
  page.squeeze = function (picture) {
    const edge = picture.getBoundingClientRect().right;
    for (const text of picture.querySelectorAll("text")) {
      const over = text.getBoundingClientRect().right - edge;
      const left = text.getComputedTextLength() - over - 1;
      if (over <= 0 || left <= 0) continue; // a drawing that is not shown has no edge
      text.setAttribute("textLength", left);
      text.setAttribute("lengthAdjust", "spacingAndGlyphs");
    }
  };

  function fill(element, attributes, children) {
    for (const [name, value] of Object.entries(attributes || {})) {
      if (value === null || value === undefined || value === false) continue;
      element.setAttribute(name, value === true ? "" : value);
    }
    element.append(...children.filter((child) => child !== null && child !== undefined));
    return element;
  }

  page.isKnown = (value) => value !== null && value !== undefined && Number.isFinite(value);

  /* Two figures, as in the sentences that come with the orders: more would claim more than is known. */
  page.two = function (value) {
    if (!page.isKnown(value)) return "–";
    if (value >= 9.95) return value.toFixed(0);
    return value >= 0.995 ? value.toFixed(1) : String(Number(value.toPrecision(2)));
  };

  page.three = function (value) {
    if (value === 0) return "0";
    const decimals = Math.max(0, 2 - Math.floor(Math.log10(value)));
    return value.toFixed(decimals);
  };

  page.times = (value) => (page.isKnown(value) ? page.isolated("×\u202f" + page.two(value)) : "–");
  page.percent = (share) => (page.isKnown(share) ? Math.round(100 * share) + "\u00a0%" : page.phrase("not known"));

  page.ago = function (days) {
    if (!page.isKnown(days)) return page.phrase("never");
    if (days < 0.5) return page.phrase("today");
    return page.phrases("{count} day ago", "{count} days ago", Math.round(days));
  };

  page.area = function (hectares, units) {
    if (!page.isKnown(hectares)) return page.phrase("area not known");
    if (units.area === "acre") return page.isolated(page.two(hectares * ACRES_PER_HECTARE) + "\u00a0acre");
    return page.isolated(page.two(hectares) + "\u00a0ha");
  };

  page.degrees = function (celsius, units) {
    if (!page.isKnown(celsius)) return page.phrase("not known");
    if (units.temperature === "F") return page.isolated(Math.round((celsius * 9) / 5 + 32) + "\u00a0°F");
    return page.isolated(Math.round(celsius) + "\u00a0°C");
  };

  /* A value with its unit; temperatures follow the switch, with a tenth, as limits are close. */
  page.measure = function (value, unit, units) {
    if (!page.isKnown(value)) return page.phrase("not known");
    if (unit !== "degC") return page.isolated(Number(value.toPrecision(3)) + (unit === "1" ? "" : "\u00a0" + unit));
    const shown = units.temperature === "F" ? (value * 9) / 5 + 32 : value;
    return page.isolated(shown.toFixed(1) + (units.temperature === "F" ? "\u00a0°F" : "\u00a0°C"));
  };

  /* The last words a user chose for units, if the browser lets us keep them. */
  page.keptUnits = function () {
    const units = { temperature: "C", area: "ha" };
    try {
      return Object.assign(units, JSON.parse(localStorage.getItem("units")));
    } catch (refused) {
      return units;
    }
  };

  page.keepUnits = function (units) {
    try {
      localStorage.setItem("units", JSON.stringify(units));
    } catch (refused) {
      // A browser that keeps nothing from files is no reason to stop.
    }
  };
})(window.mangoPage);
