/* From whom spores blow in: arrows to the chosen block, or one to each block from its main source. */
(function (page) {
  "use strict";

  const COLOUR = "#4d3a63";
  const MOST = 1500; // arrows at once
  const LEAST = 0.05; // share of all spores below which a block gets no arrow in the overview
  const THINNEST = 1.5; // pixels, for a share near nothing
  const WIDEST = 12; // pixels more, for all of them
  const HEAD = 11; // pixels, of the arrow's head
  const GAP = 0.12; // of the way, left free at each end

  page.arrivalsLayer = function (app) {
    const group = L.layerGroup();
    const renderer = L.canvas({ pane: "coolest", padding: 0.5 });
    const neighbours = page.worldPoints(app.data.neighbours.labels);
    const blocks = app.outlines.count;

    function at(source) {
      const from = source < blocks ? app.labels : neighbours;
      const place = source < blocks ? source : source - blocks;
      return [from[2 * place], from[2 * place + 1]];
    }

    /* What is drawn: [source, block, share]. */
    function pairs() {
      const { top } = app.data.sources;
      const others = (block) => top[block].filter(([source]) => source !== block);
      if (app.selected !== null) {
        return others(app.selected).map(([source, share]) => [source, app.selected, share]);
      }
      const found = [...inView()].flatMap((block) =>
        others(block)
          .slice(0, 1)
          .filter(([, share]) => share >= LEAST)
          .map(([source, share]) => [source, block, share]),
      );
      return found.length > MOST ? found.sort((a, b) => b[2] - a[2]).slice(0, MOST) : found;
    }

    /* All blocks, or of very many those that the map shows. */
    function inView() {
      if (blocks <= MOST) return Array(blocks).keys();
      const bounds = app.map.getBounds();
      const [first, last] = [bounds.getNorthWest(), bounds.getSouthEast()].map((corner) => app.map.project(corner, 0));
      return app.blocksIn(first.x, first.y, last.x, last.y);
    }

    function draw() {
      group.clearLayers();
      const pixel = 1 / Math.pow(2, app.map.getZoom()); // in the world's units of zoom 0
      const latLng = (point) => app.map.unproject(point, 0);
      for (const [source, block, share] of pairs()) {
        const [from, to] = [at(source), at(block)];
        const way = [to[0] - from[0], to[1] - from[1]];
        const far = Math.hypot(...way);
        if (far < 2 * HEAD * pixel) continue;
        const along = (part, aside) => [
          from[0] + way[0] * part - (way[1] / far) * aside,
          from[1] + way[1] * part + (way[0] / far) * aside,
        ];
        const weight = THINNEST + WIDEST * share;
        const tip = 1 - GAP;
        const neck = tip - ((HEAD + weight) * pixel) / far;
        const look = { renderer, interactive: false, color: COLOUR, opacity: 0.85 };
        const half = (0.5 * HEAD + 0.6 * weight) * pixel;
        const head = [along(tip, 0), along(neck, half), along(neck, -half)];
        group.addLayer(L.polyline([along(GAP, 0), along(neck, 0)].map(latLng), { ...look, weight, lineCap: "butt" }));
        group.addLayer(L.polygon(head.map(latLng), { ...look, weight: 0, fill: true, fillColor: COLOUR, fillOpacity: 0.85 }));
        if (app.selected !== null) group.addLayer(shareLabel(latLng(from), share));
      }
    }

    function shareLabel(where, share) {
      const html = page.element("span", { class: "share" }, page.percent(share));
      const icon = L.divIcon({ html, className: "label", iconSize: null });
      return L.marker(where, { icon, interactive: false, keyboard: false, pane: "places" });
    }

    group.on("add", draw);
    app.map.on(blocks > MOST ? "moveend" : "zoomend", () => app.map.hasLayer(group) && draw());
    app.listen((changed) => {
      if ((changed.selected || changed.disease) && app.map.hasLayer(group)) draw();
    });
    group.isEmpty = !app.data.sources.blown;
    return group;
  };
})(window.mangoPage);
