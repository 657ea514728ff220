// All that pages ask for, held against what they have a use for: nothing of another machine, and of this one no file that is not in the list of
// its kind of page. One page of each kind; with PAGES=all every page of the site (`cargo xtask test --long`).

import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { eachBrowser } from './harness.mjs';
import { answer, ready, rest } from './lesson.mjs';
import { site } from './place.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */

const words = (/** @type {string[]} */ ...parts) => parts.map(part => `program/strings/LANGUAGE/${part}.json`);
const program = (/** @type {string[]} */ ...files) => files.map(file => `program/${file}`);

/** What every page of the course loads: its shell and its lettering. */
const SHELL = [
  ...program('favicon.svg', 'page.css', 'tokens.css', 'page.js'),
  ...program(...['barlow-semi-condensed-500', 'barlow-semi-condensed-600', 'gentium-book-plus-400', 'gentium-book-plus-400-italic', 'outlean-symbols-italic'].map(face => `fonts/${face}.woff2`)),
];
/** What one loads besides on which there are figures or questions. */
const ELEMENTS = [...program('wasm/outlean_bg.wasm', 'figure.css', 'question.css', 'painter.js', 'pictures/*.svg'), ...words('page', 'picture', 'curves', 'question', 'questions', 'working')];
/** What one that is projected loads besides. */
const LED = [...program('hands.js', 'hands.css'), ...words('hands')];

/** Opens it all and does what can be done there. @typedef {{ may: string[], opens: (stage: Stage, way: string) => Promise<unknown> }} Kind */

const printed = async (/** @type {Stage['page']} */ page) => {
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
};

/** @type {Record<string, Kind>} */
const KINDS = {
  lesson: {
    may: [...SHELL, ...ELEMENTS, ...LED, ...program('speaker.js', 'speaker.css', 'record.css'), ...words('speaker', 'records'), 'LESSON/notes.json'],
    async opens(stage, way) {
      const { page, open } = stage;
      await ready(stage, `${way}?seed=7&theme=projector`);
      await page.waitForFunction(() => document.querySelector('[led]'));
      if (!way.endsWith('05-lean/')) return;
      await answer(page, '4 kN');
      await page.$eval('>>> [data-key=sweep]', key => /** @type {HTMLElement} */ (key).click());
      await page.$eval('>>> tbody .opener', key => /** @type {HTMLElement} */ (key).click());
      await printed(page);
      await open(`${way}?view=speaker`);
      await page.waitForSelector('.desk');
    },
  },
  plan: {
    may: [...SHELL, ...program('plan.js', 'plan.css', 'wasm/planner_bg.wasm'), ...words('native', 'plan', 'planner', 'shell', 'picture', 'working')],
    async opens({ page, open }, way) {
      await open(way);
      await page.waitForSelector('outlean-plan[data-ready]');
      await page.select('[data-part=example]', '0');
      await page.waitForSelector('.plan-form form:not([aria-busy])');
      await page.click('[data-part=link]');
      await printed(page);
    },
  },
  record: {
    may: [...SHELL, ...program('record.js', 'record.css', 'wasm/refresher_bg.wasm'), ...words('records', 'refresher')],
    async opens({ page, open }, way) {
      await open(way);
      await page.waitForSelector('outlean-record[data-ready]');
      await page.click('[data-part=csv]');
    },
  },
  class: {
    may: [...SHELL, ...program('class.js', 'record.css', 'class.css', 'wasm/class_bg.wasm'), ...words('records', 'class')],
    async opens({ page, open }, way) {
      await open(way);
      await page.waitForSelector('outlean-class[data-ready]');
      await page.click('[data-part=here]');
    },
  },
  refresher: {
    may: [...SHELL, ...ELEMENTS, ...program('refresher.js', 'record.css', 'wasm/refresher_bg.wasm'), ...words('records', 'refresher'), 'LESSON/'],
    async opens({ page, open }, way) {
      await open(`${way}?seed=3`);
      await page.waitForSelector('outlean-refresher[data-ready]');
      await page.click('[data-part=begin]');
      await page.waitForFunction(() => [...document.querySelectorAll('outlean-refresher section *')].some(at => /** @type {any} */ (at).asked));
    },
  },
  first: {
    may: [...SHELL, ...program('offline.js', 'record.css'), ...words('offline')],
    async opens({ page, open }, way) {
      await open(way);
      await page.waitForSelector('outlean-offline[data-state=away]');
    },
  },
  frame: {
    may: ['05-lean/', ...ELEMENTS, ...program('embed.js', 'embed.css', 'tokens.css', 'favicon.svg'), ...SHELL.filter(file => file.includes('/fonts/')), ...words('embed')],
    async opens({ page, open }, way) {
      await open(`${way}?show=05-lean/slate`);
      await page.waitForFunction(() => document.querySelector('outlean-rig')?.shadowRoot?.querySelector('canvas'));
    },
  },
  text: { may: SHELL, opens: ({ open }, way) => open(way) },
};

