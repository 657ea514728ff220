// Paints pictures away from the page: a worker that is handed the canvases of figures and does on them what it is told.
//
// It takes two kinds of messages: { id, canvas } hands a canvas over; { from, pictures } tells what to paint on which, and is
// answered with `from` once it is done. The first thing it says is that its lettering is there.

import { paint } from './paint.js';

/** The faces of pictures: a worker has none of the page's own. See tokens.css. */
const FACES = [
  ['Outlean Label', 'barlow-semi-condensed-500', { weight: '400 500' }],
  ['Outlean Label', 'barlow-semi-condensed-600', { weight: '600 700' }],
  ['Outlean Text', 'gentium-book-plus-400-italic', { style: 'italic' }],
  ['Outlean Text', 'outlean-symbols-italic', { style: 'italic', unicodeRange: 'U+391-3C9' }],
];
const here = /** @type {any} */ (self);
/** @type {Map<number, OffscreenCanvasRenderingContext2D>} Each asked for once: Firefox refuses to give it again. */
const contexts = new Map();

onmessage = ({ data }) => {
  if (data.canvas) {
    contexts.set(data.id, data.canvas.getContext('2d'));
    return;
  }
  for (const { id, width, height, numbers, texts } of data.pictures) {
    const context = contexts.get(id);
    if (!context) continue;
    const { canvas } = context;
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    paint(context, numbers, texts);
  }
  here.postMessage(data.from);
};

Promise.all(FACES.map(([family, file, how]) => {
  const face = new FontFace(/** @type {string} */ (family), `url(${new URL(`fonts/${file}.woff2`, import.meta.url)})`, /** @type {FontFaceDescriptors} */ (how));
  here.fonts.add(face);
  return face.load();
})).then(() => here.postMessage('ready'));
