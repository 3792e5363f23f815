/* What lies under the blocks: relief only, or the season or the last night at every cell. */
(function (page) {
  "use strict";

  const { element } = page;

  page.addGround = function (app) {
    const { map, data } = app;
    const pane = map.createPane("ground");
    pane.style.zIndex = 260;
    pane.style.pointerEvents = "none";
    const kinds = new Map(data.ground.map((kind) => [kind.key, kind]));
    const pictures = new Map();
    for (const button of document.querySelectorAll("#ground input")) {
      button.closest("label").hidden = button.value !== "" && !kinds.has(button.value);
      button.addEventListener("change", () => app.set({ ground: button.value }));
    }
    document.getElementById("ground").hidden = !kinds.size;

    // A picture is only made when somebody asks for it.
    function picture({ key, picture: address, bounds }) {
      if (!pictures.has(key)) {
        const options = { pane: "ground", interactive: false, className: "ground-picture", alt: "" };
        pictures.set(key, L.imageOverlay(address, bounds, options));
      }
      return pictures.get(key);
    }

    app.listen((changed) => {
      if (!changed.ground && !changed.units) return;
      const kind = kinds.get(app.ground);
      for (const [key, drawn] of pictures) if (key !== app.ground) drawn.remove();
      if (kind) picture(kind).addTo(map);
      document.body.classList.toggle("ground-on", Boolean(kind));
      const legend = document.getElementById("ramp");
      legend.hidden = !kind;
      legend.replaceChildren(...(kind ? legendOf(app, kind) : []));
    });
  };

  function legendOf(app, kind) {
    const bar = element("span", { class: "bar", "aria-hidden": "true" });
    bar.style.backgroundImage = `linear-gradient(to right, ${kind.colours.join(", ")})`;
    const ticks = kind.ticks.map((value) => element("span", null, tick(app, kind, value)));
    return [
      element("strong", null, kind.words),
      element("span", { class: "when" }, kind.when),
      bar,
      element("span", { class: "ticks" }, ...ticks),
    ];
  }

  function tick(app, kind, value) {
    if (kind.unit === "degC") return page.measure(value, kind.unit, app.units);
    return String(Number(value.toFixed(3)));
  }
})(window.mangoPage);
