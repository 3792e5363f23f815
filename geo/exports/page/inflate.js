/* Inflate what was deflated (RFC 1951). At once and in every browser: their own way is not. */
(function (page) {
  "use strict";

  const CODE_ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];
  const [FIRST_LENGTH, FIRST_DISTANCE] = [3, 1];
  const LENGTHS = bases([0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5], FIRST_LENGTH);
  const DISTANCES = bases(Array.from({ length: 30 }, (_, code) => Math.max(0, (code >> 1) - 1)), FIRST_DISTANCE);
  const END = 256;
  const LONGEST = 258; // told by a code of its own, without further bits

  /* The smallest value of each code, from the numbers of its further bits. */
  function bases(extra, first) {
    let base = first;
    return extra.map((bits) => {
      const own = { bits, base };
      base += 1 << bits;
      return own;
    });
  }
  LENGTHS.push({ bits: 0, base: LONGEST });

  /* For every pattern of so many bits: the symbol that it begins with, and its length in bits. */
  function tableOf(lengths) {
    const most = Math.max(1, ...lengths);
    const table = new Uint16Array(1 << most);
    let code = 0;
    for (let length = 1; length <= most; length++, code <<= 1) {
      for (let symbol = 0; symbol < lengths.length; symbol++) {
        if (lengths[symbol] !== length) continue;
        let turned = 0;
        for (let bit = 0; bit < length; bit++) turned |= ((code >> bit) & 1) << (length - 1 - bit);
        for (let at = turned; at < table.length; at += 1 << length) table[at] = (symbol << 4) | length;
        code++;
      }
    }
    return { table, most, mask: table.length - 1 };
  }

  const FIXED = [
    tableOf(Array.from({ length: 288 }, (_, symbol) => (symbol < 144 ? 8 : symbol < 256 ? 9 : symbol < 280 ? 7 : 8))),
    tableOf(new Array(30).fill(5)),
  ];

  class Reader {
    constructor(source) {
      Object.assign(this, { source, at: 0, held: 0, count: 0 });
    }

    fill(wanted) {
      while (this.count < wanted) {
        this.held |= (this.at < this.source.length ? this.source[this.at] : 0) << this.count;
        this.at++;
        this.count += 8;
      }
    }

    bits(wanted) {
      if (!wanted) return 0;
      this.fill(wanted);
      const value = this.held & ((1 << wanted) - 1);
      this.held >>>= wanted;
      this.count -= wanted;
      return value;
    }

    symbol({ table, most, mask }) {
      this.fill(most);
      const found = table[this.held & mask];
      const length = found & 15;
      this.held >>>= length;
      this.count -= length;
      return found >> 4;
    }

    /* Back to whole bytes; those that were read ahead are given back. */
    align() {
      this.at -= this.count >> 3;
      this.held = this.count = 0;
    }
  }

  function ownTables(reader) {
    const [literals, distances, codes] = [reader.bits(5) + 257, reader.bits(5) + 1, reader.bits(4) + 4];
    const ofCodes = new Array(19).fill(0);
    for (let i = 0; i < codes; i++) ofCodes[CODE_ORDER[i]] = reader.bits(3);
    const table = tableOf(ofCodes);
    const lengths = [];
    while (lengths.length < literals + distances) {
      const code = reader.symbol(table);
      if (code < 16) lengths.push(code);
      else {
        const again = code === 16 ? lengths[lengths.length - 1] : 0;
        const times = code === 16 ? 3 + reader.bits(2) : code === 17 ? 3 + reader.bits(3) : 11 + reader.bits(7);
        for (let i = 0; i < times; i++) lengths.push(again);
      }
    }
    return [tableOf(lengths.slice(0, literals)), tableOf(lengths.slice(literals))];
  }

  /* Bytes that are so many once they are inflated. */
  page.inflate = function (source, size) {
    const reader = new Reader(source);
    const result = new Uint8Array(size);
    let place = 0;
    let isLast = 0;
    while (!isLast) {
      isLast = reader.bits(1);
      const kind = reader.bits(2);
      if (kind === 0) {
        reader.align();
        const length = source[reader.at] | (source[reader.at + 1] << 8);
        result.set(source.subarray(reader.at + 4, reader.at + 4 + length), place);
        reader.at += 4 + length;
        place += length;
        continue;
      }
      const [literals, distances] = kind === 1 ? FIXED : ownTables(reader);
      for (let symbol = reader.symbol(literals); symbol !== END; symbol = reader.symbol(literals)) {
        if (symbol < END) {
          result[place++] = symbol;
          continue;
        }
        const { bits, base } = LENGTHS[symbol - END - 1];
        const end = place + base + reader.bits(bits);
        const away = DISTANCES[reader.symbol(distances)];
        const back = away.base + reader.bits(away.bits);
        for (; place < end; place++) result[place] = result[place - back];
      }
    }
    return result;
  };
})(window.mangoPage);
