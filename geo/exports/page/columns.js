/* The long columns of the page, opened when somebody first looks into them.
   The other half of this file is geo/exports/pack.py. */
(function (page) {
  "use strict";

  const KINDS = { u1: Uint8Array, u2: Uint16Array, u4: Uint32Array, i2: Int16Array, i4: Int32Array, f4: Float32Array };
  const TENS = Array.from({ length: 23 }, (_, power) => Number("1e" + power)); // each of them exact
  const ten = (power) => TENS[power] ?? Number("1e" + power);
  const MOST_CHUNKS = 256; // of texts kept inflated, for each column: some megabytes at most

  let store = null;

  function inflated([from, to, size]) {
    const letters = atob(store.slice(from, to));
    const source = new Uint8Array(letters.length);
    for (let i = 0; i < letters.length; i++) source[i] = letters.charCodeAt(i);
    return page.inflate(source, size);
  }

  /* Numbers whose first bytes stand before the second ones, and so on. */
  function array({ kind, at }) {
    const Kind = KINDS[kind];
    const planes = inflated(at);
    const wide = Kind.BYTES_PER_ELEMENT;
    if (wide === 1) return planes;
    const count = planes.length / wide;
    const bytes = new Uint8Array(planes.length);
    for (let plane = 0; plane < wide; plane++) {
      for (let i = 0; i < count; i++) bytes[i * wide + plane] = planes[plane * count + i];
    }
    return new Kind(bytes.buffer);
  }

  /* Whole numbers, told as they are or by the step from the last known one; 0 is not known. */
  function whole({ of, step, at }) {
    const planes = inflated(at);
    const wide = planes.length / (of || 1);
    const numbers = new Int32Array(of);
    const known = new Uint8Array(of);
    let last = 0;
    for (let i = 0; i < of; i++) {
      let code = 0;
      for (let plane = wide - 1; plane >= 0; plane--) code = code * 256 + planes[plane * of + i];
      if (!code) continue;
      code -= 1;
      const told = code % 2 ? -(code + 1) / 2 : code / 2;
      last = step ? last + told : told;
      numbers[i] = last;
      known[i] = 1;
    }
    return { numbers, known, all: !known.includes(0) };
  }

  /* Decimal numbers as they were written: a whole one over a power of ten is rounded once only. */
  function numbers({ tens, whole: coded }) {
    const found = whole(coded);
    if (tens === 0 && found.all) return found.numbers;
    const powers = typeof tens === "number" ? null : whole(tens).numbers;
    const values = new Float64Array(found.numbers.length).fill(NaN);
    for (let i = 0; i < values.length; i++) {
      if (!found.known[i]) continue;
      const power = powers ? powers[i] : tens;
      values[i] = power < 0 ? found.numbers[i] / ten(-power) : found.numbers[i] * ten(power);
    }
    return values;
  }

  /* Numbers over several decades, in equal steps of their logarithm, day after day. */
  function steps({ days, middle, lowest, step, whole: coded }) {
    const told = whole(coded).numbers;
    const count = told.length / days;
    const values = new Float32Array(told.length);
    const sizes = []; // of each code that occurs
    const sizeOf = (code) => (sizes[code] ??= code < 1 ? NaN : code === 1 ? 0 : lowest * Math.exp(step * (code - 2)));
    for (let block = 0; block < count; block++) {
      let away = 0;
      for (let day = 0; day < days; day++) {
        away += told[day * count + block];
        values[block * days + day] = sizeOf(middle[day] + away);
      }
    }
    return values;
  }

  const firsts = function (sizes) {
    const result = new Uint32Array(sizes.length + 1);
    for (let i = 0; i < sizes.length; i++) result[i + 1] = result[i] + sizes[i];
    return result;
  };

  /* Texts as bytes, made into a text when it is asked for by its place: names[3]. */
  class Texts {
    constructor({ of, rows, which, lengths, chunks }) {
      const { numbers: sizes, known } = whole(lengths);
      Object.assign(this, { length: of, rows, known, chunks, firsts: firsts(sizes), opened: new Map() });
      this.which = which ? whole(which).numbers : null;
      this.reader = new TextDecoder();
    }

    at(place) {
      if (!(place >= 0 && place < this.length)) return undefined;
      const told = this.which ? this.which[place] : place;
      if (!this.known[told]) return null;
      const chunk = Math.floor(told / this.rows);
      const from = this.firsts[chunk * this.rows];
      return this.reader.decode(this.bytes(chunk).subarray(this.firsts[told] - from, this.firsts[told + 1] - from));
    }

    bytes(chunk) {
      if (!this.opened.has(chunk)) {
        if (this.opened.size >= MOST_CHUNKS) this.opened.delete(this.opened.keys().next().value);
        this.opened.set(chunk, inflated(this.chunks[chunk]));
      }
      return this.opened.get(chunk);
    }

    indexOf(text) {
      for (let place = 0; place < this.length; place++) if (this.at(place) === text) return place;
      return -1;
    }

    *[Symbol.iterator]() {
      for (let place = 0; place < this.length; place++) yield this.at(place);
    }
  }

  /* Rows of a table, each made when it is asked for; which row is a block's is looked up once. */
  class Rows {
    constructor({ of, columns }) {
      this.length = of;
      this.columns = opened(columns);
    }

    at(place) {
      const { columns } = this;
      const row = {};
      for (const name of Object.keys(columns)) Object.defineProperty(row, name, { get: () => columns[name][place] });
      return row;
    }

    get blocks() {
      return this.columns.block;
    }

    of(block) {
      if (!this.places) {
        this.places = new Int32Array(this.blocks.reduce((most, own) => Math.max(most, own), -1) + 1).fill(-1);
        this.blocks.forEach((own, place) => (this.places[own] = place));
      }
      const place = this.places[block];
      return place >= 0 ? this.at(place) : undefined;
    }
  }

  /* Short lists of [place, share], one for each block. */
  class Pairs {
    constructor({ counts, away, share }) {
      this.firsts = firsts(numbers(counts));
      this.away = numbers(away);
      this.share = numbers(share);
      this.length = this.firsts.length - 1;
    }

    at(block) {
      const pairs = [];
      for (let i = this.firsts[block]; i < this.firsts[block + 1]; i++) pairs.push([block + this.away[i], this.share[i]]);
      return pairs;
    }
  }

  /* Something with at() that is also read as a list is. */
  const listed = (list) =>
    new Proxy(list, {
      get(target, key) {
        if (typeof key === "string" && key >= "0" && key < ":") return target.at(Number(key));
        const value = target[key];
        return typeof value === "function" ? value.bind(target) : value;
      },
    });

  const OPEN = {
    array,
    numbers,
    steps,
    texts: (coded) => listed(new Texts(coded)),
    pairs: (coded) => listed(new Pairs(coded)),
    rows: (coded) => new Rows(coded),
  };

  /* The same object, its columns opened when they are first read. */
  function opened(part) {
    for (const [name, value] of Object.entries(part)) {
      if (!value || typeof value !== "object") continue;
      if (!value.is) opened(value);
      else {
        let found;
        Object.defineProperty(part, name, {
          configurable: true,
          enumerable: true,
          get: () => (found = found || OPEN[value.is](value)),
          set: (other) => (found = other),
        });
      }
    }
    return part;
  }

  page.readData = function () {
    store = document.getElementById("page-columns").textContent;
    return opened(JSON.parse(document.getElementById("page-data").textContent));
  };
})(window.mangoPage);
