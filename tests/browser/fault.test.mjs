// A figure that cannot start says why, in words, with the still picture in its place.

import assert from 'node:assert/strict';
import { cpSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { eachBrowser } from './harness.mjs';
import { programOf, site } from './place.mjs';
import { scratch } from './scratch.mjs';

/** A copy of the site with one thing broken. @param {(program: string) => void} breakIt it is given the folder of what pages load */
function broken(breakIt) {
  const { folder } = scratch();
  cpSync(site, folder, { recursive: true });
  breakIt(programOf(folder));
  return folder;
}

/** @type {[string, RegExp, RegExp[], (program: string) => void][]} */
const FAULTS = [
  ['the program is missing', /did not arrive/, [/404/], program => rmSync(join(program, 'wasm/outlean_bg.wasm'))],
  ['the program is cut off', /arrived cut off or damaged/, [], program => writeFileSync(join(program, 'wasm/outlean_bg.wasm'), Buffer.from([0, 97, 115, 109, 1, 0, 0, 0, 9]))],
  ['its words are missing', /words did not arrive/i, [/404/], program => rmSync(join(program, 'strings/en/page.json'))],
];

for (const [name, said, allow, breakIt] of FAULTS) {
  eachBrowser(name, { folder: broken(breakIt), allow }, async ({ page, open }) => {
    await open('/05-lean/');
    const alert = await page.waitForSelector('>>> .fail');
    assert.match((await alert?.evaluate(place => place.textContent)) ?? '', said);
    assert(await page.$eval('outlean-rig img', picture => /** @type {HTMLImageElement} */ (picture).checkVisibility()));
  });
}
