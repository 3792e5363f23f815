/* What lies round the blocks, and the boxes that switch layers on and off. */
(function (page) {
  "use strict";

  // The line of a neighbour's orchard tells what is known of disease there.
  const LINES = {
    known: { words: page.phrase("Neighbour, disease known"), brief: page.phraseFor("disease at a neighbour", "known"), dash: null, weight: 3 },
    suspected: { words: page.phrase("Neighbour, disease suspected"), brief: page.phraseFor("disease at a neighbour", "suspected"), dash: "9 5", weight: 2.5 },
    scouted: { words: page.phrase("Neighbour, scouted"), brief: page.phraseFor("disease at a neighbour", "scouted"), dash: null, weight: 1.5 },
    unknown: { words: page.phrase("Neighbour, not known"), brief: page.phraseFor("disease at a neighbour", "unknown"), dash: "2 5", weight: 2 },
  };
  const LINE_COLOUR = "#4d3a63";
  const COOLEST_COLOUR = "#123a5a";
  const APART_COLOUR = "#9c1f2e";
  // What is drawn across the ground: each kind has a line of its own, so that grey paper tells
  // a windbreak from a track.
  const DRAWN = {
    track: { words: page.phrase("Track"), colour: "#8a7f6d", dash: "1 5", weight: 2.5 },
    water: { words: page.phrase("Water"), colour: "#2f7896", dash: null, weight: 3 },
    dam: { words: page.phrase("Holds cold air"), colour: "#5b4a3a", dash: null, weight: 4 },
    drain: { words: page.phrase("Lets cold air off"), colour: "#2f7896", dash: "10 5", weight: 2.5 },
    windbreak: { words: page.phrase("Windbreak"), colour: "#3f6b3a", dash: "2 4", weight: 5 },
  };

  // What a place is called that the user gave no name.
  const KINDS = {
    gate: page.phraseFor("a place on the map", "gate"),
    shed: page.phraseFor("a place on the map", "shed"),
    water: page.phraseFor("a place on the map", "water"),
    station: page.phraseFor("a place on the map", "station"),
    house: page.phraseFor("a place on the map", "house"),
    hive: page.phraseFor("a place on the map", "hive"),
    logger: page.phraseFor("a place on the map", "logger"),
  };

  // One small drawing a kind, 24 units wide.
  const GLYPHS = {
    gate: "M4 5v14M20 5v14M4 9h16M4 15h16",
    shed: "M3 11l9-6 9 6v9H3zM9 20v-6h6v6",
    water: "M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z",
    station: "M12 21V9M8 21h8M12 9l-5-4M12 9l5-4M12 9V3",
    house: "M3 12l9-8 9 8M6 10v10h12V10",
    hive: "M8 4h8l3 4-3 4H8L5 8zM8 12h8l3 4-3 4H8l-3-4z",
  };

  function lineOf(status) {
    return LINES[status] || LINES.unknown;
  }

  page.addPlaces = function (app) {
    const { map, data } = app;
    app.layers = {
      blocks: app.blockLayer,
      neighbours: neighbours(app),
      coolest: coolest(app),
      arrivals: page.arrivalsLayer(app),
      apart: apart(app),
      ...page.waysLayers(data),
      places: L.layerGroup(data.places.map((place) => drawn(place))),
    };
    map.eachLayer((layer) => {
      if (layer instanceof L.ImageOverlay) app.layers.relief = layer;
    });
    for (const box of document.querySelectorAll("#layers input")) {
      const layer = app.layers[box.value];
      box.closest("label").hidden = isEmpty(layer);
      if (layer && box.checked) layer.addTo(map);
      box.addEventListener("change", () => {
        if (box.checked) layer.addTo(map);
        else layer.remove();
        const words = document.getElementById(box.value + "-key");
        if (words) words.hidden = !box.checked;
      });
    }
    listLines(data);
    page.placeStops(app);
  };

  /* Some layers are drawn only when they are switched on, and know beforehand. */
  function isEmpty(layer) {
    if (layer && layer.isEmpty !== undefined) return layer.isEmpty;
    return !layer || (layer.getLayers && layer.getLayers().length === 0);
  }

  function neighbours(app) {
    const { name, status, outlines } = app.data.neighbours;
    const shapes = page.decodeOutlines(outlines);
    const points = page.worldPoints(app.data.neighbours.labels);
    const group = L.layerGroup();
    for (let i = 0; i < shapes.count; i++) {
      const line = lineOf(status[i]);
      group.addLayer(
        L.polygon(page.ringsOf(shapes, i), {
          pane: "neighbours",
          renderer: app.neighbourRenderer,
          interactive: false,
          color: LINE_COLOUR,
          weight: line.weight,
          dashArray: line.dash,
          fillColor: LINE_COLOUR,
          fillOpacity: 0.06,
        }),
      );
      const words = page.element("span", { class: "neighbour" });
      words.append(page.element("b", null, page.isolated(name[i])), page.element("br"), line.brief);
      const at = app.map.unproject([points[2 * i], points[2 * i + 1]], 0);
      group.addLayer(L.marker(at, quiet({ html: words, className: "label", iconSize: null })));
    }
    return group;
  }

  /* Where cold air stands longest in each block: thin dashes, on canvas since they may be many. */
  function coolest(app) {
    const group = L.layerGroup();
    group.isEmpty = app.data.coolest.count === 0;
    group.on("add", () => group.getLayers().length || drawCoolest(app, group));
    return group;
  }

  function drawCoolest(app, group) {
    const shapes = page.decodeOutlines(app.data.coolest);
    const renderer = L.canvas({ pane: "coolest", padding: 0.5 });
    for (let i = 0; i < shapes.count; i++) {
      const look = { pane: "coolest", renderer, interactive: false, fill: false, color: COOLEST_COLOUR };
      group.addLayer(L.polygon(page.ringsOf(shapes, i), { ...look, weight: 1.6, dashArray: "5 4" }));
    }
  }

  /* How far from people, water and hives the rules keep a sprayer. */
  function apart(app) {
    const look = { pane: "coolest", interactive: false, color: APART_COLOUR, weight: 2 };
    const shapes = app.data.apart.map(({ outlines }) =>
      L.polygon(outlines, { ...look, dashArray: "3 4", fillColor: APART_COLOUR, fillOpacity: 0.12 }),
    );
    return L.layerGroup(shapes);
  }

  function quiet(icon) {
    return { icon: L.divIcon(icon), interactive: false, keyboard: false, pane: "places" };
  }

  function drawn(place) {
    if (place.lines) {
      const line = DRAWN[place.kind] || DRAWN.track;
      return L.polyline(place.lines, {
        pane: "places",
        interactive: false,
        color: line.colour,
        weight: line.weight,
        dashArray: line.dash,
        lineCap: "butt",
      });
    }
    const picture = page.svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" });
    picture.append(page.svg("path", { d: GLYPHS[place.kind] || "M6 12h12M12 6v12" }));
    const words = page.element("span", { class: "place" }, picture);
    words.append(page.element("span", null, place.name || KINDS[place.kind] || place.kind));
    return L.marker(place.point, quiet({ html: words, className: "label", iconSize: null }));
  }

  function listLines({ neighbours, places }) {
    const list = document.getElementById("lines");
    const isPresent = (line) => neighbours.status.some((status) => lineOf(status) === line);
    const round = Object.values(LINES).filter(isPresent);
    const kinds = new Set(places.filter((place) => place.lines).map((place) => place.kind));
    const across = Object.keys(DRAWN).filter((kind) => kinds.has(kind)).map((kind) => DRAWN[kind]);
    for (const line of [...round, ...across]) {
      const picture = page.svg("svg", { class: "swatch", viewBox: "0 0 34 20", "aria-hidden": "true" });
      picture.append(
        page.svg("path", {
          d: "M2 10H32",
          stroke: line.colour || LINE_COLOUR,
          "stroke-width": line.weight,
          "stroke-dasharray": line.dash,
        }),
      );
      list.append(page.element("li", null, picture, page.element("span", null, line.words)));
    }
  }
})(window.mangoPage);
