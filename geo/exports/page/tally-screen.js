/* The screen of the tally: what is tapped, shown, kept and saved. */
(() => {
  "use strict";

  const book = tallyBook;
  const page = window.mangoPage;
  const data = JSON.parse(document.getElementById("tally-data").textContent);
  const at = (id) => document.getElementById(id);
  const shelf = book.shelf(data.farm);
  const state = shelf.read();
  let isSureToClear = false;

  const disease = () => data.diseases.find((one) => one.name === at("disease").value);
  const diseaseWords = (name) => (data.diseases.find((one) => one.name === name) || { words: name }).words;
  const chosen = () => ({ date: at("date").value, block: at("block").value, disease: at("disease").value });
  const find = () => state.entries.find((entry) => Object.entries(chosen()).every(([name, value]) => entry[name] === value));
  const open = () => book.entryOf(state.entries, chosen());

  function option(value, words, isChosen = false) {
    const made = new Option(words, value, isChosen, isChosen);
    return made;
  }

  const nameOf = (block) => (
    block.name === block.id ? page.isolated(block.id) : `${page.isolated(block.id)} · ${page.isolated(block.name)}`);

  /* Blocks of the scouting order first, in its order, then the others. */
  function listBlocks() {
    const order = disease().order;
    const inOrder = new Set(order.map(([place]) => place));
    const kept = at("block").value || state.chosen.block;
    const listed = order.map(([place], rank) => [data.blocks[place], `${rank + 1}. `]);
    const others = data.blocks.filter((_, place) => !inOrder.has(place)).map((block) => [block, ""]);
    at("block").replaceChildren(
      ...[...listed, ...others].map(([block, rank]) => option(block.id, rank + nameOf(block), block.id === kept)),
    );
  }

  function listStages() {
    at("stage").replaceChildren(
      option("", page.phrase("not noted")),
      ...disease().stages.map(([code, meaning]) => option(code, `${code} ${meaning}`)),
    );
  }

  function keep() {
    state.chosen = { block: at("block").value, disease: at("disease").value };
    at("not-kept").hidden = shelf.write(state);
  }

  function line(entry) {
    const named = diseaseWords(entry.disease);
    const item = document.createElement("li");
    const words = document.createElement("p");
    const remove = document.createElement("button");
    words.textContent = page.tally.entry(entry, named, book.totals(entry));
    remove.type = "button";
    remove.textContent = page.phrase("Remove");
    remove.setAttribute("aria-label", page.tally.remove(entry, named));
    remove.addEventListener("click", () => {
      state.entries = state.entries.filter((other) => other !== entry);
      done();
      at("kept").focus();
    });
    item.append(words, remove);
    return item;
  }

  function showTree() {
    const entry = find();
    const { organs, each, order, ...words } = disease();
    const tree = entry ? book.lastTree(entry) : { without: 0, with: 0, severity: "" };
    const place = data.blocks.findIndex((block) => block.id === at("block").value);
    const wanted = (order.find(([block]) => block === place) || [])[1];
    const number = entry ? entry.trees.length : 1;
    at("tree").textContent = page.tally.tree(number, wanted);
    at("says").textContent = page.tally.counted(organs, book.counted(tree), each);
    for (const kind of ["without", "with"]) at(`${kind}-count`).textContent = tree[kind];
    at("without-words").textContent = words.without;
    at("with-words").textContent = words.with;
    at("severity").value = tree.severity;
    at("stage").value = entry ? entry.stage : "";
    at("undo").disabled = !entry || book.isBlank(entry);
    at("next").disabled = book.counted(tree) === 0;
    at("next").classList.toggle("ready", book.counted(tree) >= each);
    const isDated = at("date").checkValidity();
    for (const id of ["without", "with", "stage", "severity"]) at(id).disabled = !isDated;
  }

  function showKept() {
    const entries = state.entries.filter((entry) => !book.isBlank(entry));
    at("entries").replaceChildren(...entries.map(line));
    at("none").hidden = entries.length > 0;
    at("save").disabled = at("clear").disabled = entries.length === 0;
    at("clear").textContent = isSureToClear ? page.phrase("Yes, remove all") : page.phrase("Remove all");
    at("text").value = book.asCsv(state.entries);
  }

  function done() {
    keep();
    showTree();
    showKept();
  }

  /* Taps that are taken back one by one, the newest first; a tree that is empty then goes too. */
  function undo() {
    const entry = find();
    if (!entry) return;
    if (book.counted(book.lastTree(entry)) === 0 && entry.trees.length > 1) entry.trees.pop();
    const tree = book.lastTree(entry);
    const taps = (tree.taps ||= []);
    const kind = taps.pop() || (tree.with > 0 ? "with" : "without");
    if (tree[kind] > 0) tree[kind] -= 1;
    done();
  }

  function tap(kind) {
    if (at(kind).disabled) return;
    const entry = open();
    book.tally(entry, kind);
    (book.lastTree(entry).taps ||= []).push(kind);
    isSureToClear = false;
    done();
  }

  function next() {
    const entry = find();
    if (entry) book.nextTree(entry);
    done();
  }

  function save() {
    const link = document.createElement("a");
    const address = URL.createObjectURL(new Blob([book.asCsv(state.entries)], { type: "text/csv;charset=utf-8" }));
    link.href = address;
    link.download = `scouting-${at("date").value || "tally"}.csv`;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
    at("saved").textContent = page.phrase(
      "Saved among the downloads, if this browser lets a page save. Else copy the text below.",
    );
  }

  function clear() {
    if (isSureToClear) state.entries = [];
    isSureToClear = !isSureToClear;
    done();
  }

  const KEYS = { 1: () => tap("without"), 2: () => tap("with"), n: next, u: undo };

  function start() {
    at("stopped").hidden = true;
    at("live").hidden = false;
    at("kept").tabIndex = -1;
    at("disease").replaceChildren(
      ...data.diseases.map(({ name, words }) => option(name, words, name === state.chosen.disease)),
    );
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    at("date").value = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    listBlocks();
    listStages();
    at("disease").addEventListener("change", () => {
      listBlocks();
      listStages();
      done();
    });
    for (const id of ["block", "date"]) at(id).addEventListener("change", done);
    at("stage").addEventListener("change", ({ target }) => {
      open().stage = target.value;
      done();
    });
    at("severity").addEventListener("change", ({ target }) => {
      book.lastTree(open()).severity = target.value;
      done();
    });
    at("without").addEventListener("click", () => tap("without"));
    at("with").addEventListener("click", () => tap("with"));
    at("undo").addEventListener("click", undo);
    at("next").addEventListener("click", next);
    at("save").addEventListener("click", save);
    at("clear").addEventListener("click", clear);
    document.addEventListener("keydown", (event) => {
      const isTyping = /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName);
      const act = KEYS[event.key.toLowerCase()];
      if (!act || isTyping || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      act();
    });
    done();
    document.documentElement.dataset.painted = "yes";
  }

  start();
})();
