// What cannot start says why, in words, with the still picture in its place.

import assert from 'node:assert/strict';
import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { broken } from './broken.mjs';
import { eachBrowser } from './harness.mjs';

/** @param {string} program @param {(file: string) => void} act */
const eachModule = (program, act) => readdirSync(join(program, 'wasm')).filter(name => name.endsWith('.wasm')).forEach(name => act(join(program, 'wasm', name)));

/** @type {[string, RegExp, RegExp[], (program: string) => void][]} */
const FAULTS = [
  ['the program is missing', /did not arrive/, [/404/], program => eachModule(program, file => rmSync(file))],
  ['the program is cut off', /arrived cut off or damaged/, [], program => eachModule(program, file => writeFileSync(file, Buffer.from([0, 97, 115, 109, 1, 0, 0, 0, 9])))],
  ['its words are missing', /words did not arrive/i, [/404/], program => ['page', 'records', 'planner'].forEach(part => rmSync(join(program, `strings/en/${part}.json`)))],
];

for (const [name, said, allow, breakIt] of FAULTS) {
  eachBrowser(name, { folder: broken(breakIt), allow }, async ({ page, open, shot }) => {
    await open('/05-lean/');
    const alert = await page.waitForSelector('>>> .fail');
    assert.match((await alert?.evaluate(place => place.textContent)) ?? '', said);
    assert(await page.$eval('outlean-rig img', picture => /** @type {HTMLImageElement} */ (picture).checkVisibility()));
    // The pages that have a program of their own say it as well, once, and what can be done.
    for (const other of ['class', 'plan', 'refresher']) {
      await open(`/${other}/`);
      await page.waitForFunction(() => [...document.querySelectorAll('main [role=alert],main [data-part=said]')].some(at => /reload|try again/i.test(at.textContent ?? '') && at.checkVisibility()), { timeout: 10_000 }).catch(why => { throw new Error(`${other}: ${why}`); });
      if (other === 'class') await shot(`fault ${name}`);
    }
  });
}

eachBrowser('a browser that gives no canvas is told of; text, still picture, numbers and questions hold', async ({ page, open, shot }) => {
  await page.evaluateOnNewDocument(() => { HTMLCanvasElement.prototype.getContext = /** @type {any} */ (() => null); });
  await open('/05-lean/?seed=7');
  const alert = await page.waitForSelector('>>> .fail');
  assert.match((await alert?.evaluate(place => place.textContent)) ?? '', /no canvas/);
  const [still, numbers] = await page.$eval('outlean-rig', figure => [figure.querySelector('img')?.checkVisibility(), figure.querySelector('table')?.checkVisibility()]);
  assert.deepEqual([still, numbers], [true, true]);
  const mark = await page.waitForSelector('>>> #mark');
  await mark?.type('4 kN');
  await mark?.press('Enter');
  await page.waitForFunction(() => /5\.13/.test(document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('.answer')?.textContent ?? ''));
  await shot('no canvas');
});
