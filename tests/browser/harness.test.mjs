// The harness itself: a page that misbehaves must fail its test, in both browsers.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { BROWSERS } from './browsers.mjs';
import { eachBrowser, run } from './harness.mjs';
import { scratch } from './scratch.mjs';

const { folder, write } = scratch();

write('good', '<main><h1>Good</h1></main>');
write('unnamed', '<main><h1>Unnamed</h1><button></button></main>');
write('speaks', '', 'console.info("hello")');
write('throws', '', 'throw new Error("thrown")');
write('rejects', '', 'Promise.reject(new Error("rejected"))');
write('inline', '<p style="color: red">red</p>');
write('evaluates', '', 'try { eval("1") } catch {}');
write('elsewhere', '<img src="http://127.0.0.1:9/a.png" alt="">');
write('missing', '', 'fetch("/none.json")');

/** What each page does wrong, as the harness says it. */
const WRONG = {
  speaks: /console info: hello/,
  throws: /thrown/,
  rejects: /rejected/,
  inline: /policy: style-src/,
  evaluates: /policy: script-src/,
  elsewhere: /policy: img-src|request elsewhere/,
  missing: /answer 404: .*none\.json/,
};

for (const browser of BROWSERS) {
  for (const [name, said] of Object.entries(WRONG)) {
    test(`the page "${name}" fails (${browser})`, async () => {
      await assert.rejects(run(name, browser, { folder }, async ({ open }) => void (await open(`/${name}.html`))), said);
    });
  }
  test(`what is allowed must come (${browser})`, async () => {
    const body = async (/** @type {any} */ { open }) => void (await open('/good.html'));
    await assert.rejects(run('good', browser, { folder, allow: [/404/] }, body), /must come/);
  });
}

eachBrowser('a good page passes', { folder }, async ({ open, axe, requests, origin }) => {
  await open('/good.html');
  assert.deepEqual(await axe(), []);
  assert(requests.includes(`${origin}/good.js`), requests.join(' '));
});

eachBrowser('a button without a name is found', { folder }, async ({ open, axe }) => {
  await open('/unnamed.html');
  assert.match((await axe()).join('\n'), /button-name/);
});

for (const look of [
  { width: 320, height: 640, scale: 2, dark: true, reducedMotion: true },
  { width: 1920, height: 1080, scale: 1, dark: false, reducedMotion: false },
]) {
  eachBrowser(`a page is ${look.width} wide, ${look.dark ? 'dark' : 'light'}`, { folder, ...look }, async ({ page, open }) => {
    await open('/good.html');
    const seen = await page.evaluate(() => ({
      width: innerWidth,
      height: innerHeight,
      scale: devicePixelRatio,
      dark: matchMedia('(prefers-color-scheme: dark)').matches,
      reducedMotion: matchMedia('(prefers-reduced-motion: reduce)').matches,
    }));
    assert.deepEqual(seen, look);
  });
}
