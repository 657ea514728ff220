// <outlean-rig>: a frame drawn to scale that can be leaned, with its curves, its readings and its verdict.

import { CurvesAxis } from './curves-axis.js';
import { element, say } from './element.js';
import { CHANGED, inks, lettering, StartFailure } from './engine.js';
import { painterOf, themeOf, unitsOf } from './given.js';
import { dragAlong, dragHandle } from './handles.js';
import { Keys } from './keys.js';
import { linkedRig, linkTo } from './link.js';
import { Pictures } from './pictures.js';
import { Readings } from './readings.js';
import { Sentence } from './sentence.js';
import { slider } from './slider.js';
import { StartingElement } from './starting.js';
import { Tasks } from './tasks.js';
import { sayInTurn, TURNS } from './turns.js';
import { Views } from './views.js';
import { fill } from './words.js';
import { WorkingPanel } from './working.js';
import { RigFigure } from './wasm/outlean.js';

/** How long the lean must rest before it is announced, ms. */
const REST = 400;
/** How long pictures are told, or bands are drawn, in one frame, ms. */
const SLICE = 2;
/** A frame after more than this, ms, is late: the next does one thing, pictures or words. */
const LATE = 20;
const NARROW = 640;
/**
 * A frame that can be leaned. Between its tags, or where `src` names it, a `<script type="application/json">` holds the rig in SI by the
 * keys of rig files, as the native program writes it.
 *
 * @tag outlean-rig
 * @attr {string} id - Names it for questions and for links: without one it has no key that copies a link to the rig as it is.
 * @attr {boolean} veiled - Its forces are hidden, and it does not move, until a prediction is locked in.
 * @fires {CustomEvent<null>} outlean-ready - It is drawn: once each time that it starts.
 * @fires {Event} outlean-told - It says something else than before: what `told` holds.
 * @fires {CustomEvent<{ lean: number }>} outlean-rest - It came to rest after a change; `lean` in rad from the vertical, forward.
 * @csspart sentence - The rig in a sentence, whose values are its controls.
 * @csspart verdict - Whether all of it holds, and what governs.
 * @csspart figure - The side view, with the views beside it.
 * @csspart curves - The curves.
 * @csspart keys - The keys below them.
 * @csspart readings - The table of what each part carries.
 * @cssprop --timber - Poles.
 * @cssprop --earth - The ground.
 * @cssprop --figure - People for scale.
 * @cssprop --push - Forces of what pushes; by their shape they are told apart without colours.
 * @cssprop --pull - Forces of what pulls.
 * @cssprop --load - The load's.
 * @cssprop --ground - The ground's.
 */
class RigElement extends StartingElement {
  static observedAttributes = [...StartingElement.observedAttributes, 'veiled'];
  /** @internal */
  css = 'figure.css';
  /** @type {any} */ #figure;
  /** @type {ReturnType<RigElement['build']> | undefined} */ #parts;
  /** Whether words are to be renewed. */
  #wordy = true;
  #frame = 0;
  /** What goes where a hand is, tells pictures and renews words, apart from the frame and from each other. @type {Tasks | undefined} */
  #tasks;
  /** Goes where a hand has moved to. @type {(() => void) | undefined} */
  #moved;
  #before = 0;
  /** Which of the words come next, and what they say. */
  #turn = 0;
  /** @type {import('./engine.js').View | undefined} */ #saying;
  /** Whether the frame before renewed words, or had none to renew: then pictures come next. */
  #spoke = true;
  /** Whether bands were drawn that are not painted yet. */
  #banding = false;
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #resting;
  #drawn = false;
  #noted = '';
  /** Whether the readings that a sheet shows were folded away on the screen. */
  #shut = false;

  /** @param {string} name @param {string | null} was @param {string | null} is */
  attributeChangedCallback(name, was, is) {
    if (name !== 'veiled') super.attributeChangedCallback(name, was, is);
    else if (this.made) this.act({ kind: is === null ? 'reveal' : 'veil' });
  }

