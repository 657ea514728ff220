// The first lesson in a browser: opened, answered, read.

export const LESSON = '/05-lean/?seed=7';

/** @typedef {import('./harness.mjs').Stage} Stage */

/** Waits until the figure is drawn and the question is put. @param {Stage} stage */
export async function ready({ page, open }, path = LESSON) {
  await open(path);
  await page.waitForFunction(() => {
    const figure = document.querySelector('outlean-rig')?.shadowRoot;
    const prompt = document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('#asks')?.textContent;
    return figure?.querySelector('.plate canvas') && prompt && /** @type {any} */ (document.querySelector('outlean-rig')).rig;
  });
  await rest(page);
}

/** Lets what was done be drawn and said: words follow a moving picture within 50 ms, pictures once a worker has painted them. @param {Stage['page']} page */
export async function rest(page) {
  await page.evaluate(() => new Promise(done => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(() => done(undefined))), 60)));
  await page.waitForFunction(() => ![...document.querySelectorAll('outlean-rig')].some(figure => /** @type {any} */ (figure).pending && !/** @type {any} */ (figure).told?.playing));
  await page.evaluate(() => new Promise(requestAnimationFrame));
}

/** Types an answer and locks it in. @param {Stage['page']} page @param {string} typed */
export async function answer(page, typed) {
  const input = await page.waitForSelector('>>> #mark');
  await input?.type(typed);
  await input?.press('Enter');
  await rest(page);
}

/** The text of something in the figure or the question. @param {Stage['page']} page @param {string} selector */
export const text = (page, selector) => page.$eval(`>>> ${selector}`, place => place.textContent ?? '');

/** The lean shown, rad. @param {Stage['page']} page */
export const lean = page => page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).rig.lean);

/** The rig shown. @param {Stage['page']} page @returns {Promise<Record<string, string | number>>} */
export const rig = page => page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).rig);
