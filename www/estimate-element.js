// <outlean-estimate>: a number is predicted, locked in, and then shown with what the prediction would have meant.
//
// Attributes: figure (the id of the <outlean-rig> that holds back its forces until the mark is set), seed (a whole
// number; drawn by chance without it).
// A child <script type="application/json"> holds the template, as the native program wrote it.
// Property known: the question with its answer, for who leads the lesson. Method reveal(): shows the answer without one of
// the learner's. Event outlean-marked when an answer was marked.

import { engine, fill, onSettings, sheet, StartFailure } from './engine.js';
import { linkedRig } from './link.js';
import { element } from './readings.js';
import { Estimate } from './wasm/outlean.js';
import { stepsOf } from './working.js';

class EstimateElement extends HTMLElement {
  /** @type {any} */ #question;
  /** @type {import('./engine.js').Words} */ #words = {};
  /** @type {ReturnType<EstimateElement['build']> | undefined} */ #parts;
  #seed = 0;
  #locked = false;
  #hints = 0;
  #asked = 0;
  #starting = false;
  /** @type {(() => void)[]} */ #stops = [];

  connectedCallback() {
    if (!this.shadowRoot) this.attachShadow({ mode: 'open' }).append(element('slot'));
    if (this.#question) this.#watch();
    else if (!this.#starting) this.#start();
  }

  disconnectedCallback() {
    this.#stops.splice(0).forEach(stop => stop());
  }

  /** The seed of the question shown. */
  get seed() {
    return this.#seed;
  }

  /** The rig of the question shown, SI. */
  get rig() {
    return this.#question?.rig();
  }

  /** The question and its answer in the page's units, and whether it is still open. */
  get known() {
    if (!this.#question) return;
    const units = this.#units();
    // Any answer is marked with the right one beside it; an open question does not show that it was.
    const { answer_text } = this.#locked ? this.#question.marked(units) : this.#question.mark('1', units);
    return { prompt: String(this.#question.view(units).prompt), answer: String(answer_text), open: !this.#locked };
  }

  /** Locks in what is typed, if it can be read; else shows the answer without a prediction. */
  reveal() {
    const parts = this.#parts;
    if (!parts || this.#locked) return;
    if (!this.#question.mark(parts.input.value, this.#units()).problem) return this.#lock();
    this.#question.mark('1', this.#units());
    parts.outer.dataset.revealed = '';
    this.#close();
    this.#figure()?.reveal();
  }

  async #start() {
    this.#starting = true;
    const root = /** @type {ShadowRoot} */ (this.shadowRoot);
    try {
      const [words, style] = await Promise.all([engine(), sheet('question.css')]);
      this.#words = words;
      const asked = this.getAttribute('seed') ?? new URLSearchParams(location.search).get('seed') ?? '';
      this.#seed = /^\d{1,9}$/.test(asked) ? Number(asked) : crypto.getRandomValues(new Uint32Array(1))[0] % 1e6;
      const template = this.querySelector('script[type="application/json"]')?.textContent ?? 'null';
      this.#question = new Estimate(JSON.parse(template), words, this.#seed);
      root.adoptedStyleSheets = [style];
      this.#parts = this.build();
      root.replaceChildren(this.#parts.outer);
      if (this.isConnected) this.#watch();
      // A link's rig is what its sender wants seen: the question waits until it is asked for.
      if (linkedRig(this.getAttribute('figure') ?? '')) this.#wait();
      else this.#ask();
    } catch (why) {
      // What stands between the tags stays; the figure says what went wrong with the program.
      root.replaceChildren(element('slot'));
      if (!(why instanceof StartFailure)) root.prepend(element('p', { role: 'alert' }, fill(this.#words, 'question.failed', { why: String(why) })));
    } finally {
      this.#starting = false;
    }
  }

  #watch() {
    this.#stops.push(onSettings(() => this.#renew()));
  }

  /** Builds the parts once. */
  build() {
    const words = this.#words;
    const prompt = element('p', { id: 'prompt' });
    const hint = element('p', { class: 'hint', hidden: '' });
    const label = element('label', { for: 'mark' });
    const input = element('input', { id: 'mark', type: 'text', inputmode: 'decimal', autocomplete: 'off', spellcheck: 'false', 'aria-describedby': 'prompt problem' });
    const set = element('button', { type: 'submit', class: 'first' }, words['question.set']);
    const help = element('button', { type: 'button' }, words['question.hint']);
    const form = element('form', { novalidate: '' }, element('div', {}, label, input), set, help);
    const problem = element('p', { class: 'problem', id: 'problem', role: 'alert', hidden: '' });
    const answer = element('div', { class: 'answer', tabindex: '-1', hidden: '' });
    const again = element('button', { type: 'button' }, words['question.another']);
    const note = element('p', { class: 'note' });
    const outer = element('section', { 'aria-label': words['question.title'] }, element('h3', {}, words['question.title']), prompt, hint, form, problem, answer, element('div', { class: 'keys' }, again), note);
    form.addEventListener('submit', event => {
      event.preventDefault();
      this.#lock();
    });
    help.addEventListener('click', () => {
      hint.hidden = false;
      this.#hints = 1;
    });
    again.addEventListener('click', () => {
      this.#seed = (this.#seed + 1) % 1e9;
      this.#question.redraw(this.#seed);
      this.#ask();
      input.focus();
    });
    return { outer, prompt, hint, label, input, set, help, problem, answer, again, note };
  }

  /** Offers the question without putting it. */
  #wait() {
    const put = element('button', { type: 'button' }, this.#words['question.put']);
    const offer = element('section', { 'aria-label': this.#words['question.title'] }, element('p', {}, this.#words['question.linked']), element('div', { class: 'keys' }, put));
    put.addEventListener('click', () => {
      const parts = this.#parts;
      if (!parts) return;
      offer.replaceWith(parts.outer);
      this.#ask();
      parts.input.focus();
    });
    this.#parts?.outer.replaceWith(offer);
  }

  /** The figure that goes with the question, once it is defined. */
  #figure() {
    const figure = document.getElementById(this.getAttribute('figure') ?? '');
    return /** @type {(HTMLElement & { rig: unknown, reveal(): void }) | null} */ (figure);
  }

  /** Puts the question: its rig in the figure, forces held back. */
  #ask() {
    const parts = this.#parts;
    if (!parts) return;
    this.#locked = false;
    this.#hints = 0;
    this.#asked = performance.now();
    delete parts.outer.dataset.revealed;
    parts.input.value = '';
    parts.input.disabled = parts.set.disabled = false;
    parts.answer.hidden = parts.problem.hidden = parts.hint.hidden = true;
    parts.help.hidden = false;
    this.#renew();
    const figure = this.#figure();
    if (figure) {
      figure.setAttribute('veiled', '');
      this.#give(figure);
    }
  }

  /** Gives the figure the question's rig, now or as soon as it is ready. @param {HTMLElement & { rig: unknown }} figure */
  #give(figure) {
    const rig = this.rig;
    if (figure.rig) figure.rig = rig;
    else figure.addEventListener('outlean-ready', () => { if (this.rig && !this.#locked) figure.rig = this.rig; }, { once: true });
  }

  #units() {
    return document.documentElement.dataset.units === 'us' ? 'us' : 'metric';
  }

  /** Says the question, and its answer if it was given, in the page's units. */
  #renew() {
    const parts = this.#parts;
    if (!parts) return;
    const view = this.#question.view(this.#units());
    parts.prompt.textContent = view.prompt;
    parts.hint.textContent = view.hint;
    parts.label.textContent = view.label;
    parts.note.textContent = fill(this.#words, 'question.seed', { seed: String(this.#seed) });
    if (this.#locked) this.#show();
  }

  /** Locks the prediction in, marks it and lets the figure show. */
  #lock() {
    if (!this.#parts || this.#locked) return;
    const marked = this.#question.mark(this.#parts.input.value, this.#units());
    this.#parts.problem.hidden = !marked.problem;
    this.#parts.problem.textContent = marked.problem ?? '';
    if (marked.problem) {
      this.#parts.input.focus();
      return;
    }
    this.#close();
    this.#parts.answer.focus({ preventScroll: true });
    this.#figure()?.reveal();
    const { verdict, share, given, answer } = marked;
    const seconds = Math.round((performance.now() - this.#asked) / 1000);
    this.dispatchEvent(new CustomEvent('outlean-marked', { bubbles: true, composed: true, detail: { seed: this.#seed, typed: this.#parts.input.value, verdict, share, given, answer, seconds, hints: this.#hints } }));
  }

  /** Takes no answer any more and shows the right one. */
  #close() {
    const parts = this.#parts;
    if (!parts) return;
    this.#locked = true;
    parts.input.disabled = parts.set.disabled = true;
    parts.help.hidden = parts.problem.hidden = true;
    this.#show();
  }

  #show() {
    const parts = this.#parts;
    if (!parts) return;
    const words = this.#words;
    const marked = this.#question.marked(this.#units());
    const revealed = 'revealed' in parts.outer.dataset;
    const told = revealed ? [fill(words, 'question.revealed', { answer: String(this.known?.answer) })] : marked.sentences;
    const sentences = told.map((/** @type {string} */ sentence) => element('p', {}, sentence));
    const causes = marked.causes.map((/** @type {[string, string]} */ [name, value]) => element('li', {}, `${name}: `, element('strong', {}, value)));
    const open = parts.answer.querySelector('details')?.open ?? false;
    const working = element('details', {}, element('summary', {}, words['question.working']), stepsOf(marked.steps));
    working.open = open;
    parts.answer.dataset.verdict = revealed ? 'revealed' : marked.verdict;
    parts.answer.dataset.answer = String(marked.answer);
    parts.answer.replaceChildren(element('h3', {}, words['question.see']), ...sentences, ...(causes.length > 1 ? [element('ul', {}, ...causes)] : []), working);
    parts.answer.hidden = false;
  }
}

if (!customElements.get('outlean-estimate')) customElements.define('outlean-estimate', EstimateElement);
