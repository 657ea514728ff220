// A handful of pictures of the figure as both browsers draw it, held against those that were looked at and kept.
//
//     UPDATE_PICTURES=1 node --test tests/browser/pictures.test.mjs
//
// keeps those of today instead; look at them before they are committed. Where one differs, what was kept, what is and where they are
// apart stand beside each other in target/shots/apart-….png.

import assert from 'node:assert/strict';
import { existsSync, mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { eachBrowser } from './harness.mjs';
import { LESSON, ready, rest } from './lesson.mjs';
import { apart } from './likeness.mjs';
import { shot } from './place.mjs';

/** Most squares that may differ: lettering set a dot aside, not a label elsewhere. */
const MOST = 0.004;
const KEPT = fileURLToPath(new URL('pictures', import.meta.url));

/** @typedef {import('./harness.mjs').Stage['page']} Page */

/** @type {{ name: string, look: import('./browsers.mjs').Look, theme: string, part: string, act?: (page: Page) => Promise<unknown> }[]} */
const PICTURES = [
  { name: 'side view', look: { width: 1280, height: 900 }, theme: 'light', part: '.plate' },
  {
    name: 'view from behind and forces, dark',
    look: { width: 1280, height: 900 },
    theme: 'dark',
    part: '.plate',
    act: async page => {
      for (const view of ['front', 'forces']) await page.$eval(`>>> .views [data-view=${view}]`, key => /** @type {HTMLElement} */ (key).click());
    },
  },
  { name: 'curves', look: { width: 1280, height: 900 }, theme: 'light', part: '.curves' },
  { name: 'past the limit, on a phone in sunlight', look: { width: 320, height: 720, scale: 2 }, theme: 'sunlight', part: '.plate', act: past },
  { name: 'side view through a projector', look: { width: 1920, height: 1080 }, theme: 'projector', part: '.plate' },
];

/**
 * Puts a part of the figure on a whole dot, whatever the text above it comes to: a part of one would set all lettering aside, and leaves
 * it to the last bit of a sum how many dots the picture is high.
 * Until it stands there: what is slow to come above it sets it aside again.
 * @param {Page} page @param {string} part
 */
async function onADot(page, part) {
  for (let aside = 1, tries = 0; aside > 0.01; tries++) {
    assert(tries < 40, `${part} does not come to rest: it stands ${aside} from a whole dot`);
    aside = await page.$eval(`>>> ${part}`, place => {
      const figure = /** @type {HTMLElement} */ (document.querySelector('outlean-rig'));
      place.scrollIntoView();
      const top = place.getBoundingClientRect().top;
      const off = Math.ceil(top - 0.005) - top;
      figure.style.marginTop = `${parseFloat(getComputedStyle(figure).marginTop) + off}px`;
      return Math.abs(off);
    });
    await rest(page);
  }
}

/** Leans the frame past its limit: it halts there once. @param {Page} page */
function past(page) {
  return page.evaluate(() => {
    const figure = /** @type {any} */ (document.querySelector('outlean-rig'));
    for (const kind of ['set', 'grab', 'set']) figure.act({ kind, key: 'lean', value: 0.72 });
  });
}

for (const { name, look, theme, part, act } of PICTURES) {
  eachBrowser(name, { ...look, reducedMotion: true }, async stage => {
    const { page, browser } = stage;
    await ready(stage, `${LESSON}&theme=${theme}`);
    await page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).reveal());
    await rest(page); // labels stay where they were as long as they may: what was drawn before is seen
    await act?.(page);
    await new Promise(done => setTimeout(done, 900));
    await rest(page);
    await onADot(page, part);
    // Whole dots of it: browsers differ in what they make of a part of one at its end.
    const clip = await page.$eval(`>>> ${part}`, place => {
      const { x, y, width, height } = place.getBoundingClientRect();
      return { x: Math.round(x + scrollX), y: Math.round(y + scrollY), width: Math.floor(width), height: Math.floor(height) };
    });
    const file = `${name.replace(/[^a-z]+/g, '-')}-${browser}.png`;
    const kept = `${KEPT}/${file}`;
    const renew = Boolean(process.env.UPDATE_PICTURES);
    const is = renew ? kept : shot(`is ${name} ${browser}`);
    if (renew) mkdirSync(KEPT, { recursive: true });
    await page.screenshot({ path: /** @type {`${string}.png`} */ (is), clip });
    if (renew) return;
    assert(existsSync(kept), `there is no ${kept}: keep one with UPDATE_PICTURES=1`);
    const third = shot(`apart ${name} ${browser}`);
    const share = await apart(browser, kept, is, third);
    assert(share <= MOST, `${(100 * share).toFixed(2)} % of the picture differs; see ${third}`);
  });
}
