/* The strip of days under the map: how the farm stood each day, the slider over it, and play. */
(function (page) {
  "use strict";

  const { element } = page;
  const STEP_MILLISECONDS = 900;
  const RAIN_FULL_MM = 20;
  const ROOM_FOR_WEEKDAY = 34; // pixels of a column
  const ROOM_FOR_NUMBER = 21;
  const SPARE = 4; // pixels that the name of a day may stick out: the gap between two columns
  // What is known of a day, by the key that comes with it.
  const BASIS = {
    measured: page.phrase("measured"),
    forecast: page.phrase("forecast"),
    "part measured, part forecast": page.phrase("part measured, part forecast"),
    "no weather": page.phrase("no weather"),
  };

  page.addDays = function (app) {
    const slider = document.getElementById("day");
    const says = document.getElementById("day-says");
    const columns = document.getElementById("columns");
    const { words } = app.data.days;
    slider.max = words.length - 1;
    slider.addEventListener("input", () => app.set({ day: Number(slider.value) }));
    addPlay(app);

    // The thumb is a frame round one column, so it must be as wide as one.
    const fit = () => {
      const width = columns.clientWidth / words.length;
      slider.style.setProperty("--column", width + "px");
      columns.classList.toggle("tight", width < ROOM_FOR_WEEKDAY);
      nameToday(app, columns);
      const names = [...columns.querySelectorAll(".weekday")];
      columns.classList.toggle("tight", width < ROOM_FOR_WEEKDAY || !names.every(isRoomFor));
      columns.classList.toggle("tightest", width < ROOM_FOR_NUMBER);
    };
    const watch = new ResizeObserver(fit);
    const drawColumns = () => {
      columns.replaceChildren(...words.map((_, day) => column(app, day)));
      fit();
    };

    app.listen((changed) => {
      if (changed.disease) {
        drawColumns();
        watch.observe(columns);
      }
      if (!changed.day && !changed.units) return;
      slider.value = app.day;
      slider.setAttribute("aria-valuetext", dayName(app));
      says.replaceChildren(...sentence(app));
    });
  };

  /* A word for today that is wider than a day gives way to the day's own name. */
  function nameToday(app, columns) {
    const { today, isToday, weekdays } = app.data.days;
    if (!isToday) return;
    const name = columns.children[today].querySelector(".weekday");
    name.textContent = page.phrase("today");
    if (!isRoomFor(name)) name.textContent = weekdays[today];
  }

  const isRoomFor = (name) => name.scrollWidth <= name.clientWidth + SPARE;

  function dayName(app) {
    const { words, today, isToday } = app.data.days;
    const day = words[app.day];
    if (app.day !== today) return day;
    return isToday ? page.phrase("{day}, today", { day }) : page.phrase("{day}, last whole day", { day });
  }

  function sentence(app) {
    const { basis, rain, coolest, warmest } = app.data.days;
    const day = app.day;
    const low = page.degrees(coolest[day], app.units);
    const high = page.degrees(warmest[day], app.units);
    const nights =
      low === high
        ? page.phrase("block minimums {degrees}", { degrees: low })
        : page.phrase("block minimums {low} to {high}", { low: low.replace(/^\u2068|\s.*/g, ""), high });
    const fell = page.isKnown(rain[day])
      ? page.phrase("rain {amount} mm", { amount: rain[day].toFixed(1) })
      : page.phrase("rain not known");
    return [
      element("strong", null, dayName(app)),
      element("span", null, BASIS[basis[day]]),
      element("span", null, fell),
      element("span", null, nights),
    ];
  }

  /* One day: the blocks' classes stacked, worst on top, and the rain below. */
  function column(app, day) {
    const { weekdays, numbers, today, basis, rain } = app.data.days;
    const kinds = ["column"];
    if (day === today) kinds.push("today");
    if (basis[day] === "forecast") kinds.push("forecast");
    const stack = element("span", { class: "stack" });
    const counts = app.countsOn(day);
    for (let look = counts.length - 2; look >= -1; look--) {
      const share = counts[look + 1] / app.outlines.count;
      if (!share) continue;
      const part = element("span", { class: "part" });
      part.style.flexGrow = share;
      part.style.backgroundColor = look < 0 ? page.unknownFill : app.data.classes.colours[look];
      stack.append(part);
    }
    const drop = element("span", { class: "drop" });
    drop.style.height = Math.min(1, (rain[day] || 0) / RAIN_FULL_MM) * 100 + "%";
    return element(
      "span",
      { class: kinds.join(" ") },
      stack,
      element("span", { class: "rain" }, drop),
      element("span", { class: "weekday" }, weekdays[day]),
      element("span", { class: "number" }, numbers[day]),
    );
  }

  function addPlay(app) {
    const button = document.getElementById("play");
    let timer = null;
    function stop() {
      clearInterval(timer);
      timer = null;
      button.setAttribute("aria-pressed", "false");
      button.setAttribute("aria-label", page.phrase("Play the days"));
    }
    button.addEventListener("click", () => {
      if (timer !== null) return stop();
      button.setAttribute("aria-pressed", "true");
      button.setAttribute("aria-label", page.phrase("Pause"));
      timer = setInterval(
        () => app.set({ day: (app.day + 1) % app.data.days.words.length }),
        STEP_MILLISECONDS,
      );
    });
    document.getElementById("day").addEventListener("pointerdown", stop);
  }
})(window.mangoPage);
