/* Which rule closes which hour of a block: a strip to slide along, and words under it. */
(function (page) {
  "use strict";

  const { element, svg } = page;
  const BAR = 26;
  const HEIGHT = 52;

  /* One number of bits an hour; the rules stand in the order of their bits. */
  function bitsOf(data, block) {
    const count = data.clock.length;
    return data.patterns.subarray(data.of[block] * count, (data.of[block] + 1) * count);
  }

  function rulesIn(data, bits, caution) {
    return data.rules.filter((rule, place) => (bits >>> place) & 1 && rule.caution === caution);
  }

  function stateOf(data, bits) {
    if (rulesIn(data, bits, false).length) return "closed";
    return bits ? "warned" : "open";
  }

  page.hours = function (app, block, width) {
    const data = app.data.windows;
    const title = element("h3", null, page.phrase("Its hours"));
    if (!data || !data.clock.length) {
      const words = page.phrase("No forecast, and unknown is closed.");
      return element("section", { class: "hours" }, title, element("p", null, words));
    }
    const bits = bitsOf(data, block);
    const states = Array.from(bits, (ofHour) => stateOf(data, ofHour));
    const first = Math.max(0, states.findIndex((state) => state !== "closed"));
    const words = element("p", { class: "hour-words", "aria-live": "polite" });
    const mark = svg("path", { class: "hour-mark" });
    const slide = element("input", {
      type: "range",
      min: 0,
      max: states.length - 1,
      value: first,
      "aria-label": page.phrase("Hour of the forecast"),
    });
    const picture = drawing(data, states, width, mark);
    function show(hour) {
      slide.value = hour;
      const told = sentence(app, data, bits[hour], hour);
      slide.setAttribute("aria-valuetext", told);
      words.replaceChildren(told);
      mark.setAttribute("d", `M${((hour + 0.5) * width) / states.length} ${BAR + 1}l4 6h-8z`);
    }
    slide.addEventListener("input", () => show(Number(slide.value)));
    picture.addEventListener("click", (event) => {
      const frame = picture.getBoundingClientRect();
      const hour = Math.floor(((event.clientX - frame.left) / frame.width) * states.length);
      show(Math.min(states.length - 1, Math.max(0, hour)));
    });
    show(first);
    return element(
      "section",
      { class: "hours" },
      title,
      picture,
      slide,
      words,
      element("p", { class: "note" }, page.phrase("Filled is closed, empty is open, half filled is open with a caution. Check on site.")),
      ...data.not_asked.map((text) => element("p", { class: "note" }, text)),
    );
  };

  function sentence(app, data, bits, hour) {
    const limit = (rule) => page.measure(rule.limit, rule.unit, app.units);
    const said = (rules) =>
      rules.map((rule) => page.phrase("{rule} (limit {limit})", { rule: rule.title, limit: limit(rule) })).join("; ");
    const when = `${data.days[hour]} ${data.clock[hour]}`;
    const closing = rulesIn(data, bits, false);
    const warning = rulesIn(data, bits, true);
    return [
      closing.length
        ? page.phrase("{hour}: closed by {rules}.", { hour: when, rules: said(closing) })
        : page.phrase("{hour}: open.", { hour: when }),
      warning.length ? page.phrase("Caution: {rules}.", { rules: said(warning) }) : null,
    ]
      .filter(Boolean)
      .join(" ");
  }

  function drawing(data, states, width, mark) {
    const step = width / states.length;
    const open = states.filter((state) => state !== "closed").length;
    const picture = svg("svg", {
      class: "hour-strip",
      role: "img",
      width,
      height: HEIGHT,
      viewBox: `0 0 ${width} ${HEIGHT}`,
      "aria-label": page.phrase("{open} of the next {hours} hours are open", { open, hours: states.length }),
    });
    states.forEach((state, hour) => {
      const top = state === "closed" ? 0 : BAR / 2;
      if (state !== "open") {
        picture.append(svg("rect", { class: "hour-shut", x: hour * step, y: top, width: step, height: BAR - top }));
      }
      if (!hour || data.days[hour] !== data.days[hour - 1]) {
        const x = hour * step;
        picture.append(svg("path", { class: "hour-day", d: `M${x} 0v${HEIGHT}` }));
        if (width - x > 60) {
          picture.append(svg("text", { x: x + 4, y: HEIGHT - 4 }, data.weekdays[hour]));
        }
      }
    });
    picture.append(svg("rect", { class: "hour-frame", x: 0.5, y: 0.5, width: width - 1, height: BAR - 1 }), mark);
    return picture;
  }
})(window.mangoPage);
