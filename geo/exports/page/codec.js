/* Turn the page's outlines back into corners, and find blocks by place.
   The other half of this file is geo/exports/outlines.py. */
window.mangoPage = {};
document.documentElement.classList.add("live");
window.addEventListener("error", () => {
  // Better the still version than a page that answers nothing.
  const root = document.documentElement;
  if (!root.dataset.painted) root.classList.remove("live");
});
(function (page) {
  "use strict";

  const DEGREES_PER_UNIT = 1e-6;
  const WORLD = 256; // pixels round the world at zoom 0 of a web map
  const EQUATOR_METRES = 40075016.7;
  const BLOCKS_PER_CELL = 4;

  function worldX(east) {
    return WORLD * (0.5 + east / 360);
  }

  function worldY(north) {
    const sine = Math.sin((north * Math.PI) / 180);
    return WORLD * (0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI));
  }

  /* How many zoom-0 pixels a metre is, at a place given in them. */
  page.pixelsPerMetre = function (y) {
    const north = 2 * Math.atan(Math.exp(Math.PI * (1 - (2 * y) / WORLD))) - Math.PI / 2;
    return WORLD / (EQUATOR_METRES * Math.cos(north));
  };

  /* Points given in millionths of a degree, as [east, north] pairs: to zoom-0 pixels. */
  page.worldPoints = function (units) {
    const world = new Float64Array(units.length);
    for (let i = 0; i < units.length; i += 2) {
      world[i] = worldX(units[i] * DEGREES_PER_UNIT);
      world[i + 1] = worldY(units[i + 1] * DEGREES_PER_UNIT);
    }
    return world;
  };

  /* First places of consecutive groups of the given sizes, with the end added. */
  function firsts(sizes) {
    const result = new Uint32Array(sizes.length + 1);
    for (let i = 0; i < sizes.length; i++) result[i + 1] = result[i] + sizes[i];
    return result;
  }

  /* Outlines: block -> rings -> corners. Holes are rings too, wound the other way. */
  page.decodeOutlines = function (coded) {
    const ringFirst = firsts(coded.rings);
    const cornerFirst = firsts(coded.corners);
    const { starts, steps } = coded;
    const total = cornerFirst[cornerFirst.length - 1];
    const units = new Int32Array(2 * total);
    const world = new Float64Array(2 * total);
    let step = 0;
    for (let ring = 0; ring < cornerFirst.length - 1; ring++) {
      let x = starts[2 * ring];
      let y = starts[2 * ring + 1];
      for (let k = cornerFirst[ring]; k < cornerFirst[ring + 1]; k++) {
        if (k > cornerFirst[ring]) {
          x += steps[step++];
          y += steps[step++];
        }
        units[2 * k] = x;
        units[2 * k + 1] = y;
        world[2 * k] = worldX(x * DEGREES_PER_UNIT);
        world[2 * k + 1] = worldY(y * DEGREES_PER_UNIT);
      }
    }
    const outlines = { count: coded.count, ringFirst, cornerFirst, units, world };
    outlines.boxes = boxes(outlines);
    return outlines;
  };

  /* West, north, east, south of each block in zoom-0 pixels (y grows southward). */
  function boxes(outlines) {
    const result = new Float64Array(4 * outlines.count);
    for (let block = 0; block < outlines.count; block++) {
      let [west, north, east, south] = [Infinity, Infinity, -Infinity, -Infinity];
      const first = outlines.cornerFirst[outlines.ringFirst[block]];
      const end = outlines.cornerFirst[outlines.ringFirst[block + 1]];
      for (let k = first; k < end; k++) {
        const x = outlines.world[2 * k];
        const y = outlines.world[2 * k + 1];
        if (x < west) west = x;
        if (x > east) east = x;
        if (y < north) north = y;
        if (y > south) south = y;
      }
      result[4 * block] = west;
      result[4 * block + 1] = north;
      result[4 * block + 2] = east;
      result[4 * block + 3] = south;
    }
    return result;
  }

  page.wholeBox = function (outlines) {
    const whole = [Infinity, Infinity, -Infinity, -Infinity];
    for (let i = 0; i < outlines.boxes.length; i += 4) {
      whole[0] = Math.min(whole[0], outlines.boxes[i]);
      whole[1] = Math.min(whole[1], outlines.boxes[i + 1]);
      whole[2] = Math.max(whole[2], outlines.boxes[i + 2]);
      whole[3] = Math.max(whole[3], outlines.boxes[i + 3]);
    }
    return whole;
  };

  /* The rings of a block as Leaflet wants them: each a list of [north, east]. */
  page.ringsOf = function (outlines, block) {
    const rings = [];
    for (let ring = outlines.ringFirst[block]; ring < outlines.ringFirst[block + 1]; ring++) {
      const corners = [];
      for (let k = outlines.cornerFirst[ring]; k < outlines.cornerFirst[ring + 1]; k++) {
        corners.push([outlines.units[2 * k + 1], outlines.units[2 * k]].map((unit) => unit * DEGREES_PER_UNIT));
      }
      rings.push(corners);
    }
    return rings;
  };

  /* A grid of cells over the farm, each with the blocks whose box touches it. */
  page.gridIndex = function (outlines) {
    const [west, north, east, south] = page.wholeBox(outlines);
    const side = Math.max(1, Math.ceil(Math.sqrt(outlines.count / BLOCKS_PER_CELL)));
    const width = (east - west) / side || 1;
    const height = (south - north) / side || 1;
    const { boxes, count } = outlines;
    const cell = (value, start, size) =>
      Math.max(0, Math.min(side - 1, Math.floor((value - start) / size)));

    function eachCell(x0, y0, x1, y1, visit) {
      const lastX = cell(x1, west, width);
      const lastY = cell(y1, north, height);
      for (let y = cell(y0, north, height); y <= lastY; y++) {
        for (let x = cell(x0, west, width); x <= lastX; x++) visit(y * side + x);
      }
    }

    function eachOfBlock(block, visit) {
      eachCell(boxes[4 * block], boxes[4 * block + 1], boxes[4 * block + 2], boxes[4 * block + 3], visit);
    }

    const sizes = new Uint32Array(side * side);
    for (let block = 0; block < count; block++) eachOfBlock(block, (at) => sizes[at]++);
    const cellFirst = firsts(sizes);
    const free = cellFirst.slice();
    const members = new Uint32Array(cellFirst[side * side]);
    for (let block = 0; block < count; block++) eachOfBlock(block, (at) => (members[free[at]++] = block));
    const seen = new Uint32Array(count); // in which question a block was last found
    const found = new Uint32Array(count);
    let question = 0;

    /* Blocks whose box touches the one given, in their own order. */
    return function blocksIn(x0, y0, x1, y1) {
      if (x1 < west || x0 > east || y1 < north || y0 > south) return found.subarray(0, 0);
      question++;
      let many = 0;
      eachCell(x0, y0, x1, y1, (at) => {
        for (let i = cellFirst[at]; i < cellFirst[at + 1]; i++) {
          const block = members[i];
          if (seen[block] === question) continue;
          seen[block] = question;
          const b = 4 * block;
          if (boxes[b] <= x1 && boxes[b + 2] >= x0 && boxes[b + 1] <= y1 && boxes[b + 3] >= y0) found[many++] = block;
        }
      });
      return found.slice(0, many).sort();
    };
  };

  const BITS = new Float32Array(1);
  const AS_WHOLE = new Uint32Array(BITS.buffer);

  /* Places of values from the largest to the smallest, equal ones as they came, unknown ones last:
     by sixteen bits at a time, since the bits of numbers from 0 up are ordered as they are. */
  page.largestFirst = function (values) {
    const keys = Uint32Array.from(values, (value) => {
      BITS[0] = value + 0; // of the two zeros the plain one
      return value >= 0 ? 0xfffffffe - AS_WHOLE[0] : 0xffffffff;
    });
    let order = Uint32Array.from(values, (_, place) => place);
    for (const shift of [0, 16]) {
      const sizes = new Uint32Array(65536);
      for (const key of keys) sizes[(key >>> shift) & 0xffff]++;
      const free = firsts(sizes);
      const next = new Uint32Array(order.length);
      for (const place of order) next[free[(keys[place] >>> shift) & 0xffff]++] = place;
      order = next;
    }
    return order;
  };

  /* Is the point inside the block, and not in a hole of it? Crossings of all rings are counted. */
  page.isInside = function (outlines, block, x, y) {
    let inside = false;
    const world = outlines.world;
    for (let ring = outlines.ringFirst[block]; ring < outlines.ringFirst[block + 1]; ring++) {
      const first = outlines.cornerFirst[ring];
      const end = outlines.cornerFirst[ring + 1];
      for (let a = first, b = end - 1; a < end; b = a++) {
        const ya = world[2 * a + 1];
        const yb = world[2 * b + 1];
        const crossing = world[2 * a] + ((world[2 * b] - world[2 * a]) * (y - ya)) / (yb - ya);
        if (ya > y !== yb > y && x < crossing) inside = !inside;
      }
    }
    return inside;
  };
})(window.mangoPage);
