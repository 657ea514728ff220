// <outlean-estimate>: a number is predicted, locked in, and then shown with what the prediction would have meant. Its figure
// holds back its forces until the mark is set.

import { element } from './element.js';
import { linkedRig } from './link.js';
import { QuestionElement } from './question.js';
import { Estimate } from './wasm/outlean.js';
import { stepsOf } from './working.js';

/** The question that each figure shows. @type {WeakMap<HTMLElement, EstimateElement>} */
const shows = new WeakMap();

/**
 * A number is predicted, locked in, and then shown with what the prediction would have meant.
 *
 * @tag outlean-estimate
 */
class EstimateElement extends QuestionElement {
  #label = element('label', { for: 'mark' });
  #input = element('input', { id: 'mark', type: 'text', inputmode: 'decimal', autocomplete: 'off', spellcheck: 'false', 'aria-describedby': 'asks problem' });

  constructor() {
    super();
    this.addEventListener('focusin', () => { if (this.made && !this.locked) this.put(true); });
  }

  /** The rig of the question shown, SI. @internal */
  get rig() {
    return this.asked?.rig();
  }

  drawn() {
    return new Estimate(this.template, this.words, this.seed);
  }

  /** A link's rig is what its sender wants seen: the question waits until it is asked for. @internal */
  begin() {
    if (!linkedRig(this.getAttribute('figure') ?? '')) return this.ask();
    const { words } = this;
    const put = element('button', { type: 'button' }, words['question.put']);
    const offer = element('div', { role: 'group', 'aria-label': words['question.kind.estimate'] }, element('p', {}, words['question.linked']), element('div', { class: 'keys' }, put));
    put.addEventListener('click', () => {
      if (this.parts) offer.replaceWith(this.parts.outer);
      this.ask();
      this.focusFirst();
    });
    this.parts?.outer.replaceWith(offer);
  }

  form() {
    this.#input.value = '';
    this.#input.disabled = false;
    return [this.#label, this.#input];
  }

  /** The question's rig in its figure, forces held back: now, or as soon as the figure is ready. Of several questions of one figure
   * the first has it, then the one that is `entered`. @internal */
  put(entered = false) {
    const { figure } = this;
    if (!figure) return;
    const other = shows.get(figure);
    if (entered ? other === this && figure.hasAttribute('veiled') : other && other !== this) return;
    shows.set(figure, this);
    figure.setAttribute('veiled', '');
    if (figure.rig) figure.rig = this.rig;
    else figure.addEventListener('outlean-ready', () => { if (!this.locked && shows.get(figure) === this) figure.rig = this.rig; }, { once: true });
  }

  /** @param {any} put */
  retold({ prompt, label }) {
    if (this.parts) this.parts.asks.textContent = prompt;
    this.#label.textContent = label;
  }

  answer() {
    return this.#input.value;
  }

  /** Any answer is marked with the right one beside it. @internal */
  right() {
    return '1';
  }

  told() {
    return this.#input.value;
  }

  solution() {
    return String(this.asked.solved(this.units));
  }

  /** What is typed is locked in, if it can be read. @internal */
  reveal() {
    this.lock(true);
    super.reveal();
  }

  close() {
    this.put(true);
    super.close();
    this.figure?.reveal();
  }

  /** @param {any} marked */
  show({ answer, causes, steps }) {
    const { parts, words } = this;
    if (!parts) return;
    this.#input.disabled = true;
    parts.answer.dataset.answer = String(answer);
    const working = element('details', {}, element('summary', {}, words['question.working']), stepsOf(steps));
    working.open = this.#open;
    working.addEventListener('toggle', () => { this.#open = working.open; });
    const all = causes.map((/** @type {[string, string]} */ [name, value]) => element('li', {}, `${name}: `, element('strong', {}, value)));
    parts.said.append(...(all.length > 1 ? [element('ul', {}, ...all)] : []), working);
  }

  /** Whether the working is unfolded. */
  #open = false;
}

customElements.get('outlean-estimate') ?? customElements.define('outlean-estimate', EstimateElement);
