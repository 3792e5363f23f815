/* Entries of looks: what is tallied, kept and written out. Nothing here touches the screen. */
const tallyBook = (() => {
  "use strict";

  const COLUMNS = ["date", "block_id", "disease", "inspected", "infected", "stage", "trees", "tree_counts", "severity", "look_id"];
  const MOST = 999;

  const blankTree = () => ({ without: 0, with: 0, severity: "" });
  /* Drawn once an entry and saved with it: the reader then knows what is saved again. A letter first,
     or a spreadsheet takes some for numbers. */
  const mark = () => "t" + Array.from({ length: 3 }, () => Math.random().toString(36).slice(2, 6)).join("");
  const blank = (chosen) => ({ ...chosen, look: mark(), stage: "", trees: [blankTree()] });

  function sameLook(one, other) {
    return ["date", "block", "disease"].every((name) => one[name] === other[name]);
  }

  /* The entry that is being tallied: that of its block, disease and day, or a new one. */
  function entryOf(entries, chosen) {
    const found = entries.find((entry) => sameLook(entry, chosen));
    if (found) return found;
    const made = blank(chosen);
    entries.push(made);
    return made;
  }

  const lastTree = (entry) => entry.trees[entry.trees.length - 1];
  const counted = (tree) => tree.without + tree.with;
  const lookedAt = (entry) => entry.trees.filter((tree) => counted(tree) > 0);

  function totals(entry) {
    const trees = lookedAt(entry);
    const sum = (of) => trees.reduce((total, tree) => total + of(tree), 0);
    return { trees: trees.length, inspected: sum(counted), infected: sum((tree) => tree.with) };
  }

  const isBlank = (entry) => entry.stage === "" && totals(entry).inspected === 0;

  function tally(entry, kind) {
    const tree = lastTree(entry);
    if (counted(tree) < MOST) tree[kind] += 1;
  }

  function nextTree(entry) {
    if (counted(lastTree(entry)) > 0) entry.trees.push(blankTree());
  }

  function quoted(value) {
    const text = String(value);
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  }

  /* One row a look, with the columns that the farm's scouting table has; the trees stand beside. */
  function asCsv(entries) {
    const rows = entries.filter((entry) => !isBlank(entry)).map((entry) => {
      const { trees, inspected, infected } = totals(entry);
      const looked = lookedAt(entry);
      const counts = looked.map((tree) => `${tree.with}/${counted(tree)}`).join(" ");
      const severity = looked.some((tree) => tree.severity) ? looked.map((tree) => tree.severity || "-").join(" ") : "";
      const count = inspected ? [inspected, infected] : ["", ""];
      return [entry.date, entry.block, entry.disease, ...count, entry.stage, trees || "", counts, severity, entry.look];
    });
    return [COLUMNS, ...rows].map((row) => row.map(quoted).join(",") + "\r\n").join("");
  }

  const isLook = (entry) =>
    entry && ["date", "block", "disease", "stage"].every((name) => typeof entry[name] === "string") &&
    Array.isArray(entry.trees) && entry.trees.length > 0 &&
    entry.trees.every((tree) => tree && Number.isInteger(tree.without) && Number.isInteger(tree.with));

  /* What the device keeps, if it keeps anything. Faulty text counts as nothing kept. */
  function shelf(farm) {
    const key = `tally of ${farm}`;
    const read = () => {
      try {
        const kept = JSON.parse(localStorage.getItem(key));
        const entries = kept.entries.filter(isLook).map((entry) => ({ ...entry, look: entry.look || mark() }));
        return { entries, chosen: kept.chosen || {} };
      } catch {
        return { entries: [], chosen: {} };
      }
    };
    const write = (kept) => {
      try {
        localStorage.setItem(key, JSON.stringify(kept));
        return true;
      } catch {
        return false;
      }
    };
    return { read, write };
  }

  return { asCsv, counted, entryOf, isBlank, lastTree, nextTree, shelf, tally, totals };
})();
