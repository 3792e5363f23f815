/* The round of the day and the morning's walk: their ways and numbered stops. */
(function (page) {
  "use strict";

  // Lines that stay apart in grey: the first sprayer's is whole, the others' are dashed.
  const ROUND = { colour: "#12305c", dashes: [null, "14 6", "3 6", "14 6 3 6"] };
  const WALK = { colour: "#6a1f5c", dashes: ["1 7"] };

  function waysLayer(ways, look) {
    const group = L.layerGroup();
    const still = { pane: "places", interactive: false };
    ways.forEach((way, place) => {
      const dashArray = look.dashes[place % look.dashes.length];
      group.addLayer(L.polyline(way.way, { ...still, color: "#fff", weight: 6.5, opacity: 0.8 }));
      group.addLayer(L.polyline(way.way, { ...still, color: look.colour, dashArray, weight: 3.5 }));
      for (const tree of way.trees || []) {
        const dot = { radius: 3, weight: 1.5, color: "#fff", fillColor: look.colour, fillOpacity: 1 };
        group.addLayer(L.circleMarker(tree, { ...still, ...dot }));
      }
    });
    group.stops = [...together(ways)].map(([at, calls]) => mark(at, calls, look));
    for (const stop of group.stops) group.addLayer(stop);
    return group;
  }

  /* Stops at one place share a mark: a block that takes several tanks is entered again. */
  function together(ways) {
    const places = new Map();
    ways.forEach((way, place) => {
      const letter = ways.length > 1 ? String.fromCharCode(65 + (place % 26)) : "";
      for (const stop of way.stops) {
        const key = stop.at.join();
        if (!places.has(key)) places.set(key, [stop.at, new Map()]);
        const calls = places.get(key)[1];
        calls.set(letter, [...(calls.get(letter) || []), stop]);
      }
    });
    return places.values();
  }

  function mark(at, calls, look) {
    const words = page.element("span", { class: "stop" });
    words.textContent = [...calls].map(([letter, stops]) => letter + spans(stops)).join("·");
    words.title = [...calls]
      .flatMap(([letter, stops]) => stops.map((stop) => `${letter}${stop.number}. ${stop.words}`))
      .join("; ");
    const leader = page.element("span", { class: "leader" });
    words.style.background = leader.style.background = look.colour;
    const html = page.element("span", null, words, leader);
    const icon = L.divIcon({ html, className: "label", iconSize: null });
    return L.marker(at, { icon, interactive: false, keyboard: false, pane: "places", zIndexOffset: 1000 });
  }

  /* 3, 4, 5, 9 as 3–5, 9. */
  function spans(stops) {
    const numbers = stops.map((stop) => stop.number);
    const found = [];
    for (const number of numbers) {
      const last = found[found.length - 1];
      if (last && last[1] === number - 1) last[1] = number;
      else found.push([number, number]);
    }
    return found.map(([from, to]) => (from === to ? from : `${from}–${to}`)).join(", ");
  }

  page.waysLayers = (data) => ({ round: waysLayer(data.round || [], ROUND), walk: waysLayer(data.walk || [], WALK) });
})(window.mangoPage);
