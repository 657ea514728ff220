// What the elements of all questions have in common: they begin, are put, take an answer, show what is right.
//
// A child <script type="application/json"> holds the template, and .asks, .hint, .explanation and .source stand as the native
// program wrote them: with them the question reads without its program.

import { element } from './element.js';
import { StartFailure } from './engine.js';
import { cautionOf, seedOf, unitsOf } from './given.js';
import { seedBy } from './seed.js';
import { StartingElement } from './starting.js';
import { Asked } from './wasm/outlean.js';
import { fill } from './words.js';

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

/**
 * A question, drawn by a seed. What its kind adds: the form in which it is answered, and what the form shows once it is marked.
 *
 * @attr {string} id - Names it in what is kept of answers.
 * @attr {string} figure - The id of an `<outlean-rig>` of the page that shows the question's rig.
 * @attr {string} seed - Draws the question: a whole number of at most nine digits; by chance where it is left out.
 * @attr {string} objective - What the question is for, in words: kept with answers.
 * @attr {boolean} once - It is not put anew.
 * @fires {CustomEvent<{ seed: number, typed: string, verdict: string, share: number, seconds: number, hints: number }>} outlean-marked - An answer was marked:
 * once for each. `share` is from 0 to 1; `seconds` since the question was put.
 * @csspart asks - What is asked.
 * @csspart form - Where it is answered.
 * @csspart answer - What is said once it is marked.
 */
export class QuestionElement extends StartingElement {
  static observedAttributes = [...StartingElement.observedAttributes, 'seed'];
  /** @internal */
  css = 'question.css';
  /** @internal @type {any} */ asked;
  /** What the page's author says: texts by entry. @internal @type {any} */ template;
  /** Whether it was answered and takes no other answer. @internal */
  locked = false;
  /** Whether the answer was shown without one of the learner's. @internal */
  revealed = false;
  /** Hints that were read. @internal */
  hints = 0;
  #seed = 0;
  /** When the question was put. */
  #since = 0;
  /** @internal @type {ReturnType<QuestionElement['build']> | undefined} */ parts;

  /** The seed of the question shown. @type {number} */
  get seed() {
    return this.#seed;
  }

  /** @internal */
  get units() {
    return unitsOf(this);
  }

  /** The question and its answer, and whether it is still open: for who leads the lesson. @type {{ prompt: string, answer: string, open: boolean } | undefined} */
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

  /** @internal @param {any} template @param {HTMLElement} content */
  make(template, content) {
    this.#seed = seedBy(seedOf(this) ?? '');
    this.template = template;
    try {
      this.asked = this.drawn();
    } catch (why) {
      throw new StartFailure('question', { why: String(why) });
    }
    this.parts = this.build(content);
    return this.parts.outer;
  }

  /** @internal */
  free() {
    this.asked?.free();
    this.asked = this.parts = undefined;
  }

  /** Builds the parts once. @internal @param {HTMLElement} content */
  build(content) {
    const { words } = this;
    // Copies of what stands between the tags.
    const [asks, hint, explanation, source] = ['asks', 'hint', 'explanation', 'source'].map(name =>
      /** @type {HTMLElement | undefined} */ (content.querySelector(`.${name}`)?.cloneNode(true)) ?? element('p', { class: name }));
    asks.id = 'asks';
    asks.part = 'asks';
    hint.addEventListener('toggle', () => { if (hint instanceof HTMLDetailsElement && hint.open) this.hints = 1; });
    const place = element('div', { class: 'place' });
    const kind = this.template.kind;
    const set = element('button', { type: 'submit', class: 'first' }, words[`question.mark.${kind}`] ?? words['question.mark']);
    const form = element('form', { class: kind, novalidate: '', part: 'form' }, place, set);
    const problem = element('p', { class: 'problem', id: 'problem', role: 'alert', hidden: '' });
    const said = element('div');
    const answer = element('div', { class: 'answer', part: 'answer', tabindex: '-1', hidden: '' }, said, explanation, source, ...cautionOf(this, words));
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

  /** The figure that goes with the question. @internal */
  get figure() {
    const figure = document.getElementById(this.getAttribute('figure') ?? '');
    return /** @type {(HTMLElement & { rig: any, reveal(): void }) | null} */ (figure);
  }

  /** Puts the question. @internal */
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
    this.settle();
  }

  /** @returns {Put} */
  #put() {
    return this.asked.view(this.units);
  }

  /** Says the question, and what it was marked as, in the page's units. @internal */
  settle() {
    const parts = this.parts;
    if (!parts) return;
    this.retold(this.#put());
    parts.note.textContent = fill(this.words, 'question.seed', { seed: String(this.#seed) });
    if (this.locked) this.#show();
  }

  /** Takes the answer, if it can be read: marks it and shows what is right. @internal @param {boolean} [quiet] nothing is said of one that cannot */
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

  /** Takes no answer any more. @internal */
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

  /** Goes to where an answer begins. @internal */
  focusFirst() {
    /** @type {HTMLElement | null | undefined} */ (this.parts?.place.querySelector('input,button'))?.focus();
  }

  // What a kind says of itself.

  /** The question of the seed, as the program has it. @internal */
  drawn() {
    return /** @type {any} */ (new Asked(this.template, this.words, this.seed));
  }
  /** What happens once it can be put. @internal */
  begin() {
    this.ask();
  }

  /** What the learner answers with. @internal @param {Put} _put @returns {Node[]} */
  form(_put) {
    return [];
  }
  /** What else happens as the question is put. @internal */
  put() {}
  /** Says the form anew, in other units. @internal @param {Put} _put */
  retold(_put) {}
  /** The answer, as the program takes it. @internal @returns {unknown} */
  answer() {
    return null;
  }
  /** The right one, in the same form. @internal @returns {unknown} */
  right() {
    return null;
  }
  /** The answer as text for the record. @internal */
  told() {
    return '';
  }
  /** The right answer in words. @internal */
  solution() {
    return '';
  }
  /** Shows in the form what was marked. @internal @param {Marked} _marked */
  show(_marked) {}
}
