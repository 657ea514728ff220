// Does on a canvas what the program wrote down for it; see crate/widget/src/canvas.rs.

/** @typedef {Float64Array} Numbers */
/** @typedef {CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D} Context */
/** @typedef {(to: Context, text: string, x: number, y: number, most: number) => void} Written */
/** @typedef {{ font: (to: Context, text: string) => void, fill: Written, stroke: Written }} Letters How texts come onto a canvas. */

/** @type {Letters} */
const DIRECT = {
  font: (to, text) => { to.font = text; },
  fill: (to, text, x, y, most) => to.fillText(text, x, y, most),
  stroke: (to, text, x, y, most) => to.strokeText(text, x, y, most),
};

/** @type {((to: Context, numbers: Numbers, at: number, count: number) => void)[]} What takes numbers, in the order of the program's own table. */
const NUMERIC = [
  to => to.beginPath(),
  (to, n, i) => to.moveTo(n[i], n[i + 1]),
  (to, n, i) => to.lineTo(n[i], n[i + 1]),
  (to, n, i) => to.bezierCurveTo(n[i], n[i + 1], n[i + 2], n[i + 3], n[i + 4], n[i + 5]),
  to => to.closePath(),
  (to, n, i) => to.arc(n[i], n[i + 1], n[i + 2], n[i + 3], n[i + 4]),
  to => to.fill(),
  to => to.stroke(),
  to => to.save(),
  to => to.clip(),
  to => to.restore(),
  (to, n, i) => to.setTransform(n[i], n[i + 1], n[i + 2], n[i + 3], n[i + 4], n[i + 5]),
  (to, n, i) => to.clearRect(n[i], n[i + 1], n[i + 2], n[i + 3]),
  (to, n, i, count) => to.setLineDash([...n.subarray(i, i + count)]),
  (to, n, i) => { to.globalAlpha = n[i]; },
  (to, n, i) => { to.lineWidth = n[i]; },
  (to, n, i) => { to.miterLimit = n[i]; },
];
/** @type {((to: Context, text: any, numbers: Numbers, at: number, letters: Letters) => void)[]} What takes a text besides. */
const TEXTUAL = [
  (to, text) => { to.fillStyle = text; },
  (to, text) => { to.strokeStyle = text; },
  (to, text) => { to.lineCap = text; },
  (to, text) => { to.lineJoin = text; },
  (to, text, _n, _i, letters) => letters.font(to, text),
  (to, text) => { to.textAlign = text; },
  (to, text) => { to.textBaseline = text; },
  (to, text, n, i, letters) => letters.fill(to, text, n[i], n[i + 1], n[i + 2]),
  (to, text, n, i, letters) => letters.stroke(to, text, n[i], n[i + 1], n[i + 2]),
];

/**
 * @param {Context} context
 * @param {Numbers} numbers For each thing: which, how many numbers, the numbers.
 * @param {string} texts Those that go with them, each ended by a line feed. @param {Letters} letters
 */
export function paint(context, numbers, texts, letters = DIRECT) {
  const words = texts.split('\n');
  let word = 0;
  for (let i = 0; i < numbers.length;) {
    const what = numbers[i];
    const count = numbers[i + 1];
    i += 2;
    if (what < NUMERIC.length) NUMERIC[what](context, numbers, i, count);
    else TEXTUAL[what - NUMERIC.length](context, words[word++], numbers, i, letters);
    i += count;
  }
}