/** The pages of the site with their kinds; examples are pages of others. */
const PAGES = /** @type {string[]} */ (readdirSync(site, { recursive: true })).map(file => file.replaceAll('\\', '/')).filter(file => file.endsWith('.html') && !/^(?:examples|program-)/.test(file)).map(file => {
  const way = `/${file.replace(/index\.html$/, '')}`;
  const [, name = ''] = /^\/(?:[a-z]{2}\/)?([^/]*)/.exec(way) ?? [];
  const kind = /^\d/.test(name) ? 'lesson' : name === '' ? 'first' : name === 'embed.html' ? 'frame' : name in KINDS ? name : 'text';
  return { way, kind };
});
const ALL = process.env.PAGES === 'all';
const ONE = new Set(['/05-lean/', '/plan/', '/record/', '/class/', '/refresher/', '/', '/embed.html', '/glossary/']);
const walked = PAGES.filter(({ way }) => ALL || ONE.has(way));

eachBrowser(ALL ? 'every page asks for nothing but what its kind has a use for' : 'a page of each kind asks for nothing but what that has a use for', async stage => {
  const { page, origin, requests } = stage;
  assert.deepEqual([...new Set(walked.map(({ kind }) => kind))].sort(), Object.keys(KINDS).sort(), 'every kind of page');
  /** By what it asks for. @type {Set<string>} */
  const asked = new Set();
  for (const { way, kind } of walked) {
    await page.goto('about:blank');
    const before = requests.length;
    await KINDS[kind].opens(stage, way);
    await page.waitForNetworkIdle({ idleTime: 100 });
    await rest(page);
    const own = requests.slice(before).filter(url => !/^(?:data:|blob:http|about:blank)/.test(url)).map(url => {
      assert(url.startsWith(`${origin}/`), `${way} asks another machine: ${url}`);
      return url.slice(origin.length + 1).replace(/[?#].*/, '').replace(/^program-[0-9a-f]{16}\//, 'program/').replace(/\/strings\/[a-z]{2}\//, '/strings/LANGUAGE/').replace(/pictures\/.*\.svg/, 'pictures/*.svg').replace(/^(?:[a-z]{2}\/)?\d\d-[a-z-]+\/(?!$)/, 'LESSON/');
    }).filter(file => `/${file}` !== way);
    const lessons = own.map(file => (kind === 'refresher' ? file.replace(/^(?:[a-z]{2}\/)?\d\d-[a-z-]+\/$/, 'LESSON/') : file));
    assert.deepEqual([...new Set(lessons)].filter(file => !KINDS[kind].may.includes(file)), [], `${way} asks for what a page of its kind has no use for`);
    lessons.forEach(file => asked.add(`${kind} ${file}`));
  }
  // What browsers have from the page before they do not ask for again; but each file of the list was asked for by some page.
  const files = new Set([...asked].map(each => each.slice(each.indexOf(' ') + 1)));
  const wanted = new Set(Object.values(KINDS).flatMap(({ may }) => may));
  assert.deepEqual([...wanted].filter(file => !files.has(file) && file !== 'program/favicon.svg'), [], 'the list names nothing that is not asked for');
});
