// What the elements of all questions have in common: they begin, are put, take an answer, show what is right.
//
// Attributes: figure (the id of an <outlean-rig> that shows the question's rig), seed (a whole number; drawn by chance without it).
// A child <script type="application/json"> holds the template, and .asks, .hint, .explanation and .source stand as the native
// program wrote them: with them the question reads without its program. Attribute once: it is not put anew.
// Property known: the question with its answer, for who leads the lesson. Method reveal(): shows the answer without one of
// the learner's. Event outlean-marked when an answer was marked.

import { engine, fill, onSettings, sheet, StartFailure } from './engine.js';
import { element } from './readings.js';
import { Asked } from './wasm/outlean.js';

/**
 * @typedef {{ options: string[], from: number[], one?: boolean, may?: string[], example?: string[] }} Put
 * @typedef {{ problem?: string, verdict: string, share: number, sentences: string[], each: any[] }} Marked
 */

/** What a page's author wrote, with its emphasis: the native program made HTML of it that can run nothing. @param {string} html */
export function written(html) {
  const place = element('span');
  place.innerHTML = html;
  return place;
}

/** A question. What its kind adds: the form in which it is answered, and what the form shows once it is marked. */
export class QuestionElement extends HTMLElement {
  /** @type {any} */ asked;
  /** @type {any} What the page's author says: texts by entry. */ template;
  /** @type {import('./engine.js').Words} */ words = {};
  locked = false;
  revealed = false;
  hints = 0;
  #seed = 0;
  /** When the question was put. */
  #since = 0;
  #starting = false;
  /** @type {(() => void)[]} */ #stops = [];
  /** @type {ReturnType<QuestionElement['build']> | undefined} */ parts;

  connectedCallback() {
    if (!this.shadowRoot) this.attachShadow({ mode: 'open' }).append(element('slot'));
    if (this.asked) this.#watch();
    else if (!this.#starting) this.#start();
  }

  disconnectedCallback() {
    this.#stops.splice(0).forEach(stop => stop());
  }

  /** The seed of the question shown. */
  get seed() {
    return this.#seed;
  }

  get units() {
    return document.documentElement.dataset.units === 'us' ? 'us' : 'metric';
  }

  /** The question and its answer, and whether it is still open. */
  get known() {
    if (this.asked) return { prompt: this.parts?.asks.textContent ?? '', answer: this.solution(), open: !this.locked };
  }

  /** Shows the answer without one of the learner's. */
  reveal() {
    if (!this.parts || this.locked) return;
    this.revealed = true;
    this.asked.mark(this.right(), this.units);
    this.close();
  }

  async #start() {
    this.#starting = true;
    const root = /** @type {ShadowRoot} */ (this.shadowRoot);
    try {
      const [words, style] = await Promise.all([engine(), sheet('question.css')]);
      this.words = words;
      this.template = JSON.parse(this.querySelector('script[type="application/json"]')?.textContent ?? 'null');
      const given = this.getAttribute('seed') ?? new URLSearchParams(location.search).get('seed') ?? '';
      this.#seed = /^\d{1,9}$/.test(given) ? Number(given) : crypto.getRandomValues(new Uint32Array(1))[0] % 1e6;
      this.asked = this.drawn();
      root.adoptedStyleSheets = [style];
      this.parts = this.build();
      root.replaceChildren(this.parts.outer);
      if (this.isConnected) this.#watch();
      this.begin();
    } catch (why) {
      // What stands between the tags stays.
      root.replaceChildren(element('slot'));
      if (!(why instanceof StartFailure)) root.prepend(element('p', { role: 'alert' }, fill(this.words, 'question.failed', { why: String(why) })));
    } finally {
      this.#starting = false;
    }
  }

