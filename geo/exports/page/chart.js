/* The days of one block: hazard on a log scale over the classes, protection left, and rain. */
(function (page) {
  "use strict";

  const { svg } = page;
  const PLOT = { top: 24, height: 132, left: 52, right: 8 };
  const STRIP = { height: 30, gap: 24 };
  const LOWEST = 0.02; // below this the line lies on the floor: the class is "very low" anyway

  /* An SVG of the given width in pixels, so that its letters keep their size; of two blocks where
     there is another to hold the first against. */
  page.chart = function (app, block, width, against = null) {
    const days = app.data.days.words.length;
    const step = (width - PLOT.left - PLOT.right) / days;
    const seriesOf = (one) => Array.from({ length: days }, (_, day) => app.hazardOn(one, day));
    const shown = against === null ? [block] : [block, against];
    const lines = shown.map(seriesOf);
    const highest = Math.max(2, 1.3 * Math.max(...lines.flat().filter(page.isKnown)));
    const strips = stripsOf(app, shown);
    const frame = {
      app,
      block,
      against,
      lines,
      strips,
      step,
      days,
      width,
      height: PLOT.top + PLOT.height + strips.length * (STRIP.height + STRIP.gap) + 26,
      x: (day) => PLOT.left + step * (day + 0.5),
      y: (hazard) => {
        const place = Math.log(Math.max(hazard, LOWEST) / LOWEST) / Math.log(highest / LOWEST);
        return PLOT.top + PLOT.height * (1 - place);
      },
    };
    const picture = svg("svg", {
      class: "chart",
      role: "img",
      width,
      height: frame.height,
      viewBox: `0 0 ${width} ${frame.height}`,
      "aria-label": summary(frame),
    });
    picture.append(
      ...classBands(frame, highest),
      ...todayMark(frame),
      ...lines.flatMap((_, place) => hazardLine(frame, place)),
      ...strips.flatMap((one, place) => strip(frame, place, one)),
      ...dayNames(frame),
    );
    return picture;
  };

  function stripsOf(app, shown) {
    if (shown.length === 1) return page.strips(app, shown[0]);
    const kinds = ["protection", "second"];
    return [
      ...shown.map((block, place) => ({
        words: page.phrase("Protection left in {block}", { block: app.data.blocks.id[block] }),
        kind: kinds[place],
        shareOn: (day) => app.protectionOn(block, day),
      })),
      page.rainStrip(app),
    ];
  }

  function summary(frame) {
    const ids = frame.app.data.blocks.id;
    if (frame.lines.length === 1) return told(frame, frame.lines[0]);
    const [one, other] = frame.lines.map((series) => told(frame, series));
    return `${page.isolated(ids[frame.block])}: ${one}; ${page.isolated(ids[frame.against])}: ${other}`;
  }

  function told(frame, series) {
    const { words, today } = frame.app.data.days;
    const known = series.map((hazard, day) => [hazard, day]).filter(([h]) => page.isKnown(h));
    if (!known.length) return page.phrase("Hazard index not known on any day shown");
    const [worst, when] = known.reduce((a, b) => (b[0] > a[0] ? b : a));
    const values = { now: page.two(series[today]), highest: page.two(worst), day: words[when] };
    return page.phrase("Hazard index by day: {now} today, highest {highest} on {day}", values);
  }

  function classBands(frame, highest) {
    const { breaks, colours } = frame.app.data.classes;
    const edges = [LOWEST, ...breaks, highest];
    const parts = [];
    for (let look = 0; look < colours.length; look++) {
      const [below, above] = [frame.y(edges[look]), frame.y(edges[look + 1])];
      parts.push(
        svg("rect", { x: PLOT.left - 8, y: above, width: 6, height: below - above, fill: colours[look] }),
      );
      if (look === 0) continue;
      parts.push(
        svg("line", { class: "rule", x1: PLOT.left - 2, x2: frame.width - PLOT.right, y1: below, y2: below }),
        svg("text", { x: PLOT.left - 12, y: below + 4, "text-anchor": "end" }, String(edges[look])),
      );
    }
    return parts;
  }

  function todayMark(frame) {
    const { today, todayName } = frame.app.data.days;
    const x = frame.x(today);
    const floor = frame.height - 22;
    const after = x + frame.step / 2;
    const parts = [
      svg("rect", {
        class: "ahead",
        x: after,
        y: PLOT.top - 4,
        width: Math.max(0, frame.width - PLOT.right - after),
        height: floor - PLOT.top + 4,
      }),
      svg("line", { class: "today", x1: x, x2: x, y1: PLOT.top - 4, y2: floor }),
      svg("text", { class: "strong", x, y: PLOT.top - 9, "text-anchor": "middle" }, todayName),
    ];
    return parts;
  }

  function hazardLine(frame, place) {
    const series = frame.lines[place];
    const kind = frame.lines.length === 1 ? "" : [" first", " second"][place];
    let path = "";
    let pen = "M";
    series.forEach((hazard, day) => {
      if (page.isKnown(hazard)) path += pen + frame.x(day).toFixed(1) + " " + frame.y(hazard).toFixed(1);
      pen = page.isKnown(hazard) ? "L" : "M";
    });
    const shown = series[frame.app.day];
    return [
      svg("path", { class: "line" + kind, d: path }),
      page.isKnown(shown)
        ? svg("circle", { class: "dot" + kind, cx: frame.x(frame.app.day), cy: frame.y(shown), r: 5.5 })
        : "",
    ];
  }

  function strip(frame, place, { words, kind, shareOn, fromOn = () => 0, marks = [] }) {
    const top = PLOT.top + PLOT.height + STRIP.gap + place * (STRIP.height + STRIP.gap);
    const parts = [svg("text", { x: PLOT.left, y: top - 6 }, words)];
    for (let day = 0; day < frame.days; day++) {
      const share = shareOn(day);
      if (!page.isKnown(share)) continue;
      const upper = STRIP.height * Math.min(1, share);
      parts.push(
        svg("rect", {
          class: "strip-" + kind,
          x: frame.x(day) - frame.step * 0.36,
          y: top + STRIP.height - upper,
          width: frame.step * 0.72,
          height: Math.max(0, upper - STRIP.height * fromOn(day)),
        }),
      );
    }
    for (const { day, words: said } of marks) {
      parts.push(svg("text", { class: "strip-mark", x: frame.x(day), y: top + 10, "text-anchor": "middle" }, said));
    }
    parts.push(
      svg("line", {
        class: "floor",
        x1: PLOT.left,
        x2: frame.width - PLOT.right,
        y1: top + STRIP.height,
        y2: top + STRIP.height,
      }),
    );
    return parts;
  }

  function dayNames(frame) {
    const { words } = frame.app.data.days;
    const y = frame.height - 4;
    const last = frame.days - 1;
    return [
      svg("text", { x: PLOT.left, y }, words[0]),
      svg("text", { x: frame.width - PLOT.right, y, "text-anchor": "end" }, words[last]),
    ];
  }
})(window.mangoPage);
