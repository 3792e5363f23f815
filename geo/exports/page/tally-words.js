/* What the page of tallies says while looks are counted. */
(function (page) {
  "use strict";

  /* Of each organ a whole sentence: other languages decline it. */
  const COUNTED = {
    panicles: (values) => page.phrase("{counted} of {each} panicles counted on this tree.", values),
    leaves: (values) => page.phrase("{counted} of {each} leaves counted on this tree.", values),
    fruit: (values) => page.phrase("{counted} of {each} fruit counted on this tree.", values),
  };

  page.tally = {
    counted: (organs, counted, each) => COUNTED[organs]({ counted, each }),

    tree: (number, wanted) =>
      wanted ? page.phrase("Tree {number} of {wanted}", { number, wanted }) : page.phrase("Tree {number}", { number }),

    entry(entry, disease, totals) {
      const values = { block: entry.block, date: entry.date, stage: entry.stage, disease, ...totals };
      return entry.stage
        ? page.phrases(
            "{block}, {disease}, {date}: {infected} of {inspected} on {trees} tree, stage {stage}",
            "{block}, {disease}, {date}: {infected} of {inspected} on {trees} trees, stage {stage}",
            totals.trees,
            values,
          )
        : page.phrases(
            "{block}, {disease}, {date}: {infected} of {inspected} on {trees} tree",
            "{block}, {disease}, {date}: {infected} of {inspected} on {trees} trees",
            totals.trees,
            values,
          );
    },

    remove: (entry, disease) =>
      page.phrase("Remove {block} of {date}, {disease}", { block: entry.block, date: entry.date, disease }),
  };
})((window.mangoPage = window.mangoPage || {}));
