// Two sides of paper: the largest type that a plan has room in there, and what is left off where it has none in any.

import { element } from './element.js';

/**
 * What is tried in turn: the size of type, points, and how many of what may be left off are.
 * @type {[number, number][]}
 */
const TRIED = [[8, 0], [7.5, 0], [7.2, 0], [7, 0], [7, 1], [7, 2], [7, 3], [7, 4], [7, 5], [7, 6], [6.5, 6], [6, 6], [5.5, 6]];
/**
 * What may be left off, the first before the others: it stands on the page, and nobody builds or inspects by it. Of the rest
 * nothing is left off: it is set in smaller type, and where even that is too large for two sides it takes another.
 */
const LEFT_OFF = ['spread', 'uncertainty', 'stretch', 'limits', 'crew', 'briefing'];
/** A side between its margins, mm: of A4 and of Letter what is less of either. */
const SIDE = { width: 186, height: 259 };
/** CSS pixels in a millimetre. */
const MM = 96 / 25.4;
/** What is lost where something is not broken at the foot of a column or of a side: a share of what there is. */
const LOST = 0.03;

/**
 * Makes answers ready for two sides of paper.
 * @param {HTMLElement} plan @param {HTMLElement} answers all of them, from caution to caution
 * @param {(left: string[]) => string} says what is left off, by name
 */
export function fitted(plan, answers, says) {
  const note = element('p', { class: 'left-off' });
  answers.querySelector('.left-off')?.remove();
  answers.querySelector('[data-section=verdict]')?.append(note);
  const back = asPrinted();
  const { width } = answers.style;
  answers.style.width = `${SIDE.width * MM}px`;
  const high = (/** @type {Element | null} */ element) => element?.getBoundingClientRect().height ?? 0;
  try {
    for (const [size, count] of TRIED) {
      const left = LEFT_OFF.slice(0, count);
      plan.style.setProperty('--print', `${size}pt`);
      plan.dataset.left = left.join(' ');
      note.textContent = left.length > 0 ? says(left) : '';
      // The page's head stands on the first side, its caution on both.
      const room = 2 * SIDE.height * MM - high(document.querySelector('.running')) - 2 * high(document.querySelector('.caution'));
      if (high(answers) <= room * (1 - LOST)) break;
    }
  } finally {
    answers.style.width = width;
    back();
  }
}

/** Has the page set as on paper. What sets it back. */
function asPrinted() {
  /** @type {[CSSMediaRule, string][]} */
  const turned = [];
  for (const sheet of document.styleSheets) {
    for (const rule of sheet.cssRules) {
      if (!(rule instanceof CSSMediaRule) || !/^(print|screen)$/.test(rule.media.mediaText)) continue;
      turned.push([rule, rule.media.mediaText]);
      rule.media.mediaText = rule.media.mediaText === 'print' ? 'all' : 'not all';
    }
  }
  return () => turned.forEach(([rule, text]) => { rule.media.mediaText = text; });
}