  #watch() {
    this.#stops.push(onSettings(() => this.#renew()));
  }

  /** A copy of what stands between the tags, by its class. @param {string} name */
  #written(name) {
    const copy = /** @type {HTMLElement | undefined} */ (this.querySelector(`.${name}`)?.cloneNode(true));
    return copy ?? element('p', { class: name });
  }

  /** Builds the parts once. */
  build() {
    const { words } = this;
    const asks = this.#written('asks');
    asks.id = 'asks';
    const [hint, explanation, source] = ['hint', 'explanation', 'source'].map(name => this.#written(name));
    hint.addEventListener('toggle', () => { if (hint instanceof HTMLDetailsElement && hint.open) this.hints = 1; });
    const place = element('div', { class: 'place' });
    const kind = this.template.kind;
    const set = element('button', { type: 'submit', class: 'first' }, words[`question.mark.${kind}`] ?? words['question.mark']);
    const form = element('form', { class: kind, novalidate: '' }, place, set);
    const problem = element('p', { class: 'problem', id: 'problem', role: 'alert', hidden: '' });
    const said = element('div');
    const answer = element('div', { class: 'answer', tabindex: '-1', hidden: '' }, said, explanation, source);
    const again = element('button', { type: 'button' }, words['question.again']);
    const note = element('p', { class: 'note' });
    const outer = element('section', { 'aria-labelledby': 'asks' }, element('h3', {}, words[`question.kind.${kind}`]), asks, hint, form, problem, answer, element('div', { class: 'keys again' }, again), note);
    form.addEventListener('submit', event => {
      event.preventDefault();
      this.lock();
    });
    again.addEventListener('click', () => {
      this.#seed = (this.#seed + 1) % 1e9;
      this.asked.redraw(this.#seed);
      this.ask();
      this.focusFirst();
    });
    return { outer, asks, hint, place, set, problem, said, explanation, answer, note };
  }

  /** The figure that goes with the question. */
  get figure() {
    const figure = document.getElementById(this.getAttribute('figure') ?? '');
    return /** @type {(HTMLElement & { rig: any, reveal(): void }) | null} */ (figure);
  }

  /** Puts the question. */
  ask() {
    const parts = this.parts;
    if (!parts) return;
    this.locked = this.revealed = false;
    this.hints = 0;
    this.#since = performance.now();
    if (parts.hint instanceof HTMLDetailsElement) parts.hint.open = false;
    parts.hint.hidden = false;
    parts.set.hidden = false;
    parts.answer.hidden = parts.problem.hidden = true;
    parts.place.replaceChildren(...this.form(this.#put()));
    this.put();
    this.#renew();
  }

  /** @returns {Put} */
  #put() {
    return this.asked.view(this.units);
  }

  /** Says the question, and what it was marked as, in the page's units. */
  #renew() {
    const parts = this.parts;
    if (!parts) return;
    this.retold(this.#put());
    parts.note.textContent = fill(this.words, 'question.seed', { seed: String(this.#seed) });
    if (this.locked) this.#show();
  }

  /** Takes the answer, if it can be read: marks it and shows what is right. @param {boolean} [quiet] nothing is said of one that cannot */
  lock(quiet) {
    const parts = this.parts;
    if (!parts || this.locked) return;
    /** @type {Marked} */
    const marked = this.asked.mark(this.answer(), this.units);
    if (marked.problem && quiet) return;
    parts.problem.hidden = !marked.problem;
    parts.problem.textContent = marked.problem ?? '';
    if (marked.problem) return this.focusFirst();
    this.close();
    parts.answer.focus({ preventScroll: true });
    const { verdict, share } = marked;
    const seconds = Math.round((performance.now() - this.#since) / 1000);
    this.dispatchEvent(new CustomEvent('outlean-marked', { bubbles: true, composed: true, detail: { seed: this.#seed, typed: this.told(), verdict, share, seconds, hints: this.hints } }));
  }

  /** Takes no answer any more. */
  close() {
    const parts = this.parts;
    if (!parts) return;
    this.locked = parts.set.hidden = parts.hint.hidden = parts.problem.hidden = true;
    if (parts.explanation instanceof HTMLDetailsElement) parts.explanation.open = true;
    this.#show();
  }

  #show() {
    const parts = this.parts;
    if (!parts) return;
    /** @type {Marked} */
    const marked = this.asked.marked(this.units);
    const sentences = this.revealed ? [fill(this.words, 'question.revealed', { answer: this.solution() })] : marked.sentences;
    parts.answer.dataset.verdict = this.revealed ? 'revealed' : marked.verdict;
    parts.said.replaceChildren(element('h3', {}, this.words['question.see']), ...sentences.map(said => element('p', {}, said)));
    this.show(marked);
    parts.answer.hidden = false;
  }

  /** Goes to where an answer begins. */
  focusFirst() {
    /** @type {HTMLElement | null | undefined} */ (this.parts?.place.querySelector('input,button'))?.focus();
  }

  // What a kind says of itself.

  /** The question of the seed, as the program has it. */
  drawn() {
    return /** @type {any} */ (new Asked(this.template, this.words, this.seed));
  }
  /** What happens once it can be put. */
  begin() {
    this.ask();
  }

  /** What the learner answers with. @param {Put} _put @returns {Node[]} */
  form(_put) {
    return [];
  }
  /** What else happens as the question is put. */
  put() {}
  /** Says the form anew, in other units. @param {Put} _put */
  retold(_put) {}
  /** The answer, as the program takes it. @returns {unknown} */
  answer() {
    return null;
  }
  /** The right one, in the same form. @returns {unknown} */
  right() {
    return null;
  }
  /** The answer as text for the record. */
  told() {
    return '';
  }
  /** The right answer in words. */
  solution() {
    return '';
  }
  /** Shows in the form what was marked. @param {Marked} _marked */
  show(_marked) {}
}
