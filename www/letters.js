// Texts of pictures that a worker paints in Firefox. That keeps something of every font that a worker's canvas is given, the same one again
// too, and takes longer for each: after five minutes of play it painted a quarter of the pictures a second (ESR 140). So each font is given once, to a
// canvas of its own, and what is written in it goes by way of that.

/** @typedef {import('./paint.js').Context} Context */

/** More fonts than figures on a page have: those of sizes that a window had on its way. */
const MOST = 60;
/** Room round a text for what is drawn beyond its box, such as a rounded edge, px. */
const ROOM = 2;

/** @type {Map<string, OffscreenCanvasRenderingContext2D>} A canvas by the font that it was given. */
const sheets = new Map();
let font = '';

/** The canvas of the present font, so large at least. @param {number} width @param {number} height */
function sheetOf(width, height) {
  const known = sheets.get(font);
  if (known && known.canvas.width >= width && known.canvas.height >= height) return known;
  if (sheets.size > MOST) sheets.clear();
  const sheet = /** @type {OffscreenCanvasRenderingContext2D} */ (new OffscreenCanvas(Math.max(width, known?.canvas.width ?? 0), Math.max(height, known?.canvas.height ?? 0)).getContext('2d'));
  sheet.font = font;
  sheets.set(font, sheet);
  return sheet;
}

/** Takes on how a text stands and is drawn. @param {OffscreenCanvasRenderingContext2D} sheet @param {Context} to */
function like(sheet, { textAlign, textBaseline, fillStyle, strokeStyle, lineWidth, lineJoin, miterLimit }) {
  Object.assign(sheet, { textAlign, textBaseline, fillStyle, strokeStyle, lineWidth, lineJoin, miterLimit });
}

/** @param {'fillText' | 'strokeText'} way @returns {(to: Context, text: string, x: number, y: number, most: number) => void} */
const write = way => (to, text, x, y, most) => {
  const { a, b, c, d, e, f } = to.getTransform();
  const asked = sheetOf(1, 1);
  like(asked, to);
  const box = asked.measureText(text);
  const beyond = ROOM + to.lineWidth;
  const [left, right, up, down] = [x - box.actualBoundingBoxLeft - beyond, x + box.actualBoundingBoxRight + beyond, y - box.actualBoundingBoxAscent - beyond, y + box.actualBoundingBoxDescent + beyond];
  const corners = [[left, up], [right, up], [right, down], [left, down]];
  const across = corners.map(([x, y]) => a * x + c * y + e);
  const along = corners.map(([x, y]) => b * x + d * y + f);
  const [atX, atY] = [Math.floor(Math.min(...across)), Math.floor(Math.min(...along))];
  const [width, height] = [Math.ceil(Math.max(...across)) - atX, Math.ceil(Math.max(...along)) - atY];
  const sheet = sheetOf(width, height);
  if (sheet !== asked) like(sheet, to);
  sheet.resetTransform();
  sheet.clearRect(0, 0, width, height);
  sheet.setTransform(a, b, c, d, e - atX, f - atY);
  sheet[way](text, x, y, most);
  to.resetTransform();
  to.drawImage(sheet.canvas, 0, 0, width, height, atX, atY, width, height);
  to.setTransform(a, b, c, d, e, f);
};

/** Texts by way of a canvas for each font. @type {import('./paint.js').Letters} */
export const apart = { font: (_to, text) => { font = text; }, fill: write('fillText'), stroke: write('strokeText') };
