// A sheet: the figure, its curves, every reading and the caution; nothing to press, and no theme of the screen.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { answer, LESSON, ready, rest } from './lesson.mjs';

for (const [theme, dark] of /** @type {const} */ ([['system', true], ['dark', false], ['projector', false], ['sunlight', false]])) {
  eachBrowser(`printed from ${theme}${dark ? ' in the dark' : ''}`, { dark }, async stage => {
    const { page, browser } = stage;
    if (browser === 'firefox') return; // its driver cannot show a page as it is printed
    await ready(stage, `${LESSON}&theme=${theme}`);
    await answer(page, '4 kN');
    const still = await page.$$eval('>>> tbody tr', rows => rows.length);
    // A sheet of A4 between its margins.
    await page.setViewport({ width: 688, height: 1032 });
    await page.emulateMediaType('print');
    await rest(page);
    const sheet = await page.evaluate(() => {
      const figure = document.querySelector('outlean-rig');
      const root = /** @type {ShadowRoot} */ (figure?.shadowRoot);
      const seen = (/** @type {string} */ selector) => [...root.querySelectorAll(selector)].filter(each => each.checkVisibility() && each.getBoundingClientRect().height > 1).length;
      const side = /** @type {HTMLCanvasElement} */ (root.querySelector('.plate>canvas'));
      const dots = /** @type {CanvasRenderingContext2D} */ (side.getContext('2d')).getImageData(0, 0, side.width, side.height).data;
      let inked = 0;
      for (let at = 3; at < dots.length; at += 4) if (dots[at] > 128) inked++;
      return {
        rows: seen('tbody tr'),
        more: seen('details dd'),
        canvases: seen('.plate>canvas,.curves>canvas'),
        pressed: seen('.keys button,.views button,.head,summary'),
        projector: figure?.hasAttribute('projector'),
        paper: getComputedStyle(document.documentElement).backgroundColor,
        settings: document.querySelector('.settings')?.checkVisibility(),
        caution: document.querySelector('.caution')?.checkVisibility() && getComputedStyle(/** @type {Element} */ (document.querySelector('.caution'))).display,
        height: figure?.getBoundingClientRect().height ?? 0,
        inked,
        beyond: (root.querySelector('table')?.getBoundingClientRect().right ?? 0) - (figure?.getBoundingClientRect().right ?? 0),
      };
    });
    assert(sheet.rows === still && still >= 8, `${sheet.rows} of ${still} rows`);
    assert(sheet.more >= 8, `${sheet.more} more readings`);
    assert.equal(sheet.canvases, 3);
    assert.equal(sheet.pressed, 0);
    assert.equal(sheet.projector, false);
    assert.equal(sheet.paper, 'rgb(255, 255, 255)');
    assert.equal(sheet.settings, false);
    assert.equal(sheet.caution, 'table-footer-group');
    assert(sheet.height > 500 && sheet.height < 980, `${sheet.height} px stand on one sheet`);
    assert(sheet.beyond <= 1, `the readings end ${sheet.beyond} px beyond the sheet`);
    assert(sheet.inked > 2000, `${sheet.inked} dots of ink`);
    await page.emulateMediaType('screen');
    await rest(page);
    assert.equal(await page.$eval('>>> details:has(dl)', more => /** @type {HTMLDetailsElement} */ (more).open), false, 'folded away again');
  });
}