  /**
   * The rig shown: its values in SI, by the keys of rig files; `undefined` before it has started. One that cannot be computed is refused in words
   * under the keys, and the one before it stays.
   * @type {Record<string, number | string> | undefined}
   */
  get rig() {
    return this.#figure?.rig();
  }
  set rig(rig) {
    if (this.#figure) this.#changed(this.#figure.load(rig), false);
  }

  /** What is said of the rig now, in the units of the element; `undefined` before it has started. @type {import('./engine.js').View | undefined} */
  get told() {
    return this.#figure?.view();
  }

  /** Shows the forces: a prediction is locked in, or none is asked. */
  reveal() {
    this.removeAttribute('veiled');
  }

  /** What paints the pictures, and their lettering. @internal */
  async gather() {
    const [worker] = await Promise.all([painterOf(), lettering()]);
    return worker;
  }

  /** @internal @param {any} rig @param {HTMLElement} _content @param {Worker | undefined} worker */
  make(rig, _content, worker) {
    try {
      this.#figure = new RigFigure(rig, this.words);
    } catch (why) {
      throw new StartFailure('rig', { why: String(why) });
    }
    this.#drawn = false;
    this.#parts = this.build(worker);
    return this.#parts.outer;
  }

  /** @internal */
  free() {
    this.#figure?.free();
    this.#figure = this.#parts = this.#moved = undefined;
    this.#noted = '';
  }

  /** @internal */
  begin() {
    if (this.hasAttribute('veiled')) this.act({ kind: 'veil' });
    this.#openLink();
  }

  /** Builds the parts of the page once. @internal @param {Worker | undefined} worker Paints the pictures. */
  build(worker) {
    const words = this.words;
    const act = (/** @type {import('./engine.js').Action} */ action) => this.act(action);
    const sentence = new Sentence(act);
    const working = new WorkingPanel(words, key => this.#figure.working(key));
    const readings = new Readings(words, (key, opener) => { if (!this.#view().veiled) working.open(key, opener); });
    const verdict = { sign: element('span'), is: element('b'), why: element('span') };
    const covers = element('p', { class: 'covers' });
    const pictures = new Pictures(words, worker, () => this.#painted(pictures));
    const { head, foot, anchor, plate, behind, curves } = pictures;
    const axis = new CurvesAxis(words, () => {
      this.#figure.setBands(axis.bands);
      this.#need({ curves: true, cursor: true, words: true });
    });
    const keys = new Keys(words, {
      act,
      view: () => this.#view(),
      press: way => this.#press(way),
      reset: () => { act({ kind: 'reset' }); this.#announce(words['announce.reset']); },
      link: () => this.#copyLink(),
    });
    // Only a page of its own has an address that shows the rig.
    keys.link.hidden = !this.id || top !== self;
    const views = new Views(words, () => this.#show());
    const said = element('div', { class: 'aside', role: 'status' });
    const note = element('p', { class: 'said' });
    const more = element('details', {}, element('summary', {}, words['readings.more']), readings.more);
    const caution = element('p', { class: 'caution' }, words.caution);
    caution.hidden = this.hasAttribute('cautioned');
    const column = element('div', { class: 'column' }, keys.element, note, readings.table);
    const verdictLine = element('p', { class: 'verdict', part: 'verdict' }, verdict.sign, verdict.is, ' ', verdict.why);
    const grid = element('div', { class: 'grid' }, plate, element('div', { class: 'beside' }, element('div', { class: 'over-curves' }, axis.element, curves), column), element('div', { class: 'below' }, working.element, more));
    const outer = element('div', { class: 'outer' }, sentence.element, verdictLine, covers, caution, views.element, grid, said);
    const free = () => !this.hasAttribute('veiled');
    this.#grip(pictures, 'head', plate, 'lean', { at: () => this.#figure.handle(), value: (x, y) => this.#figure.leanAt(x, y) });
    this.#grip(pictures, 'foot', behind, 'feet.spread', { at: () => this.#figure.foot(), value: (x, y) => this.#figure.spreadAt(x, y) });
    this.#grip(pictures, 'anchor', plate, 'aft.setback', { at: () => this.#figure.anchor(), value: (x, y) => this.#figure.setbackAt(x, y) });
    dragAlong(curves, {
      free: () => free() && axis.key !== '',
      take: () => { pictures.held = true; act({ kind: 'grab' }); },
      move: x => this.#moves(() => act({ kind: axis.over === 'lean' ? 'set' : 'set_stepped', key: axis.key, value: this.#figure.curvesAt(x) })),
      leave: () => { this.#move(); pictures.held = false; this.#need({ cursor: true }); },
    });
    outer.addEventListener('keydown', event => this.#retrace(event));
    return { outer, grid, sentence, readings, verdict, covers, pictures, axis, keys, views, said, note, more, working };
  }

  /**
   * Makes a handle on a picture: a slider of one field, dragged over the picture.
   * @param {Pictures} pictures @param {'head'|'foot'|'anchor'} name @param {HTMLElement} place @param {string} key
   * @param {{ at: () => ArrayLike<number>, value: (x: number, y: number) => number }} on Where it stands, and what a place would mean.
   */
  #grip(pictures, name, place, key, on) {
    const handle = pictures[name];
    const is = (/** @type {import('./pictures.js').Grip} */ state) => { this.#move(); pictures.grips[name] = state; this.#need({ side: true }); };
    slider(handle, {
      grab: () => this.act({ kind: 'grab' }),
      step: steps => this.act({ kind: 'step', key, value: steps }),
      end: where => { const at = this.#slider(key); if (at) this.act({ kind: 'set', key, value: at[where] }); },
      page: () => this.#slider(key)?.page ?? 5,
    });
    dragHandle(handle, place, {
      free: () => !this.hasAttribute('veiled'),
      take: () => {
        is('dragged');
        this.act({ kind: 'grab' });
        const { 0: x, 1: y } = on.at();
        return { x, y };
      },
      // The lean follows the hand; what is measured with a tape goes by its steps.
      move: (x, y) => this.#moves(() => this.act({ kind: key === 'lean' ? 'set' : 'set_stepped', key, value: on.value(x, y) })),
      leave: () => is('rest'),
    });
    handle.addEventListener('focus', () => is(handle.matches(':focus-visible') ? 'focus' : 'rest'));
    handle.addEventListener('blur', () => is('rest'));
  }

  /** A hand has moved on: what it means is worked out in a task of its own, so that the frame is not longer by it. @param {() => void} move */
  #moves(move) {
    this.#moved = move;
    this.#need({ side: true });
  }

  /** Goes where the hand is. */
  #move() {
    this.#moved?.();
    this.#moved = undefined;
  }

  /** One press of a lean key: a degree, or two where motion is reduced. @param {number} way */
  #press(way) {
    this.act({ kind: 'grab' });
    this.act({ kind: 'step', key: 'lean', value: way * (this.#view().reduced ? 2 : 1) });
  }

  /** @param {string} key */
  #slider(key) {
    return this.#view().sliders.find(at => at.key === key);
  }

  /** @returns {import('./engine.js').View} */
  #view() {
    return this.#figure.view();
  }

  /** Takes a step back or does it again, as everywhere. @param {KeyboardEvent} event */
  #retrace(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const kind = key === 'y' || (key === 'z' && event.shiftKey) ? 'redo' : key === 'z' ? 'undo' : '';
    if (!kind) return;
    event.preventDefault();
    this.act({ kind });
  }

  /** Puts a link to the rig as it is into the address bar and, where that is allowed, on the clipboard. */
  async #copyLink() {
    const link = linkTo(this.id, this.rig ?? {});
    history.replaceState(null, '', link);
    let said = 'link.copied';
    try {
      await navigator.clipboard.writeText(link);
    } catch {
      said = 'link.in_bar';
    }
    this.#note(this.words[said]);
  }

  /** Shows the rig that the page's address holds for this figure, if it holds one. */
  #openLink() {
    const rig = linkedRig(this.id);
    if (!rig) return;
    try {
      this.#changed(this.#figure.show(rig), false);
      this.removeAttribute('veiled');
      this.#note(this.words['link.opened']);
    } catch (why) {
      this.#note(fill(this.words, 'link.bad', { why: String(why) }));
    }
  }

  /** Says something under the keys until something else is to be said there. @param {string} text */
  #note(text) {
    this.#noted = text;
    this.#need({ words: true });
    this.#announce(text);
  }

  /**
   * Does an action, as hand and key do: the one way in.
   * @param {import('./engine.js').Action} action `set` with a field's key and its value in SI, `choose` with a choice's key and a word; `play`, `pause`, `undo`, `redo`, `reset` alone.
   */
  act(action) {
    const { kind, key = '', value = 0, word = '' } = action;
    if (this.#figure) this.#changed(this.#figure.act(kind, key, value, word), kind === 'tick');
  }

  /** Renews what an action changed. @param {number} changed @param {boolean} tick */
  #changed(changed, tick) {
    const has = (/** @type {number} */ flags) => (changed & flags) !== 0;
    if (!tick && has(CHANGED.lean | CHANGED.rig)) this.#noted = '';
    if (has(CHANGED.fault)) {
      this.#note(`${this.#figure.fault()} ${this.words['fault.kept']}`);
      return;
    }
    if (has(CHANGED.rig | CHANGED.units | CHANGED.veil)) this.#need({ side: true, curves: true, cursor: true, words: true });
    else if (has(CHANGED.lean | CHANGED.motion | CHANGED.halted)) {
      // Over anything but the lean the curves follow it.
      this.#need({ side: true, cursor: true, words: true, ...(this.#parts?.axis.over !== 'lean' && has(CHANGED.lean) && { curves: true }) });
    }
    const rests = !this.#figure.moving();
    if (!rests) this.#need({});
    if (tick ? has(CHANGED.motion) && rests : has(CHANGED.lean | CHANGED.rig | CHANGED.veil | CHANGED.motion)) this.#restSoon();
  }

  /** Announces where things stand once they have rested. */
  #restSoon() {
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => {
      if (!this.#figure || this.#figure.moving()) return;
      const view = this.#view();
      this.#announce(`${view.verdict.is} ${view.verdict.why} ${view.halted ? this.words['verdict.held'] : ''}`.trim());
      this.dispatchEvent(new CustomEvent('outlean-rest', { bubbles: true, composed: true, detail: { lean: this.#slider('lean')?.now } }));
    }, REST);
  }

  /** @param {string} text */
  #announce(text) {
    if (this.#parts) say(this.#parts.said, text);
  }

  /** @internal */
  watch() {
    const { pictures } = /** @type {ReturnType<RigElement["build"]>} */ (this.#parts);
    const tasks = this.#tasks = new Tasks({ hand: () => this.#move(), pictures: () => this.#tell(), words: () => this.#speak(false) });
    this.stops.push(() => tasks.stop());
    const observer = new ResizeObserver(() => { pictures.measure(); this.#place(); });
    for (const place of [this, ...pictures.places]) observer.observe(place);
    this.stops.push(() => {
      observer.disconnect();
      clearTimeout(this.#resting);
      cancelAnimationFrame(this.#frame);
      this.#frame = 0;
      pictures.release();
      this.#moved = undefined;
    });
    const stop = new AbortController();
    // No frame comes between the change to print and the sheet: it is drawn at once, in the sheet's inks.
    matchMedia('print').addEventListener('change', ({ matches }) => {
      pictures.turn(matches);
      this.settle();
      cancelAnimationFrame(this.#frame);
      this.#draw(performance.now());
    }, { signal: stop.signal });
    this.stops.push(() => stop.abort());
  }

  /** Sets the parts as there is room for them. The rig's sentence stands before its figure; after it where the figure needs the
   * room, for eye and keyboard alike. */
  #place() {
    const { outer, grid, sentence, views, more } = /** @type {ReturnType<RigElement["build"]>} */ (this.#parts);
    const theme = themeOf(this);
    const sheet = matchMedia('print').matches; // all of it, and in no theme
    const narrow = !sheet && this.clientWidth < NARROW;
    const projector = !sheet && !narrow && theme === 'projector';
    this.toggleAttribute('projector', projector);
    this.toggleAttribute('sunlight', !sheet && theme === 'sunlight');
    const alone = narrow || projector;
    if (alone === (outer.firstElementChild === sentence.element)) {
      if (alone) grid.after(sentence.element);
      else outer.prepend(sentence.element);
    }
    if (alone === (views.element.parentNode !== outer)) {
      if (alone) grid.before(views.element);
      else more.before(views.element);
    }
    views.room(alone);
    if (sheet && !more.open) this.#shut = more.open = true;
    else if (!sheet && this.#shut) this.#shut = more.open = false;
    this.#show();
  }

  /** Shows the views that are chosen. */
  #show() {
    const { outer, views, pictures } = /** @type {ReturnType<RigElement["build"]>} */ (this.#parts);
    outer.dataset.view = views.alone ? views.one : '';
    pictures.behind.hidden = !views.shows('front');
    pictures.tail.hidden = !views.shows('forces');
    this.#need({ side: true, curves: true, cursor: true });
  }

  /** Size of strokes, heads and type in the pictures. */
  #k() {
    if (this.hasAttribute('projector')) return Math.max(1.3, 2.1 * Math.min(innerWidth / 1920, innerHeight / 1080));
    const width = this.clientWidth;
    const [narrow, usual, wide] = this.hasAttribute('sunlight') ? [0.99, 1.2, 1.29] : [0.85, 1, 1.25];
    return width < NARROW ? narrow : width > 1300 ? wide : usual;
  }

  /** Takes on theme, units and motion. @internal */
  settle() {
    this.#place();
    this.#parts?.pictures.measure(); // nothing has asked for sizes before the first frame
    this.#figure.setInks(inks(this));
    this.act({ kind: 'motion', word: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'reduced' : 'usual' });
    this.act({ kind: 'units', word: unitsOf(this) });
    this.#need({ words: true });
  }

  /** @param {Partial<{ side: boolean, curves: boolean, cursor: boolean, words: boolean }>} what */
  #need({ words, ...pictures }) {
    if (!this.#parts) return;
    this.#wordy ||= !!words;
    Object.assign(this.#parts.pictures.dirty, pictures);
    if (!this.#frame && this.isConnected) {
      this.#before = performance.now();
      this.#frame = requestAnimationFrame(now => this.#draw(now));
    }
  }

  /** A frame: what moves moves on, and tasks are asked for that tell pictures and renew words. @param {number} now */
  #draw(now) {
    this.#frame = 0;
    const parts = this.#parts;
    if (!parts) return;
    const { pictures } = parts;
    const passed = Math.max(0, now - this.#before);
    if (this.#figure.moving()) this.act({ kind: 'tick', value: passed });
    this.#before = now;
    const { here } = pictures.surfaces;
    const one = passed > LATE && pictures.due && !here;
    // Where frames come late, and beside a hand that moves, words are renewed in every other one.
    const speak = !this.#wordless && !(this.#spoke && (one || pictures.dragged));
    this.#spoke = speak || this.#wordless;
    if (this.#moved && !here) this.#tasks?.ask('hand');
    if (here) this.#tell();
    else if (pictures.due && !(one && speak) && !pictures.surfaces.busy) this.#tasks?.ask('pictures');
    if (pictures.curving && parts.axis.bands && !pictures.dragged && !pictures.due) this.#drawBands();
    if (speak && (here || !this.#drawn)) this.#speak(true);
    else if (speak) this.#tasks?.ask('words');
    else if (!pictures.due) pictures.place(this.#figure);
    if ((!this.#wordless || this.#figure.moving()) && !this.#frame) this.#frame = requestAnimationFrame(then => this.#draw(then));
  }

  /** Renews one part of the words, or all of them. @param {boolean} all Where nothing is drawn yet, or the page itself paints. */
  #speak(all) {
    const parts = this.#parts;
    if (!parts || this.#wordless) return;
    if (all || this.#turn === 0) {
      this.#saying = this.#view();
      this.#turn = 0;
      this.#wordy = false;
    }
    do {
      sayInTurn(parts, this.#figure, this.words, /** @type {import('./engine.js').View} */ (this.#saying), this.#noted, this.#turn);
      this.#turn = (this.#turn + 1) % TURNS;
    } while (all && this.#turn);
    if (!this.#turn) this.dispatchEvent(new Event('outlean-told', { bubbles: true, composed: true }));
    if (!all) parts.outer.getBoundingClientRect(); // lays them out now, and not in the frame
  }

  /** Has painted what is due of the pictures. */
  #tell() {
    const parts = this.#parts;
    if (!parts?.pictures.due) return;
    const { pictures, views, axis, outer } = parts;
    this.#move();
    const until = pictures.surfaces.here ? Infinity : performance.now() + SLICE;
    pictures.paint(this.#figure, { k: this.#k(), beside: !views.alone, panels: outer.dataset.view === 'side' ? 'guys' : 'both', over: axis.over }, until);
    if (!pictures.surfaces.out) this.#painted(pictures);
    // Bands are drawn once the curves are known that they are of.
    if (axis.bands || pictures.due || pictures.unplaced) this.#need({});
  }

  /** What was told is painted. @param {Pictures} pictures Those of a figure before this one are of no account. */
  #painted(pictures) {
    if (pictures !== this.#parts?.pictures) return;
    if (!this.#drawn && !pictures.due && !pictures.surfaces.out) {
      this.#drawn = true;
      performance.mark('outlean:first-frame');
      this.dispatchEvent(new CustomEvent('outlean-ready', { bubbles: true, composed: true }));
    }
    if (pictures.due) this.#need({});
  }

  /** Whether all words are renewed. */
  get #wordless() {
    return !this.#wordy && this.#turn === 0;
  }

  /** Whether something is to be painted or said that is not yet. @internal */
  get pending() {
    return !this.#wordless || !!this.#parts && (this.#parts.pictures.due || this.#parts.pictures.unplaced || this.#parts.pictures.surfaces.out > 0);
  }

  /** Draws rigs for the bands of the curves for a while; the curves are painted anew once all are drawn. */
  #drawBands() {
    const until = performance.now() + SLICE;
    while (performance.now() < until) {
      if (!this.#figure.drawBands()) {
        if (this.#banding) this.#need({ curves: true });
        this.#banding = false;
        return;
      }
      this.#banding = true;
    }
    this.#need({});
  }
}

customElements.get('outlean-rig') ?? customElements.define('outlean-rig', RigElement);
