// A slow network, and one that stands still: in the meantime there is text and a still picture, and nothing that half works; it gets there
// in the end; and where nothing comes the page says so, and still takes what does come.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { BROWSERS } from './browsers.mjs';
import { run } from './harness.mjs';
import { empty, KINDS, slow } from './slow.mjs';

/** Kinds of files without which no figure starts. */
const NEEDED = ['program', 'script', 'words', 'style'];
/** How long is waited before the page says that something is late, as www/starting.js has it. */
const LATE = 20_000;

/** Has a page say what is late sooner than it would. @param {import('puppeteer-core').Page} page @param {number} wait ms */
const sooner = (page, wait) => page.evaluateOnNewDocument((late, wait) => {
  const real = setTimeout;
  Object.assign(globalThis, { setTimeout: (/** @type {any} */ then, /** @type {number} */ time, /** @type {any[]} */ ...given) => real(then, time === late ? wait : time, ...given) });
}, LATE, wait);

/** Pages that have a program of their own, and what shows that it runs. */
const OTHERS = {
  plan: 'outlean-plan[data-ready]',
  class: 'outlean-class[data-ready]',
  refresher: 'outlean-refresher [data-part=offer]:not([hidden])',
};

for (const browser of BROWSERS) {
  const name = `planner, class and refresher say that their programs are slow to come, and start once they do (${browser})`;
  test(name, { timeout: 60_000 }, async () => {
    const server = await slow(/(?:planner|class|refresher)_bg\.wasm$/);
    await run(name, browser, { folder: async () => server, height: 1400 }, async ({ page, origin, open, shot }) => {
      await sooner(page, 600);
      await open('/sources/');
      await page.evaluate(names => document.body.replaceChildren(...names.map(name => Object.assign(document.createElement('iframe'), { src: `/${name}/`, width: 1000, height: 420 }))), Object.keys(OTHERS));
      for (const [name, started] of Object.entries(OTHERS)) {
        const frame = await page.waitForFrame(frame => frame.url() === `${origin}/${name}/`);
        await frame.waitForFunction(() => document.querySelector('main .late')?.checkVisibility(), { timeout: 10_000 });
        assert.match(await frame.$eval('main .late', at => at.textContent ?? ''), /slow to arrive/, name);
        assert.equal(await frame.$(started), null, name);
      }
      await shot('slow others');
      server.letGo();
      for (const [name, started] of Object.entries(OTHERS)) {
        const frame = await page.waitForFrame(frame => frame.url() === `${origin}/${name}/`);
        await frame.waitForSelector(started, { timeout: 20_000 });
        assert.equal(await frame.$('main .late'), null, `${name}: what came is late no more`);
      }
    });
  });
}

