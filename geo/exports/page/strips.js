/* The strips under a block's hazard: air, weather, stage, sprays and what they protect, looks, rain. */
(function (page) {
  "use strict";

  const RAIN_FULL_MM = 20;
  const STEP_DEGREES = 5;

  /* What happened in a block, by day: each list is sorted by block. */
  function ofBlock(app, kind, wanted) {
    const { block, day, value } = app.words.events[kind];
    let [low, high] = [0, block.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (block[middle] < wanted) low = middle + 1;
      else high = middle;
    }
    const found = [];
    for (let place = low; block[place] === wanted; place++) found.push({ day: day[place], value: value[place] });
    return found;
  }

  page.spraysOf = (app, block) =>
    ofBlock(app, "sprays", block).map(({ day, value }) => ({
      day,
      material: app.words.events.materials[value],
    }));

  page.looksOf = (app, block) =>
    ofBlock(app, "looks", block).map(({ day, value }) => ({ day, share: value / 100 }));

  function air(app, block) {
    const days = app.data.days.words.map((_, day) => day);
    const known = days.flatMap((day) => [app.minimumOn(block, day), app.maximumOn(block, day)]).filter(page.isKnown);
    if (!known.length) return [];
    const low = STEP_DEGREES * Math.floor(Math.min(...known) / STEP_DEGREES);
    const high = STEP_DEGREES * Math.ceil(Math.max(...known) / STEP_DEGREES);
    const share = (degrees) => (page.isKnown(degrees) ? (degrees - low) / Math.max(high - low, 1) : null);
    const span = { low: page.degrees(low, app.units), high: page.degrees(high, app.units) };
    return [
      {
        words: page.phrase("Air, {low} to {high}", span),
        kind: "air",
        fromOn: (day) => share(app.minimumOn(block, day)),
        shareOn: (day) => share(app.maximumOn(block, day)),
      },
    ];
  }

  function looks(app, block) {
    const found = page.looksOf(app, block);
    if (!found.length) return [];
    const shares = new Map(found.map(({ day, share }) => [day, share]));
    return [
      {
        words: page.phrase("Looks: share found infected"),
        kind: "look",
        shareOn: (day) => (shares.has(day) ? shares.get(day) : null),
        marks: found.map(({ day, share }) => ({ day, words: page.percent(share) })),
      },
    ];
  }

  page.rainStrip = (app) => ({
    words: page.phrase("Rain, full at {amount} mm", { amount: RAIN_FULL_MM }),
    kind: "rain",
    shareOn: (day) => (app.data.days.rain[day] || 0) / RAIN_FULL_MM,
  });

  page.strips = (app, block) => [
    ...air(app, block),
    page.rainStrip(app),
    {
      words: page.phrase("Weather for {disease}, of a perfect day", { disease: app.words.short }),
      kind: "weather",
      shareOn: (day) => app.favourabilityOn(block, day),
    },
    {
      words: page.phrase("Susceptible {organs}", { organs: app.words.organs }),
      kind: "stage",
      shareOn: (day) => app.stageOn(block, day),
    },
    {
      words: page.phrase("Protection left; arrows: sprays"),
      kind: "protection",
      shareOn: (day) => app.protectionOn(block, day),
      marks: page.spraysOf(app, block).map(({ day }) => ({ day, words: "▼" })),
    },
    ...looks(app, block),
  ];
})(window.mangoPage);
