// How soon a lesson shows its figure and how smoothly it plays, in both browsers. Printed; nothing here fails on a
// number.
//
//     node tests/browser/speed.mjs [PATH]
//
// The page sets the performance mark `outlean:first-frame` when its figure is first drawn, and has a button
// `[data-do="play"]`, in a shadow root or not, that starts the sweep.

import { BROWSERS, closeBrowsers, newPage } from './browsers.mjs';
import { site } from './place.mjs';
import { serve } from './server.mjs';

const MARK = 'outlean:first-frame';
const PLAY = '>>> [data-do="play"]';
/** Loads that are timed; the middle one is printed. */
const LOADS = 5;
/** How long the sweep is watched, ms. */
const WATCHED = 4000;
const PATIENCE = 10_000;

const path = process.argv[2] ?? '/';

/** Time from navigation to the first frame, ms. @param {import('puppeteer-core').Page} page @param {string} url */
async function firstFrame(page, url) {
  await page.goto(url, { waitUntil: 'load' });
  const marked = (/** @type {string} */ mark) => performance.getEntriesByName(mark).length > 0;
  await page.waitForFunction(marked, { timeout: PATIENCE }, MARK);
  return page.evaluate(mark => performance.getEntriesByName(mark)[0].startTime, MARK);
}

/** Lengths of the frames while the sweep plays, ms, shortest first. @param {import('puppeteer-core').Page} page */
async function frames(page) {
  const play = await page.waitForSelector(PLAY, { timeout: PATIENCE });
  await play?.click();
  const lengths = await page.evaluate(
    watched =>
      new Promise(done => {
        /** @type {number[]} */
        const times = [];
        const tick = (/** @type {number} */ now) => {
          times.push(now);
          if (now - times[0] < watched) requestAnimationFrame(tick);
          else done(times.slice(1).map((time, number) => time - times[number]));
        };
        requestAnimationFrame(tick);
      }),
    WATCHED,
  );
  return /** @type {number[]} */ (lengths).sort((a, b) => a - b);
}

/** @param {number[]} sorted @param {number} part */
const quantile = (sorted, part) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))];

const { origin, stop } = await serve(site);
try {
  for (const browser of BROWSERS) {
    const times = [];
    for (let load = 0; load < LOADS; load++) {
      const { page, close } = await newPage(browser); // a profile of its own: nothing cached
      times.push(await firstFrame(page, origin + path));
      await close();
    }
    times.sort((a, b) => a - b);
    const { page, close } = await newPage(browser);
    await firstFrame(page, origin + path);
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
