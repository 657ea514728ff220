// The working behind a number: opened beside the figure, kept in step with it, closed again.

import { element } from './element.js';

/**
 * @typedef {{ name: string, mathml: string, plain: string }} Step
 * @typedef {{ heading: string, steps: Step[], said: string[], values: { name: string, written: string, value: string }[], rule: string[] }} Worked
 */

/** Steps of a worked solution as a list. @param {Step[]} steps */
export function stepsOf(steps) {
  return element('ol', {}, ...steps.map(step => {
    const formula = element('div', { 'aria-hidden': 'true' });
    formula.innerHTML = step.mathml; // our own program's MathML: numbers and symbols, no text of the learner's
    return element('li', {}, element('div', { class: 'step' }, step.name), formula, element('span', { class: 'plain' }, step.plain));
  }));
}

/** The place where a working is shown. */
export class WorkingPanel {
  /** The number whose working is open; empty where none is. */
  key = '';
  /** @type {HTMLElement | undefined} Where the focus returns to. */
  #opener;

  /** @param {import('./engine.js').Words} words @param {(key: string) => Worked | undefined} work */
  constructor(words, work) {
    this.words = words;
    this.work = work;
    this.heading = element('h3', { tabindex: '-1' });
    this.body = element('div');
    const close = element('button', { type: 'button' }, words['working.close']);
    close.addEventListener('click', () => this.close());
    this.element = element('section', { class: 'working', hidden: '' }, this.heading, this.body, close);
    this.element.addEventListener('keydown', event => {
      if (event.key !== 'Escape') return;
      event.stopPropagation();
      this.close();
    });
  }

  /** @param {string} key @param {HTMLElement} opener */
  open(key, opener) {
    this.key = key;
    this.#opener = opener;
    this.show();
    if (this.element.hidden) return;
    this.heading.focus({ preventScroll: true });
    this.element.scrollIntoView({ block: 'nearest' });
  }

  close() {
    this.key = '';
    this.element.hidden = true;
    this.#opener?.focus({ preventScroll: true });
  }

  /** Shows the working with the present values. */
  show() {
    const worked = this.key ? this.work(this.key) : undefined;
    this.element.hidden = !worked;
    if (!worked) return;
    const { words } = this;
    const { heading, steps, said, values, rule } = worked;
    this.heading.textContent = heading;
    const part = rule.length > 0;
    /** @type {Node[]} */
    const all = [];
    if (part) all.push(element('h4', {}, words['working.carries']));
    all.push(...said.map(text => element('p', {}, text)));
    if (steps.length) all.push(stepsOf(steps));
    if (part) all.push(element('h4', {}, words['working.may_carry']));
    all.push(...rule.map(text => element('p', {}, text)));
    if (values.length) all.push(element('dl', {}, ...values.flatMap(({ name, written, value }) => [element('dt', {}, name, ' ', element('i', {}, written)), element('dd', {}, value)])));
    this.body.replaceChildren(...all);
  }
}
