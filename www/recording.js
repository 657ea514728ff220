// Keeps each answer that is marked. Event outlean-recorded, detail { kept }, on the question once it is kept: on the disk,
// or in memory where it cannot be; what there is to say of that stands under the question.

import { element } from './element.js';
import { add, gaveOut, inMemory } from './store.js';
import { wordsOf } from './words.js';

/** All that can be said of what is held where the words do not come. */
const HELD = 'Not kept: this is lost when the page closes.';

/** @type {Element | undefined} The question answered last: what is said stands under it. */
let answered;

addEventListener('outlean-marked', async event => {
  const question = /** @type {HTMLElement} */ (event.target);
  const { seed, typed, share, verdict, seconds, hints } = /** @type {CustomEvent} */ (event).detail;
  const { lesson = '', version = '' } = /** @type {HTMLElement | null} */ (question.closest('[data-lesson]'))?.dataset ?? {};
  answered = question;
  const kept = await add({
    time: Math.floor(Date.now() / 1000),
    lesson,
    question: question.id,
    lesson_version: version,
    seed,
    response: String(typed).slice(0, 2000),
    mark: { share, verdict },
    seconds,
    hints,
    objective: question.getAttribute('objective') ?? '',
  });
  question.dispatchEvent(new CustomEvent('outlean-recorded', { bubbles: true, composed: true, detail: { kept } }));
});

document.addEventListener('outlean-store', async event => {
  const { say } = /** @type {CustomEvent} */ (event).detail;
  const words = await wordsOf('records').catch(() => /** @type {import('./words.js').Words} */ ({}));
  const place = answered?.nextElementSibling?.matches('.record-said') ? answered.nextElementSibling : element('p', { class: 'record-said', role: 'status' });
  const all = inMemory();
  const learner = all.at(-1)?.learner;
  place.textContent = words[`said.${say}`] ?? (learner ? HELD : '');
  answered?.after(place);
  if (!learner) return;
  const rows = all.filter(row => row.learner === learner);
  const attempts = rows.map(({ key: _, learner: __, ...attempt }) => attempt);
  const file = JSON.stringify({ format: 'outlean-record', version: 2, learner, attempts, aside: [] });
  const save = element('a', { download: 'record.json', href: URL.createObjectURL(new Blob([file], { type: 'application/json' })) }, words['said.export'] ?? 'Save it');
  save.addEventListener('click', () => gaveOut(rows));
  place.append(' ', save);
});
