// On paper the key stands after the lesson, on a page of its own: what each question asks, as it is put now, and its answer.

import { QUESTIONS } from './channel.js';
import { element } from './element.js';
import { engine } from './engine.js';
import { fill } from './words.js';

/** @param {import('./engine.js').Words} words */
function keyOf(words) {
  const answers = [...document.querySelectorAll(QUESTIONS)].flatMap(question => {
    const { known } = /** @type {import('./led.js').Asked} */ (question);
    return known ? [element('li', {}, `${known.prompt} `, element('strong', {}, known.answer))] : [];
  });
  const title = document.querySelector('h1')?.textContent ?? '';
  return element('section', { class: 'key-page' }, element('h2', {}, fill(words, 'sheet.key', { title })), element('ol', {}, ...answers));
}

engine().then(words => {
  /** @type {HTMLElement | undefined} */
  let key;
  // Earlier than the change of media, at which the sheets are counted already.
  addEventListener('beforeprint', () => {
    if (document.querySelector(QUESTIONS)) document.body.append(key = keyOf(words));
  });
  addEventListener('afterprint', () => key?.remove());
}, () => {}); // the elements say what went wrong
