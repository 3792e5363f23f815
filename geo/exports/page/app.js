/* One state, and every part of the page told when it changes. */
(function (page) {
  "use strict";

  const NO_BYTE = 255;
  const NO_SHORT = -32768;

  function read(map) {
    const data = JSON.parse(document.getElementById("page-data").textContent);
    const { blocks, days } = data;
    const shorts = (name) => page.typed(blocks[name], Int16Array);
    const app = {
      map,
      data,
      outlines: page.decodeOutlines(blocks.outlines),
      labels: page.worldPoints(blocks.labels),
      fontFamily: getComputedStyle(document.body).fontFamily,
      day: days.today,
      tab: "spray",
      selected: null,
      beside: false,
      allDays: false,
      disease: 0,
      units: page.keptUnits(),
      query: "",
      ground: "",
    };
    const at = (block, day) => block * days.words.length + day;
    const tenths = (matrix) => (block, day) =>
      matrix[at(block, day)] === NO_SHORT ? null : matrix[at(block, day)] / 10;
    const humid = page.typed(blocks.humid_hours, Uint8Array);
    Object.assign(app, {
      blocksIn: page.gridIndex(app.outlines),
      room: (block) => blocks.room[block] * page.pixelsPerMetre(app.labels[2 * block + 1]),
      minimumOn: tenths(shorts("minimum")),
      maximumOn: tenths(shorts("maximum")),
      humidOn: (block, day) => (humid[at(block, day)] === NO_BYTE ? null : humid[at(block, day)]),
    });
    takeDisease(app);
    app.compare = data.spray.reference;
    return app;
  }

  /* What the lists, the map and the card read is that of the chosen disease. */
  function takeDisease(app) {
    const { data } = app;
    const own = data.diseases[app.disease];
    Object.assign(data.blocks, own.blocks);
    for (const part of ["spray", "scouting", "sources", "factors", "since"]) data[part] = own[part];
    const at = (block, day) => block * data.days.words.length + day;
    const bytes = (name) => page.typed(own.blocks[name], Uint8Array);
    const percent = (matrix) => (block, day) =>
      matrix[at(block, day)] === NO_BYTE ? null : matrix[at(block, day)] / 100;
    const hazard = page.typed(own.blocks.hazard, Float32Array);
    const factors = page.typed(own.blocks.factors, Float32Array);
    const classes = bytes("classes");
    Object.assign(app, {
      words: own,
      barred: new Set(data.spray.cannot.map((entry) => entry.block)),
      notWorth: new Set(data.spray.apart.map((entry) => entry.block)),
      classOn: (block, day) => (classes[at(block, day)] === NO_BYTE ? -1 : classes[at(block, day)]),
      hazardOn: (block, day) => hazard[at(block, day)],
      factorOf: (block, place) => factors[block * data.factors.length + place],
      protectionOn: percent(bytes("protection")),
      stageOn: percent(bytes("stage")),
      favourabilityOn: percent(bytes("favourability")),
    });
    addOrders(app);
  }

  /* Orders: blocks of a day by hazard, equal ones marked, unknown ones last. */
  function addOrders(app) {
    const byDay = new Map();
    const ranks = { spray: new Map(), scouting: new Map() };
    for (const entry of app.data.spray.entries) ranks.spray.set(entry.block, entry.rank);
    for (const entry of app.data.scouting) ranks.scouting.set(entry.block, entry.rank);

    function ordered(day) {
      const size = (block) => (page.isKnown(app.hazardOn(block, day)) ? app.hazardOn(block, day) : -1);
      const blocks = Array.from({ length: app.outlines.count }, (_, block) => block);
      blocks.sort((a, b) => size(b) - size(a) || a - b);
      let rank = 0;
      return blocks.map((block, place) => {
        const same = (other) => other !== undefined && size(other) === size(block);
        if (!same(blocks[place - 1])) rank = place + 1;
        const tied = same(blocks[place - 1]) || same(blocks[place + 1]);
        return { block, rank: size(block) < 0 ? null : (tied ? "=" : "") + rank };
      });
    }

    app.orderOn = function (day) {
      if (!byDay.has(day)) {
        const order = ordered(day);
        byDay.set(day, { order, ranks: new Map(order.map(({ block, rank }) => [block, rank])) });
      }
      return byDay.get(day).order;
    };

    app.rankOf = function (block) {
      if (app.tab === "day") {
        app.orderOn(app.day);
        return byDay.get(app.day).ranks.get(block);
      }
      return ranks[app.tab].get(block) ?? null;
    };

    /* How many blocks stand in each class on a day: not known first, then from low to high. */
    app.countsOn = function (day) {
      const counts = new Array(app.data.classes.colours.length + 1).fill(0);
      for (let block = 0; block < app.outlines.count; block++) counts[app.classOn(block, day) + 1]++;
      return counts;
    };
  }

  function addState(app) {
    const listeners = [];
    app.listen = (listener) => listeners.push(listener);
    app.tell = (changed) => listeners.forEach((listener) => listener(changed));
    app.set = function (change) {
      const changed = {};
      for (const [name, value] of Object.entries(change)) {
        if (app[name] === value) continue;
        app[name] = value;
        changed[name] = true;
      }
      if (Object.keys(changed).length) app.tell(changed);
    };
    app.choose = function (block, from) {
      app.chosenFrom = from;
      app.set({ selected: block });
    };
  }

  /* Another disease: everything is read anew, then everybody is told. */
  function addDiseases(app) {
    const choice = document.getElementById("disease");
    if (!choice) return;
    choice.value = String(app.disease);
    choice.addEventListener("change", () => {
      app.disease = Number(choice.value);
      takeDisease(app);
      app.compare = app.data.spray.reference;
      document.getElementById("newest-look").textContent = app.words.looked;
      app.tell({ disease: true, day: true, tab: true, units: true });
    });
  }

  /* The head says which earlier run this one is held against, if there is one. */
  function addSince(app) {
    const line = document.getElementById("since");
    app.listen((changed) => {
      if (!changed.disease) return;
      line.hidden = !app.data.since;
      line.textContent = app.data.since ? app.data.since.head : "";
    });
  }

  function addUnits(app) {
    const buttons = document.querySelectorAll("[data-unit]");
    for (const button of buttons) {
      button.addEventListener("click", () => {
        const units = { ...app.units, [button.dataset.unit]: button.value };
        page.keepUnits(units);
        app.set({ units });
      });
    }
    app.listen((changed) => {
      if (!changed.units) return;
      for (const button of buttons) {
        button.setAttribute("aria-pressed", String(app.units[button.dataset.unit] === button.value));
      }
    });
  }

  page.start = function (map) {
    const app = (page.app = read(map));
    addState(app);
    page.addMap(app);
    page.addPlaces(app);
    page.addGround(app);
    page.addLists(app);
    page.addHeat(app);
    page.addDays(app);
    page.addCard(app);
    addUnits(app);
    addSince(app);
    addDiseases(app);
    app.tell({ disease: true, day: true, tab: true, units: true });
    // For whoever waits for the first picture.
    const done = () => (document.documentElement.dataset.painted = "true");
    requestAnimationFrame(() => requestAnimationFrame(done));
  };
})(window.mangoPage);
