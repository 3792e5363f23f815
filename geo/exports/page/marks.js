/* What moved since an earlier run, as small marks beside a block's number. */
(function (page) {
  "use strict";

  const INK = "#22302b";

  const SHAPES = {
    up: [[0, -1], [1, 0.8], [-1, 0.8]],
    down: [[0, 1], [1, -0.8], [-1, -0.8]],
    line: [[0, -1], [1, 0], [0, 1], [-1, 0]],
  };

  /* Right of the number: the class went up or down. Left: protection crossed the reapply line. */
  page.paintSteps = function (context, app, block, { x, y, size, wide }) {
    const { since, days } = app.data;
    // The marks are about today: on another day they would be read as that day's.
    if (!since || app.day !== days.today) return;
    const reach = size * 0.3; // from the middle of a mark to its corners
    const aside = Math.max(wide, size) / 2 + reach + 4;
    const [step, line] = [since.class[block], since.line[block]];
    if (step) paint(context, SHAPES[step > 0 ? "up" : "down"], [x + aside, y, reach], INK);
    if (line) paint(context, SHAPES.line, [x - aside, y, reach], line > 0 ? "#fff" : INK);
  };

  function paint(context, corners, [x, y, reach], fill) {
    context.beginPath();
    corners.forEach(([right, down], place) => {
      context[place ? "lineTo" : "moveTo"](x + reach * right, y + reach * down);
    });
    context.closePath();
    context.lineJoin = "round";
    context.lineWidth = 5;
    context.strokeStyle = "rgba(255,255,255,.92)";
    context.stroke();
    context.lineWidth = 1.6;
    context.strokeStyle = INK;
    context.stroke();
    context.fillStyle = fill;
    context.fill();
  }
})(window.mangoPage);
