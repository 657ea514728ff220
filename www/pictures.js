// The pictures of a figure: their places in the page, the handles on them, and what of them is to be painted anew.

import { element } from './element.js';
import { Surface, Surfaces } from './surface.js';

/** @typedef {'rest'|'focus'|'dragged'} Grip How a handle is drawn. */

/** The handles, each with the field that it sets. */
export const HANDLES = /** @type {const} */ ([['head', 'lean'], ['foot', 'feet.spread'], ['anchor', 'aft.setback']]);

/** Side view with the views beside it, curves with the cursor over them. */
export class Pictures {
  /** What is to be painted, in the order in which one goes by another: to its scale, over it. */
  dirty = { side: true, front: true, forces: true, curves: true, cursor: true };
  /** Which of them comes next: no picture waits for ever where only a few are painted at a time. */
  #next = 0;
  /** @type {Record<'head'|'foot'|'anchor', Grip>} How each handle is drawn. */
  grips = { head: 'rest', foot: 'rest', anchor: 'rest' };
  /** Whether the cursor is held. */
  held = false;
  /** Whether handles stand where a picture before had them. */
  unplaced = false;
  head = element('div', { class: 'head' });
  foot = element('div', { class: 'head' });
  anchor = element('div', { class: 'head' });
  /** @type {Map<HTMLElement, import('./surface.js').Room>} Sizes as last laid out: to ask for them in a frame lays the page out again. */
  #rooms = new Map();

  /** @param {import('./engine.js').Words} words @param {Worker | undefined} worker @param {() => void} painted Called when a worker has painted what it was sent. */
  constructor(words, worker, painted) {
    this.surfaces = new Surfaces(worker, painted);
    const canvas = (/** @type {Record<string, string>} */ attributes) => new Surface(this.surfaces, attributes);
    this.side = canvas({ role: 'img' });
    this.front = canvas({ role: 'img', 'aria-label': words['figure.alt_front'] });
    this.forces = canvas({ role: 'img', 'aria-label': words['figure.alt_forces'] });
    this.chart = canvas({ role: 'img' });
    this.cursor = canvas({ 'aria-hidden': 'true' });
    this.behind = element('div', { class: 'front' }, this.front.element, this.foot);
    this.tail = element('div', { class: 'forces' }, this.forces.element);
    this.plate = element('div', { class: 'plate', part: 'figure' }, this.side.element, this.head, this.anchor, element('div', { class: 'insets' }, this.behind, this.tail));
    this.curves = element('div', { class: 'curves', part: 'curves' }, this.chart.element, this.cursor.element);
    this.places = [this.plate, this.behind, this.tail, this.curves];
  }

  /** Takes the sizes of the places as they are laid out. */
  measure() {
    for (const place of this.places) this.#rooms.set(place, { width: place.clientWidth, height: place.clientHeight });
  }

  /** The size of a place that is shown. @param {HTMLElement} place */
  #room(place) {
    const room = this.#rooms.get(place);
    return room?.width ? room : undefined;
  }

  /** Whether curves are shown. */
  get curving() {
    return !!this.#room(this.curves);
  }

  /** Whether something is to be painted. */
  get due() {
    return Object.values(this.dirty).includes(true);
  }

  /** Whether a handle or the cursor is being dragged. */
  get dragged() {
    return this.held || Object.values(this.grips).includes('dragged');
  }

  /** Nothing is held any more. */
  release() {
    this.held = false;
    for (const [name] of HANDLES) this.grips[name] = 'rest';
  }

  /** Changes to paper or back from it. @param {boolean} paper */
  turn(paper) {
    this.surfaces.paper = paper;
    for (const surface of [this.side, this.front, this.forces, this.chart, this.cursor]) surface.turn();
  }

  /**
   * Paints what is due until a time; one picture at least.
   * @param {any} figure @param {{ k: number, beside: boolean, panels: string, over: string }} how Size of strokes and type; whether views stand beside
   * the side view; which curves, over what. @param {number} until
   */
  paint(figure, { k, beside, panels, over }, until) {
    const { dirty, grips } = this;
    const ratio = devicePixelRatio;
    const onto = (/** @type {Surface} */ surface, /** @type {import('./surface.js').Room} */ room, /** @type {Float64Array} */ numbers) => surface.paint(room, numbers, figure.texts());
    /** @type {Record<keyof Pictures['dirty'], [HTMLElement, (room: import('./surface.js').Room) => void]>} */
    const ways = {
      side: [this.plate, room => {
        onto(this.side, room, figure.paintSide(room.width, room.height, ratio, k, grips.head, grips.anchor));
        dirty.front = dirty.forces = this.unplaced = true;
      }],
      front: [this.behind, room => {
        onto(this.front, room, figure.paintFront(room.width, room.height, ratio, k, grips.foot, beside));
        this.unplaced = true;
      }],
      forces: [this.tail, room => onto(this.forces, room, figure.paintForces(room.width, room.height, ratio, k, beside))],
      curves: [this.curves, room => {
        onto(this.chart, room, figure.paintCurves(room.width, room.height, ratio, k, panels, over));
        dirty.cursor = true;
      }],
      cursor: [this.curves, room => onto(this.cursor, room, figure.paintCursor(ratio, this.held))],
    };
    const names = /** @type {(keyof typeof ways)[]} */ (Object.keys(ways));
    for (let painted = false; this.due && !(painted && performance.now() >= until); this.#next = (this.#next + 1) % names.length) {
      const name = names[this.#next];
      if (!dirty[name]) continue;
      dirty[name] = false;
      const [place, way] = ways[name];
      const room = this.#room(place);
      if (!room) continue;
      way(room);
      painted = true;
    }
    this.surfaces.send();
  }

  /** Puts the handles where the pictures have them: not with every picture, since to move one has the page laid in layers anew. @param {any} figure */
  place(figure) {
    if (!this.unplaced) return;
    this.unplaced = false;
    put(this.head, figure.handle());
    put(this.foot, figure.foot());
    const anchor = figure.anchor();
    this.anchor.hidden = anchor.length === 0;
    if (anchor.length) put(this.anchor, anchor);
  }
}

/** Puts a handle where the picture has it. @param {HTMLElement} handle @param {ArrayLike<number>} at */
function put(handle, { 0: x, 1: y }) {
  handle.style.translate = `${x}px ${y}px`;
}
