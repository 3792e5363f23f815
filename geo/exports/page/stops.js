/* Where the numbers of the stops stand: beside what is written on the map, never on it. */
(function (page) {
  "use strict";

  // Pixels: how far a number may move from its stop, in which steps, and what it keeps free.
  const [ACROSS, UPRIGHT, STEP] = [132, 108, 6];
  const NEAR = 190; // what is written further off than this cannot be reached
  const AIR = 2;
  const SHORTEST_LEADER = 5;
  const PRICE_OF_HIDING = 40; // pixels of way that are gone to hide one pixel less
  const PRICE_OF_CROSSING = 8; // for each step of the leader over what is written
  const FAR_OUT = 1e9;
  const LIDS = ".key, .layers, .ramp, .leaflet-control-zoom, .leaflet-control-scale";

  /* Anew whenever what is written changes: with the zoom, the list, the day, or the layers. */
  page.placeStops = function (app) {
    const { map } = app;
    let isAsked = false;
    const ask = () => {
      if (isAsked) return;
      isAsked = true;
      requestAnimationFrame(() => {
        isAsked = false;
        placeAll(app);
      });
    };
    map.on("zoomend", ask);
    map.on("layeradd layerremove", ({ layer }) => Object.values(app.layers).includes(layer) && ask());
    app.listen((changed) => (changed.day || changed.tab || changed.disease) && ask());
    ask();
  };

  function placeAll(app) {
    const { map } = app;
    const corner = map.getPixelBounds().min;
    const frame = map.getContainer().getBoundingClientRect();
    const onGround = ({ left, top, right, bottom }) => ({
      left: left - frame.left + corner.x,
      top: top - frame.top + corner.y,
      right: right - frame.left + corner.x,
      bottom: bottom - frame.top + corner.y,
    });
    const boxes = (what) =>
      [...document.querySelectorAll(what)]
        .map((one) => one.getBoundingClientRect())
        .filter((box) => box.width)
        .map(onGround);
    const taken = boxes(".leaflet-places-pane .place > *, .leaflet-places-pane .neighbour");
    const edges = [...boxes(LIDS), ...round(onGround(frame))];
    for (const name of ["round", "walk"]) {
      for (const stop of app.layers[name].stops) {
        if (!stop._map) continue;
        const at = map.project(stop.getLatLng());
        const [number, leader] = stop.getElement().firstChild.children;
        const labels = labelsNear(app, at);
        const isSeen = map.getBounds().contains(stop.getLatLng());
        const [x, y] = placeOf(at, number, [...labels, ...taken], isSeen ? edges : []);
        taken.push(boxOf(at.x + x, at.y + y, number));
        number.style.transform = `translate(calc(-50% + ${x}px), calc(-50% + ${y}px))`;
        lead(leader, [x, y], edgeOf(labels, at, [x, y]), number);
      }
    }
  }

  /* All that lies outside a frame. */
  function round({ left, top, right, bottom }) {
    const all = { left: -FAR_OUT, top: -FAR_OUT, right: FAR_OUT, bottom: FAR_OUT };
    return [{ ...all, right: left }, { ...all, left: right }, { ...all, bottom: top }, { ...all, top: bottom }];
  }

  /* Ranks and ids of the blocks round a place, as boxes in pixels of the present zoom. */
  function labelsNear(app, at) {
    const scale = Math.pow(2, app.map.getZoom());
    const sides = [at.x - NEAR, at.y - NEAR, at.x + NEAR, at.y + NEAR].map((side) => side / scale);
    const found = Array.from(app.blocksIn(...sides), (block) => app.blockLayer.labelBox(block));
    return found.filter(Boolean).map(([left, top, right, bottom]) => ({
      left: left * scale,
      top: top * scale,
      right: right * scale,
      bottom: bottom * scale,
    }));
  }

  function boxOf(x, y, { offsetWidth, offsetHeight }) {
    const [wide, high] = [offsetWidth / 2 + AIR, offsetHeight / 2 + AIR];
    return { left: x - wide, top: y - high, right: x + wide, bottom: y + high };
  }

  /* The nearest place where it hides nothing; in a crowd, where it hides least. */
  function placeOf(at, number, taken, edges) {
    let [best, least] = [[0, 0], Infinity];
    for (let y = -UPRIGHT; y <= UPRIGHT; y += STEP) {
      for (let x = -ACROSS; x <= ACROSS; x += STEP) {
        const away = Math.hypot(gap(x, number.offsetWidth), gap(y, number.offsetHeight));
        let price = away + 0.1 * Math.hypot(x, y);
        if (price >= least) continue;
        const box = boxOf(at.x + x, at.y + y, number);
        for (const other of taken) price += PRICE_OF_HIDING * shared(box, other);
        for (const other of edges) price += PRICE_OF_HIDING * shared(box, other);
        if (price < least && away > SHORTEST_LEADER) price += PRICE_OF_CROSSING * crossed(at, [x, y], taken);
        if (price < least) [best, least] = [[x, y], price];
      }
    }
    return best;
  }

  /* In how many of its steps a leader runs over what is written elsewhere than at the stop itself. */
  function crossed(at, [x, y], taken) {
    const isIn = ({ left, right, top, bottom }, east, south) => left < east && right > east && top < south && bottom > south;
    const steps = Math.ceil(Math.hypot(x, y) / STEP);
    let found = 0;
    for (const box of taken) {
      if (isIn(box, at.x, at.y)) continue;
      for (let step = 1; step < steps; step++) {
        if (isIn(box, at.x + (x * step) / steps, at.y + (y * step) / steps)) found++;
      }
    }
    return found;
  }

  const gap = (shift, size) => Math.max(0, Math.abs(shift) - size / 2);

  function shared(one, other) {
    const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
    const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
    return wide > 0 && high > 0 ? wide * high : 0;
  }

  /* Where the way from the stop to its number leaves what is written at the stop itself. */
  function edgeOf(labels, at, [x, y]) {
    const own = labels.find((box) => box.left < at.x && box.right > at.x && box.top < at.y && box.bottom > at.y);
    if (!own) return 0;
    const across = x ? (x > 0 ? own.right - at.x : at.x - own.left) / Math.abs(x) : Infinity;
    const upright = y ? (y > 0 ? own.bottom - at.y : at.y - own.top) / Math.abs(y) : Infinity;
    return Math.min(1, across, upright);
  }

  /* A short line from the stop to a number that stands further off. */
  function lead(leader, [x, y], from, number) {
    const length = Math.hypot(x, y);
    const inside = Math.min(number.offsetWidth / 2 / Math.abs(x), number.offsetHeight / 2 / Math.abs(y));
    const seen = (1 - from - inside) * length;
    leader.hidden = !(seen > SHORTEST_LEADER);
    leader.style.width = `${seen}px`;
    leader.style.transform = `translate(${x * from}px, ${y * from}px) rotate(${Math.atan2(y, x)}rad)`;
  }
})(window.mangoPage);
