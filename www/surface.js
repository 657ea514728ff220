// What pictures are painted on: canvases handed to a worker, so that neither hand nor key waits for a picture. Where there can
// be no worker (a page opened from a file, a browser without them) and on paper, the page paints by the same table itself.

import { element } from './element.js';
import { workerOf } from './origin.js';
import { paint } from './paint.js';

/** How long the worker may take to begin before the page does without it, ms. */
const PATIENCE = 1500;

/** @typedef {{ width: number, height: number }} Room Of a place in the page, CSS pixels. */
/** @typedef {{ id: number, width: number, height: number, numbers: Float64Array, texts: string }} Picture */

/** @type {Promise<Worker | undefined> | undefined} */
let begun;
/** @type {Map<number, WeakRef<Surfaces>>} Whose pictures the worker paints, by number: it holds no figure that is gone from the page. */
const awaiting = new Map();
/** @type {FinalizationRegistry<number>} What has canvases that nobody sees any more. */
const left = new FinalizationRegistry(from => {
  awaiting.delete(from);
  begun?.then(worker => worker?.postMessage({ gone: from }));
});
let numbered = 0;

/** The page's worker once it can paint, or nothing; the same promise for every caller. */
export function painter() {
  begun ??= new Promise(done => {
    if (!('transferControlToOffscreen' in HTMLCanvasElement.prototype)) return done(undefined);
    /** @type {Worker} */
    let worker;
    try {
      worker = workerOf('painter.js');
    } catch {
      return done(undefined);
    }
    // Not every browser that hands a canvas over can paint on it there: one is tried.
    const canvas = document.createElement('canvas').transferControlToOffscreen();
    worker.postMessage({ id: 0, canvas }, [canvas]);
    const without = () => { worker.terminate(); done(undefined); };
    const late = setTimeout(without, PATIENCE);
    worker.onerror = without;
    worker.onmessage = ({ data }) => {
      clearTimeout(late);
      if (!data) return without();
      worker.onerror = null;
      worker.onmessage = ({ data }) => awaiting.get(data)?.deref()?.done();
      done(worker);
    };
  });
  return begun;
}

/** The canvases of one figure. */
export class Surfaces {
  /** Pictures not sent yet. @type {Picture[]} */
  #pictures = [];
  from = ++numbered;
  /** How many times pictures were sent that are not painted yet. */
  out = 0;
  /** Whether it is painted for paper: no frame comes before the sheet. */
  paper = false;

  /** @param {Worker | undefined} worker @param {() => void} painted Called when what was sent is painted. */
  constructor(worker, painted) {
    this.worker = worker;
    this.painted = painted;
    awaiting.set(this.from, new WeakRef(this));
    left.register(this, this.from);
  }

  /** What was sent is painted. */
  done() {
    this.out -= 1;
    this.painted();
  }

  /** Whether the page itself paints, at once. */
  get here() {
    return !this.worker || this.paper;
  }

  /** Whether the worker has enough to do: one picture in hand, one to follow. */
  get busy() {
    return this.out > 1;
  }

  /** Keeps a picture until all are sent. @param {Picture} picture */
  add(picture) {
    this.#pictures.push(picture);
  }

  /** Sends what was kept. */
  send() {
    const pictures = this.#pictures.splice(0);
    if (!pictures.length || !this.worker) return;
    this.out += 1;
    this.worker.postMessage({ from: this.from, pictures }, pictures.map(picture => picture.numbers.buffer));
  }
}

/** One canvas of a figure. */
export class Surface {
  #id = ++numbered;
  /** What stands in for the canvas on paper. @type {HTMLCanvasElement | undefined} */
  #sheet;

  /** @param {Surfaces} all @param {Record<string, string>} attributes */
  constructor(all, attributes) {
    this.all = all;
    this.element = element('canvas', attributes);
    if (!all.worker) return;
    const canvas = this.element.transferControlToOffscreen();
    all.worker.postMessage({ from: all.from, id: this.#id, canvas }, [canvas]);
  }

  /** Paints a picture, or has it painted when all are sent. @param {Room} room @param {Float64Array} numbers What is told of it, as is `texts`: see paint.js. @param {string} texts */
  paint(room, numbers, texts) {
    const [width, height] = [Math.round(room.width * devicePixelRatio), Math.round(room.height * devicePixelRatio)];
    if (!this.all.here) {
      this.all.add({ id: this.#id, width, height, numbers, texts });
      return;
    }
    const canvas = this.#sheet ?? this.element;
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    paint(/** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d')), numbers, texts);
  }

  /** Takes the place that is right for paper or screen: a canvas that was handed over cannot be painted at once. */
  turn() {
    if (!this.all.worker || this.all.paper === !!this.#sheet) return;
    if (this.#sheet) {
      this.#sheet.replaceWith(this.element);
      this.#sheet = undefined;
    } else {
      this.#sheet = /** @type {HTMLCanvasElement} */ (this.element.cloneNode());
      this.element.replaceWith(this.#sheet);
    }
  }
}
