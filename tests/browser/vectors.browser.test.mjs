// The wasm module gives the native program's numbers, bit for bit: in each browser.

import assert from 'node:assert/strict';
import { cpSync } from 'node:fs';
import { SEEDS_IN_PAGES, digest, native, seedsEach, templates } from './drawn.mjs';
import { eachBrowser } from './harness.mjs';
import { PICKS_IN_PAGES, asked, cases } from './picks.mjs';
import { wasm } from './place.mjs';
import { scratch } from './scratch.mjs';
import { RIGS, asJson, compare, differences, vectors } from './vectors.mjs';

/** Rigs sent into the page at a time. */
const CHUNK = 500;

const { folder, write } = scratch();
cpSync(wasm('web'), folder, { recursive: true });
write('vectors', '<h1>Vectors</h1>');

/** @type {string[] | undefined} */
let all;

eachBrowser(`wasm equals native on ${RIGS} rigs`, { folder }, async ({ page, open }) => {
  all ??= vectors(RIGS);
  await open('/vectors.html');
  await page.evaluate(`
    globalThis.module = import('/outlean.js').then(async module => (await module.default(), module));
    globalThis.differences = ${differences};
    globalThis.compare = ${compare};
    undefined`);
  let compared = 0;
  for (let start = 0; start < all.length; start += CHUNK) {
    const some = all.slice(start, start + CHUNK);
    /** @type {string[]} */
    const found = await page.evaluate(async text => {
      const { module, differences, compare } = /** @type {any} */ (globalThis);
      return compare(await module, JSON.parse(text), differences).slice(0, 20);
    }, asJson(some));
    assert.deepEqual(found, [], `in rigs ${start} to ${start + CHUNK}`);
    compared += some.length;
  }
  assert.equal(compared, RIGS);
});

/** @type {Record<string, string> | undefined} */
let drawn;

eachBrowser(`wasm draws and marks ${SEEDS_IN_PAGES} questions of every kind as native does`, { folder }, async ({ page, open }) => {
  const seeds = seedsEach(SEEDS_IN_PAGES);
  drawn ??= native(seeds);
  await open('/vectors.html');
  await page.evaluate(`
    globalThis.module = import('/outlean.js').then(async module => (await module.default(), module));
    globalThis.digest = ${digest};
    undefined`);
  /** @type {Record<string, string>} */
  const found = {};
  for (const template of templates()) {
    found[template.id] = await page.evaluate(async (template, seeds) => {
      const { module, digest } = /** @type {any} */ (globalThis);
      return digest(await module, template, seeds);
    }, template, seeds);
  }
  assert.deepEqual(found, drawn);
});

/** @type {import('./picks.mjs').Case[] | undefined} */
let picks;

eachBrowser(`wasm asks in ${PICKS_IN_PAGES} refreshers what native asks`, { folder }, async ({ page, open }) => {
  picks ??= cases(PICKS_IN_PAGES);
  await open('/vectors.html');
  await page.evaluate(`
    globalThis.module = import('/refresher.js').then(async module => (await module.default(), module));
    globalThis.asked = ${asked};
    undefined`);
  /** @type {import('./picks.mjs').Picked[]} */
  const found = [];
  for (let start = 0; start < picks.length; start += CHUNK) {
    found.push(...await page.evaluate(async some => {
      const { module, asked } = /** @type {any} */ (globalThis);
      return asked(await module, some);
    }, picks.slice(start, start + CHUNK)));
  }
  picks.forEach(({ picked }, place) => assert.deepEqual(found[place], picked, `of seed ${place}`));
});
