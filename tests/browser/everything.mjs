// The first lesson's figure with everything shown, watched from within: for what measures how much of a machine it takes.

import { newPage } from './browsers.mjs';
import { LESSON, rest } from './lesson.mjs';

/** @param {number[]} values @param {number} part */
export function quantile(values, part) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? NaN;
}

/** The page with its question answered and every view shown, and what it takes counted on its `window`. @param {'chromium' | 'firefox'} browser @param {string} origin */
export async function everything(browser, origin) {
  const { page, close } = await newPage(browser);
  await page.evaluateOnNewDocument(() => {
    const seen = /** @type {any} */ (window);
    seen.shifted = 0;
    seen.keys = [];
    new PerformanceObserver(list => {
      for (const entry of /** @type {any[]} */ (list.getEntries())) if (!entry.hadRecentInput) seen.shifted += entry.value;
    }).observe({ type: 'layout-shift', buffered: true });
    new PerformanceObserver(list => {
      for (const entry of list.getEntries()) if (entry.name === 'keydown') seen.keys.push(entry.duration);
    }).observe(/** @type {any} */ ({ type: 'event', durationThreshold: 16, buffered: true }));
    // How long each frame's script takes, and that of the tasks it asked for, without laying out, and without a trace that slows it.
    let since = 0;
    const timed = (/** @type {(given: any) => void} */ act) => (/** @type {any} */ given) => {
      const start = performance.now();
      act(given);
      since += performance.now() - start;
    };
    const laid = Element.prototype.getBoundingClientRect;
    Element.prototype.getBoundingClientRect = function () {
      const start = performance.now();
      const box = laid.call(this);
      since -= performance.now() - start;
      return box;
    };
    const next = window.requestAnimationFrame.bind(window);
    seen.scripts = [];
    window.requestAnimationFrame = frame => next(now => {
      timed(frame)(now);
      seen.scripts.push(since);
      since = 0;
    });
    const port = /** @type {PropertyDescriptor} */ (Object.getOwnPropertyDescriptor(MessagePort.prototype, 'onmessage'));
    Object.defineProperty(MessagePort.prototype, 'onmessage', { ...port, set(act) { port.set?.call(this, act && timed(act)); } });
    // How many times a worker has painted what it was told.
    seen.painted = 0;
    const Usual = window.Worker;
    window.Worker = class extends Usual {
      constructor(/** @type {ConstructorParameters<typeof Usual>} */ ...how) {
        super(...how);
        this.addEventListener('message', () => { seen.painted += 1; });
      }
    };
    // The memory of the program, wherever it was started.
    for (const way of /** @type {const} */ (['instantiate', 'instantiateStreaming'])) {
      const begin = /** @type {any} */ (WebAssembly[way]);
      /** @type {any} */ (WebAssembly)[way] = async (/** @type {any[]} */ ...what) => {
        const made = await begin.apply(WebAssembly, what);
        seen.memory = (made.instance ?? made).exports.memory;
        return made;
      };
    }
  });
  await page.goto(origin + LESSON, { waitUntil: 'load' });
  await page.waitForFunction(() => performance.getEntriesByName('outlean:first-frame').length > 0);
  const shifted = await page.evaluate(() => /** @type {any} */ (window).shifted);
  await page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).reveal());
  for (const view of ['front', 'forces']) {
    await page.$eval(`>>> .views [data-view=${view}]`, key => /** @type {HTMLElement} */ (key).click());
    await rest(page);
  }
  await page.$eval('>>> .plate', plate => plate.scrollIntoView());
  return { page, close, shifted };
}

/** Plays the sweep, and again whenever it has come to its end. @param {import('puppeteer-core').Page} page */
export const play = page => page.evaluate(() => {
  const figure = /** @type {any} */ (document.querySelector('outlean-rig'));
  const on = () => {
    figure.act({ kind: 'play' });
    /** @type {any} */ (window).swept = (/** @type {any} */ (window).swept ?? 0) + 1;
  };
  figure.addEventListener('outlean-rest', on);
  on();
});

/** Prints what is amiss, if anything is, and has the run fail by it. @param {string[]} faults */
export function failOn(faults) {
  if (faults.length === 0) return;
  console.error(faults.join('\n'));
  process.exitCode = 1;
}
