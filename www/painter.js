// Paints pictures away from the page: a worker that is handed the canvases of figures and does on them what it is told.
//
// It takes three kinds of messages: { from, id, canvas } hands a canvas of a figure over; { from, pictures } tells what to paint on which,
// and is answered with `from` once it is done; { gone } says that a figure is. The first canvas is only tried: as soon as its lettering is
// there, or known not to come, it says whether it could paint on it.

import { OF_PICTURES } from './faces.js';
import { apart } from './letters.js';
import { paint } from './paint.js';

const here = /** @type {any} */ (self);
const letters = navigator.userAgent.includes('Firefox') ? apart : undefined;
/** @type {Map<number, { from: number, context: OffscreenCanvasRenderingContext2D | null }>} Each asked for once: Firefox refuses to give it again. */
const contexts = new Map();
const lettered = Promise.allSettled(OF_PICTURES.map(([family, file, how]) => {
  const face = new FontFace(family, `url(${new URL(`fonts/${file}.woff2`, import.meta.url)})`, how);
  here.fonts.add(face);
  return face.load();
}));

onmessage = ({ data }) => {
  if (data.canvas) {
    const context = data.canvas.getContext('2d');
    if (data.id) contexts.set(data.id, { from: data.from, context });
    else lettered.then(() => here.postMessage(!!context));
    return;
  }
  if (data.gone) {
    for (const [id, { from }] of contexts) if (from === data.gone) contexts.delete(id);
    return;
  }
  for (const { id, width, height, numbers, texts } of data.pictures) {
    const context = contexts.get(id)?.context;
    if (!context) continue;
    const { canvas } = context;
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    paint(context, numbers, texts, letters);
  }
  here.postMessage(data.from);
};
