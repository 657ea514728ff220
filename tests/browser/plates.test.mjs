// The build drawn step by step: plates that fit the narrowest page, follow its paper, are told in words and led one by one.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';

const LESSON = '/02-lashing-the-head/?seed=3';
const PLATES = '.plates li[id]';

for (const dark of [false, true]) {
  eachBrowser(`plates fit a narrow page, ${dark ? 'dark' : 'light'}`, { width: 320, height: 700, scale: 2, dark }, async ({ page, open, axe }) => {
    await open(LESSON);
    await page.evaluate(() => document.fonts.ready);
    const plates = await page.$$eval(PLATES, all => all.map(plate => {
      const picture = /** @type {SVGSVGElement} */ (plate.querySelector('svg'));
      const { left, right, width } = picture.getBoundingClientRect();
      const shown = [...picture.querySelectorAll('text')].map(text => parseFloat(getComputedStyle(text).fontSize) * width / picture.viewBox.baseVal.width);
      const outside = [...picture.querySelectorAll('text')].filter(text => text.getBoundingClientRect().left < left - 1 || text.getBoundingClientRect().right > right + 1);
      return {
        id: plate.id, left, right, least: Math.min(...shown), outside: outside.length,
        told: picture.getAttribute('aria-label') ?? '',
        hold: [picture.textContent?.includes('Hold point'), plate.querySelector('figcaption')?.textContent?.includes('Hold point')],
        ink: getComputedStyle(/** @type {Element} */ (picture.querySelector('text'))).fill,
        paper: getComputedStyle(document.documentElement).backgroundColor,
      };
    }));
    assert.equal(plates.length, 11);
    for (const { id, left, right, least, outside, told, hold, ink, paper } of plates) {
      assert.ok(left >= 0 && right <= 320, `${id}: ${left} to ${right}`);
      assert.ok(least >= 11, `${id}: lettering of ${least} px`);
      assert.equal(outside, 0, `${id}: names leave the plate`);
      assert.ok(told.length > 60, `${id}: ${told}`);
      assert.equal(hold[0], hold[1], `${id}: marked in picture and words alike`);
      assert.notEqual(ink, paper);
    }
    assert.equal(plates.filter(({ hold }) => hold[0]).length, 1);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= 320));
    assert.deepEqual(await axe(), []);
  });
}

eachBrowser('a projector shows one plate at a time', { width: 1920, height: 1080 }, async ({ page, open }) => {
  await open(`${LESSON}&theme=projector`);
  const seen = await page.$$eval(PLATES, all => all.map(plate => {
    plate.scrollIntoView({ behavior: 'instant', block: 'start' });
    const caution = /** @type {Element} */ (document.querySelector('.caution')).getBoundingClientRect().top;
    const whole = [...document.querySelectorAll('.plates svg')].filter(each => {
      const { top, bottom } = each.getBoundingClientRect();
      return top >= 0 && bottom <= caution;
    });
    const words = /** @type {Element} */ (plate.querySelector('figcaption')).getBoundingClientRect().bottom;
    return { whole: whole.length, own: plate.contains(whole[0] ?? null), words: words <= caution };
  }));
  for (const plate of seen) assert.deepEqual(plate, { whole: 1, own: true, words: true });
});

eachBrowser('a speaker can go to each plate by what is said of it', async ({ page, open }) => {
  await open('/02-lashing-the-head/?view=speaker');
  await page.waitForSelector('.steps li');
  const steps = await page.$$eval('.steps li', all => all.map(step => [step.getAttribute('data-step'), step.className, step.textContent ?? '']));
  const plates = steps.filter(([id]) => /^lash-it-\d/.test(id ?? ''));
  assert.equal(plates.length, 9);
  assert.match(plates[4]?.[2] ?? '', /^Wrapping turns round both legs/);
  assert.ok(plates.every(([, kind]) => kind === 'part'));
});

eachBrowser('what an estimate asks has its gaps filled from the drawn rig', async ({ page, open }) => {
  await open('/06-resultant/?seed=5');
  await page.waitForFunction(() => document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('#asks')?.textContent);
  const asks = await page.$eval('outlean-estimate', question => question.shadowRoot?.querySelector('#asks')?.textContent ?? '');
  const said = /The haul point is ([\d.]+)\s*m back, the fore holdfast ([\d.]+)\s*m ahead/.exec(asks);
  assert.ok(said, asks);
  assert.ok(Number(said[2]) >= 6.4 && Number(said[2]) <= 7.6, asks);
  // The figure is given the same rig.
  await page.waitForFunction(back => {
    const figure = /** @type {any} */ (document.getElementById(document.querySelector('outlean-estimate')?.getAttribute('figure') ?? ''));
    return Math.abs(figure.rig?.['line.to.back'] - back) < 0.006;
  }, {}, Number(said[1]));
});
