// Lettering that does not come, in a browser whose reader has none shown that is small and whose workers are given no canvas: another face
// takes its place, larger, and nothing is cut off or covered; the page paints its pictures itself, and in them that face takes the room
// that ours would.

import assert from 'node:assert/strict';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { broken } from './broken.mjs';
import { eachBrowser } from './harness.mjs';
import { inked } from './inked.mjs';
import { amiss } from './laid.mjs';
import { answer, ready, rest } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */

/** The size below which nothing is shown, px; the smallest of a page is 13. */
const LEAST = 16;

const folder = broken(program => {
  rmSync(join(program, 'fonts'), { recursive: true });
  const painter = join(program, 'painter.js');
  writeFileSync(painter, `OffscreenCanvas.prototype.getContext=()=>null;${readFileSync(painter, 'utf8')}`);
  for (const packed of ['.gz', '.br']) rmSync(painter + packed);
});

/** Notes what is written in pictures: texts with their boxes, by canvas. @param {Stage['page']} page */
async function noted(page) {
  await page.evaluateOnNewDocument(() => {
    const real = CanvasRenderingContext2D.prototype.fillText;
    /** @type {Map<HTMLCanvasElement, { text: string, box: number[] }[]>} */
    const all = new Map();
    Object.assign(window, { lettered: all });
    const clear = CanvasRenderingContext2D.prototype.clearRect;
    CanvasRenderingContext2D.prototype.clearRect = function (...room) {
      all.set(this.canvas, []);
      return clear.apply(this, room);
    };
    CanvasRenderingContext2D.prototype.fillText = function (text, x, y, most) {
      const size = Number(/([\d.]+)px/.exec(this.font)?.[1]);
      const width = Math.min(this.measureText(text).width, most ?? Infinity);
      const left = x - width * ({ left: 0, center: 0.5, right: 1 }[/** @type {'left'} */ (this.textAlign)] ?? 0);
      const { a, d } = this.getTransform();
      // The letters stand in the middle of their line.
      all.get(this.canvas)?.push({ text, box: [left * a, (y - size * 0.6) * d, (left + width) * a, (y - size * 0.1) * d] });
      return real.call(this, text, x, y, .../** @type {[number]} */ (most === undefined ? [] : [most]));
    };
  });
}

/** What of the lettering of pictures lies on other lettering or goes over the edge. @param {Stage['page']} page */
const drawn = page => page.evaluate(() => {
  /** @type {string[]} */
  const found = [];
  for (const [canvas, texts] of /** @type {Map<HTMLCanvasElement, { text: string, box: number[] }[]>} */ (/** @type {any} */ (window).lettered)) {
    if (!canvas.clientWidth) continue;
    texts.forEach(({ text, box: [left, top, right, bottom] }, place) => {
      if (left < -1 || right > canvas.width + 1) found.push(`beyond the edge: ${text}`);
      for (const other of texts.slice(place + 1)) {
        if (other.text !== text && Math.min(right, other.box[2]) - Math.max(left, other.box[0]) > 1 && Math.min(bottom, other.box[3]) - Math.max(top, other.box[1]) > 1) found.push(`one over the other: ${text}, ${other.text}`);
      }
    });
  }
  return found;
});

eachBrowser('where lettering does not come and small type is not shown nothing is cut off or covered', { folder, width: 320, height: 700, least: LEAST, allow: [/404|downloadable font/] }, async stage => {
  const { page, open, shot } = stage;
  await noted(page);
  /** @type {string[]} */
  const wrong = [];
  const look = async (/** @type {string} */ name) => {
    for (const width of [320, 1280]) {
      await page.setViewport({ width, height: 700 });
      await rest(page);
      await shot(`lettering ${name} ${width}`);
      wrong.push(...[...(await amiss(page)), ...(await drawn(page))].map(each => `${name} ${width}: ${each}`));
    }
  };
  await ready(stage);
  assert.deepEqual(await page.evaluate(() => [...document.fonts].filter(face => face.status === 'loaded').length), 0, 'no lettering of ours is there');
  assert(await page.evaluate(() => {
    const small = Object.assign(document.createElement('span'), { textContent: 'x' });
    small.style.font = '5px/1 monospace';
    document.body.append(small);
    const { width } = small.getBoundingClientRect();
    small.remove();
    return width;
  }) > LEAST / 2, 'nothing small is shown');
  await answer(page, '4 kN');
  for (const part of ['.plate > canvas', '.curves canvas']) assert((await inked(page, part)).count > 2000, `${part} is painted`);
  await page.$$eval('>>> .views [data-view]:is([data-view=front],[data-view=forces])', keys => keys.forEach(key => /** @type {HTMLElement} */ (key).click()));
  await look('lesson');
  await open('/plan/');
  await page.waitForSelector('outlean-plan[data-ready]');
  await page.select('[data-part=example]', '0');
  await page.waitForSelector('.plan-form form:not([aria-busy])');
  await look('plan');
  assert.equal(wrong.join('\n'), '');
});
