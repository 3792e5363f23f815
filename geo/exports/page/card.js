/* The card of the chosen block: why it stands where it stands. */
(function (page) {
  "use strict";

  const { element } = page;
  const NARROW = "(max-width: 1180px)"; // as in page.css: there the card lies over the lists

  page.addCard = function (app) {
    const card = document.getElementById("why");

    function close() {
      const row = document.querySelector(`#list-${app.tab} tr[data-block="${app.selected}"]`);
      app.choose(null, "card");
      (row || document.getElementById("find")).focus();
    }

    function draw() {
      card.classList.toggle("beside", app.beside);
      if (app.beside) {
        card.replaceChildren(...page.beside(app, back));
        return drawChart(app, card);
      }
      card.replaceChildren(heading(app, close), ...standing(app), comparison(app, card));
      card.append(...[theHours(app, card), page.materials(app, app.selected), theDays(app), page.sources(app, app.selected), page.doubts(app)].filter(Boolean));
      drawChart(app, card);
    }

    /* Back from the two blocks to the card of the first. */
    function back() {
      app.set({ beside: false });
      card.querySelector(".open-beside").focus();
    }

    function drawComparison() {
      if (app.beside) return draw();
      const table = card.querySelector(".factors");
      table.replaceChildren(...page.factorTable(app, app.selected, app.compare));
    }

    app.listen((changed) => {
      if (changed.beside && app.selected !== null) {
        draw();
        card.scrollTop = 0;
        if (app.beside) card.querySelector(".back").focus();
      } else if (changed.selected && app.beside && app.selected !== null) {
        draw();
        refocus(card, app.chosenFrom === "beside" ? 0 : null);
      } else if (changed.selected) {
        app.beside = false;
        const open = app.selected !== null;
        card.hidden = !open;
        document.body.classList.toggle("why-open", open);
        if (!open) return;
        draw();
        card.scrollTop = 0;
        if (matchMedia(NARROW).matches) card.focus({ preventScroll: true });
      } else if (app.selected !== null) {
        if (changed.units || changed.disease) draw();
        else if (changed.compare) {
          drawComparison();
          refocus(card, app.beside ? 1 : null);
        }
        else if (changed.day) drawChart(app, card);
      }
    });
    document.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || app.selected === null) return;
      if (app.beside) back();
      else close();
    });
    new ResizeObserver(() => {
      if (app.selected !== null && card.clientWidth !== app.chartWidth) drawChart(app, card);
    }).observe(card);
  };

  /* A choice that was drawn anew keeps the focus of whoever made it. */
  function refocus(card, side) {
    if (side !== null) card.querySelector(`[data-side="${side}"]`).focus();
  }

  function heading(app, close) {
    const { id, name, cultivar, note, area, elevation, pool_depth: pool } = app.data.blocks;
    const block = app.selected;
    const button = element("button", { type: "button", class: "round close", "aria-label": page.phrase("Close") }, "×");
    button.addEventListener("click", close);
    const ground = page.isKnown(elevation[block])
      ? [
          page.phrase("{metres} m above sea level", { metres: Math.round(elevation[block]) }),
          page.phrase("{metres} m deep in its cool pool", { metres: page.two(pool[block]) }),
        ]
      : [page.phrase("ground not known")];
    const facts = [cultivar[block] || page.phrase("cultivar not known"), page.area(area[block], app.units), ...ground];
    return element(
      "header",
      null,
      button,
      element("p", { class: "eyebrow" }, page.phrase("Why this block"), " · ", element("bdi", null, id[block])),
      element("h2", { id: "why-name" }, element("bdi", null, name[block])),
      element("p", { class: "facts" }, facts.join(" · ")),
      element("p", { class: "note" }, note[block] ? page.phrase("Note: {note}", { note: note[block] }) : null),
    );
  }

  /* Both ranks and the sentences that go with them. */
  function standing(app) {
    const block = app.selected;
    const spray = app.data.spray.entries.of(block);
    const cannot = app.data.spray.cannot.of(block);
    const scouting = app.data.scouting.of(block);
    const apart = app.data.spray.apart.of(block);
    const unranked = app.data.spray.unranked.of(block);
    const today = app.data.days.today;
    const ranks = element(
      "dl",
      { class: "ranks" },
      pair(page.phrase("Spray order"), page.sprayPlace(app, block)),
      pair(
        page.phrase("Scouting order"),
        scouting ? page.phrase("No. {rank}", { rank: scouting.rank }) : page.phrase("not listed"),
      ),
      pair(page.phrase("Last look"), page.ago(app.data.blocks.looked[block])),
      pair(page.phrase("Protection left"), page.percent(app.protectionOn(block, today))),
      pair(page.phrase("Susceptible {organs}", { organs: app.words.organs }), page.percent(app.stageOn(block, today))),
      pair(page.phrase("Stage seen"), page.ago(app.data.blocks.stage_age[block])),
    );
    const reasons = [spray, apart, cannot, unranked, scouting].filter(Boolean).map((entry) => entry.reason);
    if (spray) reasons.splice(1, 0, spray.waiting);
    if (scouting) reasons.push(scouting.proof, scouting.when, scouting.option);
    const stretch = (spray && spray.open) || null;
    const basis = cannot ? page.phrase("Where the limit comes from: {standing}.", { standing: cannot.standing }) : null;
    const since = app.data.since && app.data.since.whole[block];
    return [
      ranks,
      since ? element("p", { class: "reason since-then" }, since) : element("p", { class: "note" }),
      ...reasons.filter(Boolean).map((reason) => element("p", { class: "reason" }, page.said(app, reason))),
      element("p", { class: "note" }, page.said(app, app.data.blocks.sprays[block])),
      element("p", { class: "note" }, hiddenWords(app, block)),
      element("p", { class: "note" }, page.said(app, basis)),
      element("p", { class: "note" }, stretch),
    ];
  }

  /* What no protectant reaches any more, apart from what it can still keep out. */
  function hiddenWords(app, block) {
    const share = app.data.blocks.hidden[block];
    if (!page.isKnown(share)) return null;
    return page.phrase(
      "Of the infection that is to show: {hidden} is in and not visible yet, {ahead} is expected on the days ahead if nothing more is sprayed.",
      { hidden: page.percent(share), ahead: page.percent(1 - share) },
    );
  }

  function pair(term, value) {
    return element("div", null, element("dt", null, term), element("dd", null, value));
  }

  function comparison(app, card) {
    const choice = page.blockChoice(app, app.compare, { id: "compare" }, (compare) => app.set({ compare }));
    const opener = element("button", { type: "button", class: "open-beside" }, page.phrase("Side by side"));
    opener.addEventListener("click", () => app.set({ beside: true }));
    return element(
      "section",
      null,
      element("h3", null, page.phrase("Against another block")),
      element("label", { class: "against" }, page.phrase("Compare with") + " ", choice),
      opener,
      element("div", { class: "factors" }, ...page.factorTable(app, app.selected, app.compare)),
    );
  }

  function theHours(app, card) {
    const edges = getComputedStyle(card);
    const inner = card.clientWidth - parseFloat(edges.paddingLeft) - parseFloat(edges.paddingRight);
    return page.hours(app, app.selected, Math.max(240, inner));
  }

  function theDays(app) {
    return element(
      "section",
      null,
      element("h3", null, page.phrase("Its days")),
      element("div", { class: "chart-place" }),
      element("p", { class: "day-facts" }),
      element("div", { class: "chart-save" }),
    );
  }

  /* The drawing as a file, and the whole season of the block if a page of it lies beside this one. */
  function drawSaves(app, card, chart) {
    const { id, name } = app.data.blocks;
    const block = app.selected;
    const whole = app.data.seasons.includes(block);
    // That page is about the disease this one opens with, whichever is chosen here.
    const words = app.disease
      ? page.phrase("Its whole season, drawn for {disease}", { disease: app.data.diseases[0].name })
      : page.phrase("Its whole season, drawn");
    card.querySelector(".chart-save").replaceChildren(
      page.saveButtons(chart, `days-${id[block]}`, () => [
        [id[block], name[block]].filter((words, place, all) => all.indexOf(words) === place).join(" · "),
        ...page.savedHead(app),
      ]),
      ...(whole ? [element("a", { href: `season.html#block-${block}` }, words)] : []),
    );
  }

  function drawChart(app, card) {
    const place = card.querySelector(".chart-place");
    app.chartWidth = card.clientWidth;
    const chart = page.chart(app, app.selected, Math.max(240, place.clientWidth), app.beside ? app.compare : null);
    place.replaceChildren(chart);
    page.squeeze(chart);
    const { selected, day, units } = app;
    if (app.beside) return card.querySelector(".day-facts").replaceChildren(...page.besideWords(app));
    drawSaves(app, card, chart);
    card.querySelector(".day-facts").replaceChildren(
      element("strong", null, app.data.days.words[day] + ": "),
      page.chip(app, app.classOn(selected, day)),
      dayWords(app, selected, day, units),
    );
  }

  /* Goes on after the class of the day. */
  function dayWords(app, block, day, units) {
    const hours = app.humidOn(block, day) ?? page.phrase("unknown");
    return page.phrase(
      ", index {index}; {low} to {high}, {hours} humid hours, weather for {disease} {share} of a perfect day.",
      {
        index: page.two(app.hazardOn(block, day)),
        low: page.degrees(app.minimumOn(block, day), units),
        high: page.degrees(app.maximumOn(block, day), units),
        hours,
        disease: app.words.short,
        share: page.percent(app.favourabilityOn(block, day)),
      },
    );
  }
})(window.mangoPage);