for (const browser of BROWSERS) {
  const name = `whatever is slow to come is waited for, and what stands still is said (${browser})`;
  test(name, { timeout: 120_000 }, async () => {
    const kinds = Object.keys(KINDS);
    const servers = await Promise.all(kinds.map(kind => slow(KINDS[kind])));
    const ways = servers.map(({ origin }) => `${origin}/05-lean/?seed=7`);
    const page = await empty();
    const folder = async () => ({ ...page, stop: async () => { for (const each of [page, ...servers]) await each.stop(); } });
    await run(name, browser, { folder, height: 3000, allow: [/^request elsewhere: http:\/\/127\.0\.0\.1|^request failed: .*ABORTED/] }, async ({ page, open, shot }) => {
      await sooner(page, 3000);
      await open('/');
      await page.evaluate(ways => document.body.append(...ways.map(src => Object.assign(document.createElement('iframe'), { src, width: 1000, height: 350 }))), ways);
      const frames = new Map();
      const frameOf = async (/** @type {string} */ kind) => frames.set(kind, await page.waitForFrame(frame => frame.url() === ways[kinds.indexOf(kind)]).catch(why => { throw new Error(`${kind}: ${why}`); }));
      for (const { asked } of servers) await asked;
      // Into a page that has only begun no test looks, nor in Firefox into one whose script has.
      const later = browser === 'firefox' ? ['page', 'script'] : ['page'];
      for (const kind of kinds.filter(kind => !later.includes(kind))) await frameOf(kind);
      /** Whether a frame has its figure drawn and its question put. @param {import('puppeteer-core').Frame} frame */
      const whole = async frame => {
        // Firefox draws nothing in a frame of another origin that is out of sight.
        await (await frame.frameElement())?.evaluate(at => at.scrollIntoView());
        return frame.waitForFunction(() => {
        const { told } = /** @type {any} */ (document.querySelector('outlean-rig') ?? {});
        return told && document.querySelector('outlean-rig')?.shadowRoot?.querySelector('canvas') && document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('#mark');
        }, { timeout: 30_000 });
      };
      for (const kind of NEEDED.filter(kind => !later.includes(kind))) {
        const frame = frames.get(kind);
        // The text of the lesson and the still picture are there; nothing can be pressed that would do nothing.
        await frame.waitForFunction(() => { const picture = /** @type {HTMLImageElement | null} */ (document.querySelector('outlean-rig img')); return picture?.complete && picture.naturalWidth > 0; }).catch((/** @type {unknown} */ why) => { throw new Error(`still ${kind}: ${why}`); });
        const [text, keys, still] = await frame.evaluate(() => [
          document.querySelector('main')?.textContent?.length ?? 0,
          document.querySelector('outlean-rig')?.shadowRoot?.querySelectorAll('button,input,select,[tabindex]').length ?? 0,
          document.querySelector('outlean-rig img')?.checkVisibility() ?? false,
        ]);
        assert(text > 2000 && still && keys === 0, `${kind}: ${text} letters, ${keys} keys, the still picture ${still}`);
      }
      // What is late is said, but where there is not even a script that could.
      for (const [kind, said] of /** @type {[string, RegExp][]} */ ([['program', /slow to arrive/], ['style', /slow to arrive/], ['words', /words did not arrive/]])) {
        const frame = frames.get(kind);
        await frame.waitForFunction(() => document.querySelector('outlean-rig')?.shadowRoot?.querySelector('.fail'), { timeout: 10_000 }).catch((/** @type {unknown} */ why) => { throw new Error(`late ${kind}: ${why}`); });
        assert.match(await frame.$eval('outlean-rig', (/** @type {Element} */ at) => at.shadowRoot?.querySelector('.fail')?.textContent ?? ''), said, kind);
        await frame.waitForFunction(() => document.querySelector('outlean-rig img')?.checkVisibility(), { timeout: 10_000 }).catch((/** @type {unknown} */ why) => { throw new Error(`the still picture beside it, ${kind}: ${why}`); });
        assert.equal(await frame.evaluate(() => [...document.querySelectorAll('*')].filter(at => at.shadowRoot?.querySelector('.fail[role=alert]')).length), 1, 'said aloud once');
      }
      await shot('slow late');
      // What no figure needs, none waits for: it is drawn without. Firefox translates one program at a time in a process, however many pages
      // ask: one that stands still on its way holds up those of other pages, so that it goes on first.
      servers[kinds.indexOf('program')].letGo();
      for (const kind of ['lettering', 'painter', 'picture']) await whole(frames.get(kind)).catch((/** @type {unknown} */ why) => { throw new Error(`${kind}: ${why}`); });
      for (const { letGo } of servers) letGo();
      for (const kind of later) await frameOf(kind);
      for (const [kind, frame] of frames) await whole(frame).catch((/** @type {unknown} */ why) => { throw new Error(`${kind}: ${why}`); });
      for (const [, frame] of frames) assert.equal(await frame.evaluate(() => [...document.querySelectorAll('*')].filter(at => at.shadowRoot?.querySelector('.fail')).length), 0);
    });
  });
}
