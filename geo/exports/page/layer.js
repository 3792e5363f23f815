/* The blocks, painted on canvas tiles: quick to repaint when the day changes, also for thousands. */
(function (page) {
  "use strict";

  const TILE = 512;
  // One path with thousands of parts is an order of magnitude slower than many short ones.
  const BATCH = 40;
  const FRAME_SHARE = 5; // milliseconds of a frame for new tiles
  const INK = "#22302b";
  const glare = matchMedia("(prefers-contrast: more)");
  page.unknownFill = "#d9d7d0";
  const LABEL_REACH = 60; // pixels that a label may stick out over a tile's edge
  // Radius in pixels of the circle that fits into a block: what a label needs.
  const ROOM_FOR_RANK = 7;
  const ROOM_FOR_NAME = 19;
  // And what a line needs: from afar, lines would cover the colours between them.
  const ROOM_FOR_LINE = 1.2;
  const ROOM_FOR_RIM = 2.5;
  const LINE_SHARE = 0.2; // of that radius, at most

  /* Fine diagonal lines that tile without a seam. */
  function hatch(context, colour, rising) {
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = 8;
    const brush = canvas.getContext("2d");
    brush.strokeStyle = colour;
    brush.lineWidth = 1.5;
    if (!rising) {
      brush.translate(8, 0);
      brush.scale(-1, 1);
    }
    brush.beginPath();
    for (const shift of [-8, 0, 8]) {
      brush.moveTo(shift, 8);
      brush.lineTo(shift + 8, 0);
    }
    brush.stroke();
    return context.createPattern(canvas, "repeat");
  }

  page.BlockLayer = L.GridLayer.extend({
    options: { tileSize: TILE, updateWhenZooming: false, keepBuffer: 1, pane: "blocks" },

    initialize(app) {
      this.app = app;
      this.unpainted = [];
      this.isOpen = false; // before the first repaint a tile would be painted twice
      L.setOptions(this, {});
    },

    /* The first picture is painted at once. Later tiles come a few a frame, so that the map glides. */
    createTile(place, done) {
      const tile = document.createElement("canvas");
      const sharpness = Math.min(2, window.devicePixelRatio || 1);
      tile.width = tile.height = TILE * sharpness;
      tile.place = place;
      if (!document.documentElement.dataset.painted) {
        if (this.isOpen) this.paint(tile);
        requestAnimationFrame(() => done(null, tile));
      } else if (this.unpainted.push({ tile, done }) === 1) {
        requestAnimationFrame(() => this.paintNext());
      }
      return tile;
    },

    paintNext() {
      const until = performance.now() + FRAME_SHARE;
      do {
        const { tile, done } = this.unpainted.shift();
        if (!tile.isConnected) continue; // the map has moved on
        this.paint(tile);
        done(null, tile);
      } while (this.unpainted.length && performance.now() < until);
      if (this.unpainted.length) requestAnimationFrame(() => this.paintNext());
    },

    repaint() {
      this.isOpen = true;
      for (const key in this._tiles) this.paint(this._tiles[key].el);
    },

    paint(tile) {
      const { app } = this;
      const scale = Math.pow(2, tile.place.z);
      const view = { scale, x: tile.place.x * TILE, y: tile.place.y * TILE };
      const context = tile.getContext("2d");
      context.setTransform(tile.width / TILE, 0, 0, tile.height / TILE, 0, 0);
      context.clearRect(0, 0, TILE, TILE);
      context.lineJoin = "round"; // as labels leave it: no painting may differ from the first one
      const near = (reach) =>
        app.blocksIn(
          (view.x - reach) / scale,
          (view.y - reach) / scale,
          (view.x + TILE + reach) / scale,
          (view.y + TILE + reach) / scale,
        );
      const blocks = near(4);
      this.paintFills(context, view, blocks);
      if (app.widest * scale > ROOM_FOR_RIM) {
        for (const block of blocks) if (app.barred.has(block)) this.paintRim(context, view, block);
      }
      // From afar no block has room for its number.
      if (app.widest * scale < ROOM_FOR_RANK) return;
      for (const block of near(LABEL_REACH)) this.paintLabel(context, view, block);
    },

    paintFills(context, view, blocks) {
      const { app } = this;
      const groups = new Map();
      for (const block of blocks) {
        const look = app.classOn(block, app.day);
        if (!groups.has(look)) groups.set(look, []);
        groups.get(look).push(block);
      }
      context.strokeStyle = INK;
      const room = app.widest * view.scale;
      const line = Math.min(view.scale > 20000 ? 1.2 : 0.6, LINE_SHARE * room);
      context.lineWidth = line * (glare.matches ? 2 : 1);
      for (const [look, members] of groups) {
        for (let first = 0; first < members.length; first += BATCH) {
          context.beginPath();
          const end = Math.min(members.length, first + BATCH);
          for (let place = first; place < end; place++) this.trace(context, view, members[place]);
          // Over colours of the ground a second colour would say neither.
          if (!app.ground) this.fill(context, look);
          if (room > ROOM_FOR_LINE) context.stroke();
        }
      }
    },

    fill(context, look) {
      const { colours } = this.app.data.classes;
      context.globalAlpha = 0.9;
      context.fillStyle = look < 0 ? page.unknownFill : colours[look];
      context.fill();
      context.globalAlpha = 1;
      if (look === colours.length - 1) {
        this.topHatch = this.topHatch || hatch(context, "rgba(255,255,255,.6)", true);
        context.fillStyle = this.topHatch;
        context.fill();
      } else if (look < 0) {
        this.unknownHatch = this.unknownHatch || hatch(context, "rgba(80,84,80,.75)", false);
        context.fillStyle = this.unknownHatch;
        context.fill();
      }
    },

    trace(context, view, block) {
      const { outlines } = this.app;
      if (this.app.widest * view.scale < ROOM_FOR_LINE) return this.traceBox(context, view, block);
      for (let ring = outlines.ringFirst[block]; ring < outlines.ringFirst[block + 1]; ring++) {
        for (let k = outlines.cornerFirst[ring]; k < outlines.cornerFirst[ring + 1]; k++) {
          const x = outlines.world[2 * k] * view.scale - view.x;
          const y = outlines.world[2 * k + 1] * view.scale - view.y;
          if (k === outlines.cornerFirst[ring]) context.moveTo(x, y);
          else context.lineTo(x, y);
        }
        context.closePath();
      }
    },

    /* Of two pixels nobody sees the corners. */
    traceBox(context, view, block) {
      const { boxes } = this.app.outlines;
      const [west, north, east, south] = [0, 1, 2, 3].map((side) => boxes[4 * block + side] * view.scale);
      context.rect(west - view.x, north - view.y, east - west, south - north);
    },

    /* A block that may not be sprayed today: a heavy rim. */
    paintRim(context, view, block) {
      context.beginPath();
      this.trace(context, view, block);
      context.lineWidth = Math.min(view.scale > 30000 ? 3.5 : 2.5, 0.8 * this.app.room(block) * view.scale);
      context.strokeStyle = INK;
      context.stroke();
    },

    /* Where a block's label stands at a scale, and how large it is; null where there is no room. */
    labelAt(block, scale) {
      const { app } = this;
      const room = app.room(block) * scale;
      if (room < ROOM_FOR_RANK) return null;
      const [x, y] = [app.labels[2 * block] * scale, app.labels[2 * block + 1] * scale];
      const isNamed = room >= ROOM_FOR_NAME;
      const size = Math.round(Math.max(11, Math.min(18, room * 0.75)));
      return { x, y, isNamed, size, up: isNamed ? y - 8 : y };
    },

    /* West, north, east and south of what is written in a block, in pixels of zoom 0; or null. */
    labelBox(block) {
      const { app } = this;
      const scale = Math.pow(2, Math.round(app.map.getZoom())); // tiles are painted for whole zooms
      const label = this.labelAt(block, scale);
      if (!label) return null;
      const { x, y, up, size, isNamed } = label;
      const marks = app.data.since && app.day === app.data.days.today ? size : 0;
      const rank = Math.max(1.5, 0.7 * String(app.rankOf(block) || "").length) * size;
      const id = isNamed ? String(app.data.blocks.id[block]).length * 8 : 0;
      const wide = Math.max(rank, id) / 2 + marks + 2;
      const sides = [x - wide, up - 0.6 * size - 1, x + wide, isNamed ? y + 18 : up + 0.6 * size + 1];
      return sides.map((side) => side / scale);
    },

    /* Its place in the list that is open, or a bar or a ring where it has none; its id below. */
    paintLabel(context, view, block) {
      const { app } = this;
      const label = this.labelAt(block, view.scale);
      if (!label) return;
      const { size, isNamed } = label;
      const [x, y, up] = [label.x - view.x, label.y - view.y, label.up - view.y];
      const rank = app.rankOf(block);
      context.textAlign = "center";
      context.textBaseline = "middle";
      if (rank !== null) this.write(context, rank, x, up, `700 ${size}px `);
      else if (app.barred.has(block)) this.paintBar(context, x, up, size);
      else if (app.tab === "spray" && app.notWorth.has(block)) this.paintRing(context, x, up, size);
      page.paintSteps(context, app, block, { x, y: up, size, wide: rank === null ? size : context.measureText(String(rank)).width });
      if (isNamed) this.write(context, app.data.blocks.id[block], x, y + 10, "500 12px ");
    },

    paintBar(context, x, y, size) {
      const [width, height] = [size * 1.4, size * 0.36];
      const rim = 2.5;
      context.fillStyle = "#fff";
      context.fillRect(x - width / 2 - rim, y - height / 2 - rim, width + 2 * rim, height + 2 * rim);
      context.fillStyle = INK;
      context.fillRect(x - width / 2, y - height / 2, width, height);
    },

    /* Open, and yet not worth a spray: a ring, as in the list. */
    paintRing(context, x, y, size) {
      context.beginPath();
      context.arc(x, y, size * 0.34, 0, 2 * Math.PI);
      context.lineWidth = 5;
      context.strokeStyle = "#fff";
      context.stroke();
      context.fillStyle = "#fff";
      context.fill();
      context.lineWidth = 2;
      context.strokeStyle = INK;
      context.stroke();
    },

    write(context, text, x, y, weightAndSize) {
      const words = page.isolated(String(text).slice(0, 14));
      context.direction = "ltr";
      context.font = weightAndSize + this.app.fontFamily;
      context.lineJoin = "round";
      context.lineWidth = 3.5;
      context.strokeStyle = "rgba(255,255,255,.92)";
      context.strokeText(words, x, y);
      context.fillStyle = INK;
      context.fillText(words, x, y);
    },
  });
})(window.mangoPage);
