// How soon a lesson shows its figure and how smoothly it plays, in both browsers. Printed; nothing here fails on a
// number.
//
//     node tests/browser/speed.mjs [PATH]
//
// PATH is of the built site; the first lesson where none is given. Needed of the page: it sets the performance mark
// `outlean:first-frame` when its first figure is drawn, and `<outlean-rig>` has `reveal()`, `act({ kind: 'play' })` and
// `rig.lean`.

import { BROWSERS, closeBrowsers, newPage } from './browsers.mjs';
import { site } from './place.mjs';
import { serve } from './server.mjs';

const MARK = 'outlean:first-frame';
/** Loads that are timed; the middle one is printed. */
const LOADS = 5;
/** How long the sweep is watched, ms. */
const WATCHED = 4000;
const PATIENCE = 10_000;

/** Time from navigation to the first frame, ms. @param {import('puppeteer-core').Page} page @param {string} url */
async function firstFrame(page, url) {
  await page.goto(url, { waitUntil: 'load' });
  const marked = (/** @type {string} */ mark) => performance.getEntriesByName(mark).length > 0;
  await page.waitForFunction(marked, { timeout: PATIENCE }, MARK);
  return page.evaluate(mark => performance.getEntriesByName(mark)[0].startTime, MARK);
}

/** Lengths of the frames while the sweep plays, ms, shortest first. @param {import('puppeteer-core').Page} page */
async function frames(page) {
  const seen = await page.evaluate(async watched => {
    const figure = /** @type {any} */ (document.querySelector('outlean-rig'));
    figure.scrollIntoView();
    figure.reveal();
    const start = figure.rig.lean;
    figure.act({ kind: 'play' });
    /** @type {number[]} */
    const times = [];
    let moved = false;
    do {
      times.push(await new Promise(requestAnimationFrame));
      moved ||= figure.rig.lean !== start;
    } while (times[times.length - 1] - times[0] < watched);
    return { moved, lengths: times.slice(1).map((time, number) => time - times[number]) };
  }, WATCHED);
  if (!seen.moved) throw new Error('the sweep does not play: the lean stayed as it was');
  return seen.lengths.sort((a, b) => a - b);
}

/** Path of the first lesson that the site's first page links to. @param {string} origin */
async function firstLesson(origin) {
  const { page, close } = await newPage(BROWSERS[0]);
  await page.goto(`${origin}/`);
  const href = await page.$eval('main ol a[href]', link => /** @type {HTMLAnchorElement} */ (link).href);
  await close();
  return href;
}

/** @param {number[]} sorted @param {number} part */
const quantile = (sorted, part) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))];

const { origin, stop } = await serve(site);
try {
  const url = process.argv[2] ? origin + process.argv[2] : await firstLesson(origin);
  for (const browser of BROWSERS) {
    const times = [];
    for (let load = 0; load < LOADS; load++) {
      const { page, close } = await newPage(browser); // a profile of its own: nothing cached
      times.push(await firstFrame(page, url));
      await close();
    }
    times.sort((a, b) => a - b);
    const { page, close } = await newPage(browser);
    await firstFrame(page, url);
    const lengths = await frames(page);
    await close();
    const total = lengths.reduce((sum, length) => sum + length, 0);
    const rate = (1000 * lengths.length) / total;
    console.log(
      `${browser.padEnd(9)} first frame ${quantile(times, 0.5).toFixed(0)} ms (${times[0].toFixed(0)} to ${times[LOADS - 1].toFixed(0)}); ` +
        `playing ${rate.toFixed(1)} frames a second, 95 of 100 frames within ${quantile(lengths, 0.95).toFixed(1)} ms, longest ${quantile(lengths, 1).toFixed(1)} ms`,
    );
  }
} finally {
  await closeBrowsers();
  await stop();
}
