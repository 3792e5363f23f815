/* A drawing of the page as a file: SVG with its looks written into it, or PNG. Nothing is sent. */
(function (page) {
  "use strict";

  const { element, svg } = page;
  const LOOKS = [
    "fill",
    "fill-opacity",
    "stroke",
    "stroke-width",
    "stroke-dasharray",
    "stroke-linecap",
    "stroke-linejoin",
    "font-family",
    "font-size",
    "font-weight",
    "text-anchor",
    "dominant-baseline",
    "opacity",
  ];
  const MARGIN = 12;
  const LINE = 18;
  const LETTER = 8; // pixels of a letter of the lines above a drawing, at most
  const PNG_SCALE = 2; // sharp in a report
  const FORGET_MILLISECONDS = 10_000; // by then every browser has begun to write
  const BACKGROUND = "#fffdf8";
  const NOT_XML = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu; // XML 1.0, section 2.2

  page.savedHead = function (app) {
    const { words, today } = app.data.days;
    const made = document.querySelector("h1 .made");
    const year = document.querySelector(".date .year");
    return [
      app.data.farm.name + (made ? ` (${made.textContent})` : ""),
      `${app.words.name}, ${words[today]} ${year ? year.textContent.trim() : ""}`.trim(),
    ];
  };

  /* Style sheets stay behind, so each part takes along how it looks now. */
  function withLooks(picture) {
    const copy = picture.cloneNode(true);
    const [own, copies] = [picture, copy].map((root) => [root, ...root.querySelectorAll("*")]);
    own.forEach((part, place) => {
      if (part.closest("defs") && part.tagName !== "path") return;
      const looks = getComputedStyle(part);
      for (const name of LOOKS) {
        const value = looks.getPropertyValue(name);
        if (value && value !== "auto") copies[place].setAttribute(name, value.replaceAll('"', "'"));
      }
      // Halos of words lie under them only by a rule that many readers of SVG do not know.
      if (part.tagName === "text") copies[place].setAttribute("stroke", "none");
      copies[place].removeAttribute("class");
      delete copies[place].dataset.block;
    });
    return copy;
  }

  /* Lines of words, broken where the drawing is narrower than they are. */
  function broken(lines, width) {
    const most = Math.floor(width / LETTER);
    const shown = [];
    for (const line of lines) {
      let now = "";
      for (const word of line.split(" ")) {
        if (now && now.length + word.length >= most) {
          shown.push(now);
          now = word;
        } else now = now ? `${now} ${word}` : word;
      }
      shown.push(now);
    }
    return shown;
  }

  /* Size and text of the file. */
  page.asSvg = function (picture, lines) {
    const width = Number(picture.getAttribute("width"));
    const inner = Number(picture.getAttribute("height"));
    const said = broken(lines, width);
    const top = 2 * MARGIN + said.length * LINE;
    const size = { width: width + 2 * MARGIN, height: top + inner + MARGIN };
    const copy = withLooks(picture);
    copy.setAttribute("x", MARGIN);
    copy.setAttribute("y", top);
    const family = getComputedStyle(document.body).fontFamily.replaceAll('"', "'");
    const whole = svg(
      "svg",
      { ...size, viewBox: `0 0 ${size.width} ${size.height}`, "font-family": family },
      svg("title", null, lines.join(". ")),
      svg("rect", { width: size.width, height: size.height, fill: BACKGROUND }),
      ...said.map((line, place) =>
        svg(
          "text",
          { x: MARGIN, y: MARGIN + (place + 0.75) * LINE, "font-size": 13, "font-weight": place ? 400 : 600, fill: "#22302b" },
          line,
        ),
      ),
      copy,
    );
    return { ...size, text: new XMLSerializer().serializeToString(whole).replace(NOT_XML, "") };
  };

  function hand(blob, name) {
    const link = element("a", { href: URL.createObjectURL(blob), download: name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), FORGET_MILLISECONDS);
  }

  /* The picture goes in as data: the page's content policy lets nothing else in. */
  async function asPng({ width, height, text }) {
    const image = new Image();
    image.src = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(text);
    await image.decode();
    const canvas = element("canvas", { width: Math.ceil(width * PNG_SCALE), height: Math.ceil(height * PNG_SCALE) });
    canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
    return new Promise((done) => canvas.toBlob(done, "image/png"));
  }

  /* Two buttons; what stands above the drawing in the file is asked for when one is pressed. */
  page.saveButtons = function (picture, name, lines) {
    const said = element("span", { class: "saved", role: "status" });
    const plain = name.replace(/[^A-Za-z0-9_-]+/g, "_");
    const button = (words, ending, make) => {
      const one = element("button", { type: "button" }, words);
      one.addEventListener("click", async () => {
        try {
          const blob = await make(page.asSvg(picture, lines()));
          if (!blob) throw new Error("no picture");
          hand(blob, `${plain}.${ending}`);
          said.textContent = page.phrase("Saved among the downloads, if this browser lets a page save.");
        } catch (refused) {
          said.textContent = page.phrase("This browser cannot save it: it may be too large. Save it as SVG.");
        }
      });
      return one;
    };
    return element(
      "p",
      { class: "save" },
      button(page.phrase("Save as SVG"), "svg", ({ text }) => new Blob([text], { type: "image/svg+xml" })),
      button(page.phrase("Save as PNG"), "png", asPng),
      said,
    );
  };
})(window.mangoPage);
