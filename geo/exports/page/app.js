/* One state, and every part of the page told when it changes. */
(function (page) {
  "use strict";

  const NO_BYTE = 255;
  const NO_SHORT = -32768;
  const NEARLY = 1.1; // what a metre measures differs a little from the south of a farm to its north
  const MOST_ORDERS = 4; // days whose order is kept

  function read(map) {
    const data = page.readData();
    const { blocks, days } = data;
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
    const tenths = (name) => (block, day) =>
      blocks[name][at(block, day)] === NO_SHORT ? null : blocks[name][at(block, day)] / 10;
    const { room } = blocks;
    Object.assign(app, {
      blocksIn: page.gridIndex(app.outlines),
      room: (block) => room[block] * page.pixelsPerMetre(app.labels[2 * block + 1]),
      widest: room.reduce((most, own) => Math.max(most, own), 0) * page.pixelsPerMetre(app.labels[1]) * NEARLY,
      minimumOn: tenths("minimum"),
      maximumOn: tenths("maximum"),
      humidOn: (block, day) => {
        const hours = blocks.humid_hours[at(block, day)];
        return hours === NO_BYTE ? null : hours;
      },
    });
    takeDisease(app, blocks);
    app.shared = blocks;
    app.compare = data.spray.reference;
    return app;
  }

  /* What the lists, the map and the card read is that of the chosen disease. */
  function takeDisease(app, shared) {
    const { data } = app;
    const own = data.diseases[app.disease];
    const count = app.outlines.count;
    // Columns of the disease beside those of all diseases, each still opened only when it is read.
    data.blocks = Object.create(shared, Object.getOwnPropertyDescriptors(own.blocks));
    for (const part of ["spray", "scouting", "sources", "factors", "since"]) data[part] = own[part];
    const at = (block, day) => block * data.days.words.length + day;
    const percent = (name) => (block, day) => {
      const share = own.blocks[name][at(block, day)];
      return share === NO_BYTE ? null : share / 100;
    };
    const { hazard } = own.blocks;
    const classes = classesOf(hazard, data.classes.breaks);
    Object.assign(app, {
      words: own,
      hazard,
      barred: marked(data.spray.cannot.blocks, count),
      notWorth: marked(data.spray.apart.blocks, count),
      classOn: (block, day) => classes[at(block, day)],
      hazardOn: (block, day) => hazard[at(block, day)],
      factorOf: (block, place) => own.blocks.factors[place * count + block],
      protectionOn: percent("protection"),
      stageOn: percent("stage"),
      favourabilityOn: percent("favourability"),
    });
    addOrders(app);
  }

  /* 0 is the lowest class; -1 where the hazard is not known. */
  function classesOf(hazard, breaks) {
    const classes = new Int8Array(hazard.length).fill(-1);
    for (let i = 0; i < hazard.length; i++) {
      const value = hazard[i];
      if (!(value >= 0)) continue;
      let look = 0;
      while (look < breaks.length && value >= breaks[look]) look++;
      classes[i] = look;
    }
    return classes;
  }

  function marked(blocks, count) {
    const marks = new Uint8Array(count);
    for (const block of blocks) marks[block] = 1;
    return { has: (block) => marks[block] === 1 };
  }

  function ranksOf(table, count) {
    const ranks = new Int32Array(count);
    const { blocks, columns } = table;
    for (let i = 0; i < table.length; i++) ranks[blocks[i]] = columns.rank[i];
    return ranks;
  }

  /* Orders: blocks of a day by hazard, equal ones marked, unknown ones last. */
  function addOrders(app) {
    const { count } = app.outlines;
    const kept = new Map();
    const ranks = { spray: ranksOf(app.data.spray.entries, count), scouting: ranksOf(app.data.scouting, count) };

    function ordered(day) {
      const size = (block) => app.hazardOn(block, day);
      const blocks = page.largestFirst(Float32Array.from({ length: count }, (_, block) => size(block)));
      const rank = new Int32Array(count); // 0 where there is none, below 0 where it is shared
      let last = 0;
      for (let place = 0; place < count; place++) {
        const own = size(blocks[place]);
        if (!page.isKnown(own)) break;
        const after = place > 0 && size(blocks[place - 1]) === own;
        const before = place + 1 < count && size(blocks[place + 1]) === own;
        if (!after) last = place + 1;
        rank[blocks[place]] = after || before ? -last : last;
      }
      return { blocks, rank };
    }

    function orderOf(day) {
      if (!kept.has(day)) {
        if (kept.size >= MOST_ORDERS) kept.delete(kept.keys().next().value);
        kept.set(day, ordered(day));
      }
      return kept.get(day);
    }

    const shown = (rank) => (rank ? (rank < 0 ? "=" : "") + Math.abs(rank) : null);

    app.orderOn = function (day) {
      const { blocks, rank } = orderOf(day);
      return { length: count, blocks, at: (place) => ({ block: blocks[place], rank: shown(rank[blocks[place]]) }) };
    };

    app.rankOf = function (block) {
      if (app.tab === "day") return shown(orderOf(app.day).rank[block]);
      return ranks[app.tab][block] || null;
    };

    /* How many blocks stand in each class on a day: not known first, then from low to high. */
    app.countsOn = function (day) {
      const counts = new Array(app.data.classes.colours.length + 1).fill(0);
      for (let block = 0; block < count; block++) counts[app.classOn(block, day) + 1]++;
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
      takeDisease(app, app.shared);
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
    // The map library's shell puts the map first; whoever goes by keyboard may leap over it.
    document.body.prepend(document.querySelector(".skip"));
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
