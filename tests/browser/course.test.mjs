// The pages of the whole course: glossary, index of sources, how the numbers are computed, accessibility.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';

const PAGES = ['glossary', 'sources', 'numbers', 'accessibility'];

/** @typedef {import('./harness.mjs').Stage['page']} Page */

/** How much wider than the window the page is, px. @param {Page} page */
const over = page => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

for (const dark of [false, true]) {
  for (const width of [320, 1280, 1920]) {
    eachBrowser(`pages of the course, ${width} px, ${dark ? 'dark' : 'light'}`, { width, height: width === 320 ? 640 : 1000, dark }, async ({ page, open, shot, axe }) => {
      for (const name of PAGES) {
        await open(`/${name}/`);
        await shot(`${name} ${width} ${dark ? 'dark' : 'light'}`);
        assert.deepEqual(await axe(), [], name);
        assert(await over(page) <= 0, `${name} is wider than its window by ${await over(page)} px`);
        assert.deepEqual(await page.$$eval('.pages a', all => all.map(each => each.getAttribute('href'))), ['../', '../glossary/', '../sources/', '../numbers/', '../accessibility/']);
      }
    });
  }
}

for (const theme of ['projector', 'sunlight']) {
  eachBrowser(`pages of the course, ${theme}`, { width: 1920, height: 1080 }, async ({ page, open, shot, axe }) => {
    for (const name of PAGES) {
      await open(`/${name}/?theme=${theme}`);
      await page.waitForFunction(wanted => document.documentElement.dataset.theme === wanted, {}, theme);
      await shot(`${name} ${theme}`);
      assert.deepEqual(await axe(), [], name);
      assert(await over(page) <= 0, name);
    }
  });
}

eachBrowser('a word of a lesson leads to what it means, and back to where it is taught', async ({ page, open, axe }) => {
  await open('/08-guys/');
  const term = await page.$$('main a.term');
  assert(term.length > 40, `${term.length} words are linked`);
  // It is a link in the text, in its colour, told by its line.
  const { line, same, says, anchor } = await page.$eval('main p a.term', at => ({
    line: getComputedStyle(at).textDecorationLine,
    same: getComputedStyle(at).color === getComputedStyle(/** @type {Element} */ (at.parentElement)).color,
    says: at.textContent,
    anchor: new URL(/** @type {HTMLAnchorElement} */ (at).href).hash,
  }));
  assert.deepEqual([line, same], ['underline', true]);
  assert.match(anchor, /^#[a-z-]+$/, `${says}`);
  await Promise.all([page.waitForNavigation(), page.$eval('main p a.term', at => /** @type {HTMLAnchorElement} */ (at).click())]);
  assert.equal(await page.evaluate(() => location.pathname + location.hash), `/glossary/${anchor}`);
  const { top, height } = await page.$eval(`dt${anchor}`, at => ({ top: at.getBoundingClientRect().top, height: innerHeight }));
  assert(top >= 0 && top < height, 'the word is in view');
  assert.deepEqual(await axe(), []);
  await Promise.all([page.waitForNavigation(), page.$eval(`dt${anchor} ~ .besides a`, at => /** @type {HTMLAnchorElement} */ (at).click())]);
  assert.match(await page.evaluate(() => location.pathname), /^\/\d\d-/);
});

eachBrowser('no word is a target in gloves', async ({ page, open }) => {
  await open('/08-guys/?theme=sunlight');
  await page.waitForFunction(() => document.documentElement.dataset.theme === 'sunlight');
  const events = await page.$$eval('main a.term', all => new Set(all.map(each => getComputedStyle(each).pointerEvents)).size === 1 && getComputedStyle(all[0]).pointerEvents);
  assert.equal(events, 'none');
});
