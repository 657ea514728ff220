// On paper the key stands after the lesson, on a page of its own: what each question asks, as it is put now, and its answer.

import { QUESTIONS } from './channel.js';
import { element } from './element.js';
import { fill } from './words.js';

/** @type {HTMLElement | undefined} */
let key;

// Earlier than the change of media, at which the sheets are counted already.
addEventListener('beforeprint', () => {
  const questions = /** @type {import('./led.js').Asked[]} */ ([...document.querySelectorAll(QUESTIONS)]);
  const answers = questions.flatMap(({ known }) => (known ? [element('li', {}, `${known.prompt} `, element('strong', {}, known.answer))] : []));
  if (answers.length === 0) return;
  const title = document.querySelector('h1')?.textContent ?? '';
  const words = questions.find(({ known }) => known)?.words ?? {};
  document.body.append(key = element('section', { class: 'key-page' }, element('h2', {}, fill(words, 'sheet.key', { title })), element('ol', {}, ...answers)));
});
addEventListener('afterprint', () => key?.remove());
