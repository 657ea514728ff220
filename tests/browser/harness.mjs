// A test of a page is written once and runs in both browsers:
//
//     import { eachBrowser } from './harness.mjs';
//
//     eachBrowser('the lean can be typed', async ({ page, open }) => {
//       await open('/');
//       …
//     });
//
//     eachBrowser('a narrow dark page', { width: 320, scale: 2, dark: true }, async ({ open, shot, axe }) => {
//       await open('/');
//       await shot('first screen');
//       assert.deepEqual(await axe(), []);
//     });
//
// Whatever the test itself says, it fails when the page writes to the console, throws, breaks its policy or asks
// anything of another machine. A test that provokes such a thing allows it by pattern: `{ allow: [/404/] }`; a pattern
// that meets nothing fails too.

import assert from 'node:assert/strict';
import { after, test } from 'node:test';
import { axe } from './axe.mjs';
import { BROWSERS, closeBrowsers, newPage } from './browsers.mjs';
import * as place from './place.mjs';
import { serve } from './server.mjs';
import { watch } from './watch.mjs';

/**
 * What a test is given.
 * @typedef {object} Stage
 * @property {'chromium' | 'firefox'} browser
 * @property {import('puppeteer-core').Page} page empty until `open`
 * @property {string} origin of the server, without a slash at its end
 * @property {(path: string) => Promise<unknown>} open goes to a path of the site and waits for its load
 * @property {(name: string) => Promise<void>} shot keeps a picture as target/shots/NAME-BROWSER.png
 * @property {() => Promise<string[]>} axe what the accessibility checker finds wrong
 * @property {string[]} requests every address asked for so far
 */

/**
 * @typedef {import('./browsers.mjs').Look & { allow?: RegExp[], folder?: string | (() => ReturnType<typeof serve>) }} Options
 * `folder` is what is served, target/site where it says nothing; or what serves.
 */

/** A page may take this long, in ms, for all of a test: a page that hangs must not hang the run. */
const PATIENCE = 300_000;

/** @type {Map<string | (() => ReturnType<typeof serve>), ReturnType<typeof serve>>} */
const servers = new Map();

/** @param {string | (() => ReturnType<typeof serve>)} folder */
function server(folder) {
  const known = servers.get(folder) ?? (typeof folder === 'string' ? serve(folder) : folder());
  servers.set(folder, known);
  return known;
}

after(async () => {
  await closeBrowsers();
  for (const known of servers.values()) await (await known).stop();
});

/**
 * Defines one test for each browser.
 * @param {string} name
 * @param {Options | ((stage: Stage) => Promise<void>)} options
 * @param {(stage: Stage) => Promise<void>} [body]
 */
export function eachBrowser(name, options, body) {
  if (typeof options === 'function') return eachBrowser(name, {}, options);
  const act = body ?? assert.fail('a test has a body');
  for (const browser of BROWSERS) {
    test(`${name} (${browser})`, { timeout: PATIENCE }, () => run(name, browser, options, act));
  }
}

/**
 * Runs one body in one browser; throws what it throws, or what the page did.
 * @param {string} name
 * @param {'chromium' | 'firefox'} browser
 * @param {Options} options
 * @param {(stage: Stage) => Promise<void>} body
 */
export async function run(name, browser, options, body) {
  const { origin } = await server(options.folder ?? place.site);
  const { page, close } = await newPage(browser, options);
  try {
    const watched = await watch(page, origin);
    const shot = async (/** @type {string} */ of) => {
      await page.screenshot({ path: /** @type {`${string}.png`} */ (place.shot(`${of} ${browser}`)) });
    };
    const open = (/** @type {string} */ path) => page.goto(origin + path, { waitUntil: 'load' });
    try {
      await body({ browser, page, origin, open, shot, axe: () => axe(page), requests: watched.requests });
    } catch (why) {
      await shot(`failed ${name}`).catch(() => {});
      const noise = await watched.noise().catch(() => []);
      if (noise.length > 0) console.error(`the page also said:\n  ${noise.join('\n  ')}`);
      throw why;
    }
    judge(await watched.noise(), options.allow ?? []);
  } finally {
    await close();
  }
}

/**
 * Holds what a page did against what it may.
 * @param {string[]} noise
 * @param {RegExp[]} allow
 */
function judge(noise, allow) {
  const unforeseen = noise.filter(line => !allow.some(pattern => pattern.test(line)));
  assert.deepEqual(unforeseen, [], 'a page says nothing on the console and asks nothing of other machines');
  const unmet = allow.filter(pattern => !noise.some(line => pattern.test(line)));
  assert.deepEqual(unmet, [], 'what a test allows must come');
}
