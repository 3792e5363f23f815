/* The map: what is shown of the farm, what is under the pointer, and the chosen block. */
(function (page) {
  "use strict";

  const SELECTED = "#0b5c8a";
  const WIDE = 640; // map width from which the key no longer fills it
  const LOW = 400; // map height below which it does too, and margins shrink
  const FAR = 4.2; // metres a pixel from which the names of places are left out
  const ROOM_AROUND = 16; // pixels kept free round the chosen block
  const MOST_WIDENING = 1.35;
  const LONGEST_NAME = 28;

  const calm = matchMedia("(prefers-reduced-motion: reduce)");

  /* For whom movement is too much: every step of the map is one jump. */
  function keepStill(map) {
    const panBy = map.panBy;
    map.options.inertia = false;
    map._zoomAnimated = false; // the library reads its option only once, before this page is told
    map.panBy = (offset, options) => panBy.call(map, offset, { ...options, animate: false });
  }

  page.addMap = function (app) {
    const { map } = app;
    if (calm.matches) keepStill(map);
    const container = map.getContainer();
    container.setAttribute("role", "region");
    container.setAttribute("aria-label", page.phrase("Map of the blocks; the lists hold the same facts"));
    for (const [name, words] of [["in", page.phrase("Zoom in")], ["out", page.phrase("Zoom out")]]) {
      const button = container.querySelector(".leaflet-control-zoom-" + name);
      button.title = words;
      button.setAttribute("aria-label", words);
    }
    const panes = { neighbours: 340, blocks: 390, coolest: 395, places: 420 };
    for (const [name, height] of Object.entries(panes)) {
      const pane = map.createPane(name);
      pane.style.zIndex = height;
      if (name !== "blocks") pane.style.pointerEvents = "none";
    }
    app.blockLayer = new page.BlockLayer(app);
    app.neighbourRenderer = L.svg({ pane: "neighbours", padding: 0.5 });
    app.selectionRenderer = L.svg({ padding: 0.5 });
    L.control.scale({ imperial: false, maxWidth: 150, position: "bottomright" }).addTo(map);
    fitKey(container);
    keepOneOpen(container);
    showFarm(app);
    followSize(app, container);
    map.on("zoomend", () => markDistance(app, container));
    markDistance(app, container);
    followPointer(app, container);
    app.listen((changed) => {
      if (changed.day || changed.tab || changed.ground) app.blockLayer.repaint();
      if (changed.selected) markSelected(app);
      if (changed.selected || (changed.day && app.selected !== null)) announce(app);
    });
  };

  /* The blocks, and the neighbours too if that does not make the blocks much smaller. */
  function shownBox(app) {
    const own = page.wholeBox(app.outlines);
    const theirs = page.wholeBox(page.decodeOutlines(app.data.neighbours.outlines));
    const all = [0, 1, 2, 3].map((side) => (side < 2 ? Math.min : Math.max)(own[side], theirs[side]));
    const size = (box) => Math.max(box[2] - box[0], box[3] - box[1]);
    return size(all) < MOST_WIDENING * size(own) ? all : own;
  }

  /* The whole farm, beside the key where that is open. */
  function showFarm(app) {
    const { map } = app;
    const whole = shownBox(app);
    const corner = (x, y) => map.unproject([x, y], 0);
    const key = document.getElementById("key");
    const isLow = map.getContainer().clientHeight < LOW;
    const margin = isLow ? 12 : 26;
    // The key stands where lines of text begin.
    const beside = key.open ? key.offsetWidth + margin : margin + 14;
    const [left, right] = page.isRightToLeft ? [margin + 14, beside] : [beside, margin + 14];
    const bounds = L.latLngBounds(corner(whole[0], whole[3]), corner(whole[2], whole[1]));
    fit(map, bounds, { left, top: margin, right, bottom: margin + (isLow ? 0 : 20) }, { animate: false });
  }

  /* Margins larger than the map, as in a frame that is not shown yet, would leave no place at all. */
  function fit(map, bounds, { left, top, right, bottom }, options) {
    const { x, y } = map.getSize();
    const isRoom = left + right < x && top + bottom < y;
    const margins = isRoom ? { paddingTopLeft: [left, top], paddingBottomRight: [right, bottom] } : {};
    map.fitBounds(bounds, { ...margins, ...options });
  }

  function markDistance(app, container) {
    const scale = Math.pow(2, app.map.getZoom());
    const y = app.map.project(app.map.getCenter(), 0).y;
    container.classList.toggle("far", 1 / (scale * page.pixelsPerMetre(y)) > FAR);
  }

  const isSmall = (container) => container.clientWidth < WIDE || container.clientHeight < LOW;

  /* A small map has room for the key or the layers: unfolding one folds the other. */
  function keepOneOpen(container) {
    const both = [document.getElementById("key"), document.querySelector(".layers")];
    for (const box of both) {
      box.addEventListener("toggle", () => {
        const other = both.find((one) => one !== box);
        if (box.open && other.open && isSmall(container)) other.open = false;
      });
    }
  }

  /* A small map has no room for the key; it comes back unless the user has closed it. */
  function fitKey(container) {
    const key = document.getElementById("key");
    const small = isSmall(container);
    if (small && key.open) {
      key.open = false;
      key.dataset.folded = "true";
    } else if (!small && key.dataset.folded) {
      key.open = true;
      delete key.dataset.folded;
    }
  }

  /* When the map changes its size it shows the whole farm again, until the user has moved it. */
  function followSize(app, container) {
    let isMoved = false;
    for (const deed of ["pointerdown", "wheel", "keydown"]) {
      container.addEventListener(deed, () => (isMoved = true), { passive: true });
    }
    new ResizeObserver(() => {
      if (!container.clientWidth) return; // printing
      app.map.invalidateSize({ pan: true, animate: false });
      fitKey(container);
      if (!isMoved) showFarm(app);
      if (app.selected !== null) showSelected(app);
    }).observe(container);
  }

  function followPointer(app, container) {
    const { map } = app;
    const words = page.element("span");
    const tip = L.tooltip({ direction: "top", offset: [0, -10], opacity: 1, className: "tip" });
    const under = (event) => {
      const { x, y } = map.project(event.latlng, 0);
      return app.blocksIn(x, y, x, y).find((block) => page.isInside(app.outlines, block, x, y));
    };
    map.on("click", (event) => {
      const block = under(event);
      if (block !== undefined) app.choose(block, "map");
    });
    map.on("mousemove", (event) => {
      const block = under(event);
      container.classList.toggle("over-block", block !== undefined);
      if (block === undefined) return tip.remove();
      const name = app.data.blocks.name[block].slice(0, LONGEST_NAME);
      words.textContent = `${page.isolated(name)} · ${stateOf(app, block)}`;
      tip.setContent(words).setLatLng(event.latlng).addTo(map);
    });
    map.on("mouseout", () => tip.remove());
  }

  function stateOf(app, block) {
    const { words, unknown } = app.data.classes;
    const look = app.classOn(block, app.day);
    if (look < 0) return unknown;
    return page.phrase("{class}, index {index}", { class: words[look], index: page.two(app.hazardOn(block, app.day)) });
  }

  /* A real outline over the canvas, so that it is crisp and can be found by its block. */
  function markSelected(app) {
    if (app.outline) app.outline.remove();
    app.outline = null;
    if (app.selected === null) return;
    const options = { fill: false, interactive: false, renderer: app.selectionRenderer };
    const rings = page.ringsOf(app.outlines, app.selected).map((ring) => [ring]);
    const halo = L.polygon(rings, { ...options, color: "#fff", weight: 8 });
    const line = L.polygon(rings, { ...options, color: SELECTED, weight: 4, className: "block-selected" });
    app.outline = L.layerGroup([halo, line]).addTo(app.map);
    line.getElement().dataset.block = app.data.blocks.id[app.selected];
    showSelected(app);
  }

  /* Nothing that lies on the map may hide the chosen block: key, layers, legend, buttons. */
  function showSelected(app) {
    const { map } = app;
    const bounds = app.outline.getLayers()[1].getBounds();
    // Beside the card there is no room for the open list of layers too.
    if (isSmall(map.getContainer())) document.querySelector(".layers").open = false;
    const isHidden = lidsOver(app, bounds).length > 0;
    if (!isHidden && map.getBounds().pad(-0.04).contains(bounds)) return;
    // Zooming at once: a zoom on its way cannot be called off when the map changes its size.
    const how = { maxZoom: map.getZoom(), animate: !calm.matches, zoom: { animate: false } };
    fit(map, bounds, room(map.getContainer()), how);
  }

  function lids() {
    const found = [...document.querySelectorAll(".key, .layers, .ramp, .leaflet-control-zoom")];
    return found.map((lid) => lid.getBoundingClientRect()).filter((box) => box.width > 0);
  }

  function lidsOver(app, bounds) {
    const { map } = app;
    const frame = map.getContainer().getBoundingClientRect();
    const [low, high] = [bounds.getSouthWest(), bounds.getNorthEast()].map((corner) =>
      map.latLngToContainerPoint(corner),
    );
    const [west, south, east, north] = [frame.x + low.x, frame.y + low.y, frame.x + high.x, frame.y + high.y];
    return lids().filter(
      (box) => box.left < east && box.right > west && box.top < south && box.bottom > north,
    );
  }

  /* What to keep clear of on each side: the larger of the free band across and the one upright. */
  function room(container) {
    const frame = container.getBoundingClientRect();
    const across = { left: ROOM_AROUND, right: ROOM_AROUND, top: ROOM_AROUND, bottom: ROOM_AROUND };
    const upright = { ...across };
    const widen = (sides, side, reach) => (sides[side] = Math.max(sides[side], reach + 10));
    for (const box of lids()) {
      if ((box.left + box.right) / 2 < frame.x + frame.width / 2) widen(upright, "left", box.right - frame.left);
      else widen(upright, "right", frame.right - box.left);
      if ((box.top + box.bottom) / 2 < frame.y + frame.height / 2) widen(across, "top", box.bottom - frame.top);
      else widen(across, "bottom", frame.bottom - box.top);
    }
    const wide = frame.width - upright.left - upright.right;
    const high = frame.height - across.top - across.bottom;
    return wide / frame.width > high / frame.height ? upright : across;
  }

  function announce(app) {
    const live = document.getElementById("live");
    if (app.selected === null) live.textContent = page.phrase("Card closed.");
    else {
      const block = app.data.blocks.name[app.selected];
      const [day, state] = [app.data.days.words[app.day], stateOf(app, app.selected)];
      live.textContent = page.phrase("{block} on {day}: {state}.", { block, day, state });
    }
  }
})(window.mangoPage);
