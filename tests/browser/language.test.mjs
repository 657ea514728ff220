// Other languages. In one that nobody speaks, four tenths longer than English, every page says nothing but its own words and
// nothing is pushed out of it. In Spanish a lesson is read and answered, and every page links to its other language.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { answer, ready, rest, text } from './lesson.mjs';
import { outlean, root, target } from './place.mjs';
import { plainWords, pseudoLesson, pseudoWords } from './pseudo.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {Stage['page']} Page */

const folder = mkdtempSync(join(tmpdir(), 'language-'));
after(() => rmSync(folder, { recursive: true }));
const [lessons, assets, site] = ['lessons', 'www', 'site'].map(name => join(folder, name));
// A lesson with every kind of question and one with plates, each in the made language.
for (const name of ['02-lashing-the-head', '05-lean']) {
  cpSync(join(root, 'lessons', name), join(lessons, name), { recursive: true });
  mkdirSync(join(lessons, name, 'lang'), { recursive: true });
  const lesson = readFileSync(join(lessons, name, 'lesson.md'), 'utf8');
  writeFileSync(join(lessons, name, 'lang/qps.md'), pseudoLesson(lesson));
}
cpSync(join(root, 'www'), assets, { recursive: true });
mkdirSync(join(assets, 'strings/qps'));
for (const file of readdirSync(join(assets, 'strings/en'))) writeFileSync(join(assets, 'strings/qps', file), pseudoWords(readFileSync(join(assets, 'strings/en', file), 'utf8')));
execFileSync(outlean, ['build', '--lessons', lessons, '--assets', assets, '--program', join(target, 'program'), '--out', site]);

test('the made language is four tenths longer', () => {
  const length = (/** @type {string} */ language) => readdirSync(join(assets, 'strings', language)).flatMap(file => Object.values(JSON.parse(readFileSync(join(assets, 'strings', language, file), 'utf8')))).reduce((sum, text) => sum + text.replace(/\{\w+\}/g, '').length, 0);
  const ratio = length('qps') / length('en');
  assert(ratio > 1.37 && ratio < 1.5, `${ratio}`);
});

/** What is nobody's words: names, kinds of file, units of three letters and more, signs of functions. */
const NO_WORDS = new Set(['Outlean', 'English', 'CSV', 'JSON', 'TOML', 'lbf', 'deg', 'kPa', 'MPa', 'psi', 'sin', 'cos', 'tan']);

/** Words of names in the rig file that the planner opens. */
const NAMES = new Set([...readFileSync(join(root, 'crate/outlean/sites/slate-bench.toml'), 'utf8').matchAll(/^\s*(?:title|place|date|in_charge|name) = "(.*)"$/gm)].flatMap(([, name]) => plainWords(name)));

/** All text that can be seen in the page, shadow roots and pictures in it included, and names that are read out. @param {Page} page @param {string[]} except what holds text that is not ours */
const seen = (page, except = []) => page.evaluate(except => {
  /** @type {string[]} */
  const all = [];
  /** @param {Document | ShadowRoot | Element} from */
  const walk = from => {
    for (const node of from.childNodes) {
      if (node.nodeType === Node.TEXT_NODE) all.push(node.textContent ?? '');
      if (!(node instanceof Element) || except.some(selector => node.matches(selector)) || node.matches('script,style,template,math,[hidden],[lang=es],[lang=en]')) continue;
      const style = getComputedStyle(node);
      if (style.display === 'none' || style.visibility === 'hidden') continue;
      for (const name of ['aria-label', 'alt', 'title', 'placeholder', 'aria-valuetext', 'aria-roledescription']) all.push(node.getAttribute(name) ?? '');
      walk(node.shadowRoot ?? node);
    }
  };
  walk(document.body);
  return all.filter(text => text.trim());
}, except);

/** That no word of the page is a plain one, and nothing is wider than it. @param {Stage} stage @param {string} what @param {string[]} [except] @param {Set<string>} [names] */
async function ours({ page }, what, except, names = new Set()) {
  const texts = await seen(page, except);
  assert(texts.length > 10, `${what} says something`);
  const plain = texts.flatMap(text => plainWords(text).filter(word => !NO_WORDS.has(word) && !names.has(word)).map(word => `${word} in “${text.trim().slice(0, 120)}”`));
  assert.deepEqual([...new Set(plain)], [], `${what}: words that stand in no file of words`);
  const wide = await page.evaluate(() => {
    const { clientWidth, scrollWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return '';
    /** @param {Document | ShadowRoot} from @returns {Element[]} */
    const all = from => [...from.querySelectorAll('*')].flatMap(each => each.shadowRoot ? [each, ...all(each.shadowRoot)] : [each]);
    const out = all(document).filter(each => each.getBoundingClientRect().right > clientWidth + 0.5);
    return `${scrollWidth - clientWidth} px wider than the page: ${out.slice(-6).map(each => `<${each.localName} class="${each.className}"> ${each.textContent?.trim().slice(0, 60)}`).join('; ')}`;
  });
  assert.equal(wide, '', what);
}

for (const width of [320, 1280]) {
  eachBrowser(`nothing is said but words of files, and they may be longer, ${width} px`, { width, height: 900, folder: site }, async stage => {
    const { page, open, shot } = stage;
    await ready(stage, '/qps/05-lean/?seed=7');
    await ours(stage, 'a lesson');
    await answer(page, '3 kN');
    await page.$$eval('>>> details', all => all.forEach(each => { each.open = true; }));
    await page.$eval('>>> tbody .opener', opener => /** @type {HTMLElement} */ (opener).click());
    await rest(page);
    await ours(stage, 'a lesson, its working and an answer');
    await shot(`pseudo lesson ${width}`);
    for (const kind of ['choose', 'order', 'faults', 'set']) await page.$eval(`outlean-${kind}`, question => /** @type {any} */ (question).reveal());
    await rest(page);
    await ours(stage, 'questions and what is told of them');
    if (width === 1280) {
      await open('/qps/02-lashing-the-head/');
      await ours(stage, 'a lesson with plates');
    }
    await open('/qps/record/');
    await page.waitForSelector('outlean-record[data-ready]');
    await ours(stage, 'the record', ['input', 'datalist']);
    await open('/qps/class/');
    await page.waitForSelector('outlean-class[data-ready]');
    await page.click('[data-part=here]');
    await page.waitForSelector('outlean-class tbody');
    await ours(stage, 'the class', ['[data-part=files]']);
    await open('/qps/refresher/?seed=3');
    await page.waitForSelector('outlean-refresher[data-ready]');
    await ours(stage, 'the refresher');
    await page.click('[data-part=begin]');
    await page.waitForSelector('outlean-refresher section h2');
    await rest(page);
    await ours(stage, 'a question of the refresher');
    await open('/qps/');
    await page.waitForSelector('outlean-offline button');
    await ours(stage, 'the first page');
    await open('/qps/plan/');
    await page.waitForSelector('outlean-plan[data-ready]');
    await page.select('[data-part=example]', '0');
    // It is busy for a moment only, which may be over before one looks: all drawn is what lasts.
    await page.waitForFunction(() => /** @type {HTMLElement} */ (document.querySelector('outlean-plan')).dataset.surely === 'true');
    // Options are words of rig files.
    await ours(stage, 'the planner', ['option'], NAMES);
    await shot(`pseudo planner ${width}`);
  });
}

eachBrowser('a lesson in Spanish is read and answered', { width: 320, height: 700, scale: 2 }, async stage => {
  const { page, axe, shot, open, requests } = stage;
  await open('/05-lean/');
  await page.click('.facts a[hreflang=es]');
  await page.waitForFunction(() => document.documentElement.lang === 'es');
  await ready(stage, '/es/05-lean/?seed=7');
  assert.equal(await page.$eval('h1', at => at.textContent), 'La inclinación y su precio');
  await answer(page, '3,1 kN');
  assert.match(await text(page, '.answer'), /pata/);
  await shot('spanish answer 320');
  assert.deepEqual(await axe(), []);
  // Kept as an answer to the original, and told in the page's language.
  const about = 'Estimate the compression of a leg with the main line redirected at its foot.';
  assert.equal((await kept(page))[0].objective, about);
  await open('/es/class/');
  await page.waitForSelector('outlean-class[data-ready]');
  await page.click('[data-part=here]');
  await page.waitForSelector('outlean-class tbody');
  assert.match(await page.$eval('outlean-class tbody', at => at.textContent ?? ''), /La inclinación y su precio.*Estimar la compresión de una pata/s);
  assert.match(await page.$eval('footer', at => at.textContent ?? ''), /prueba de carga/);
  for (const way of ['', 'record/', 'refresher/', 'class/', 'plan/']) {
    await open(`/es/${way}`);
    const other = await page.$eval('.facts a[hreflang=en]', at => /** @type {HTMLAnchorElement} */ (at).pathname);
    assert.equal(other, `/${way}`);
  }
  // A refresher asks of all lessons, those that are there in English alone too.
  await open('/es/refresher/?seed=3');
  await page.waitForSelector('outlean-refresher[data-ready]');
  await page.click('[data-part=begin]');
  await page.waitForSelector('outlean-refresher section h2');
  const pages = requests.flatMap(address => new URL(address).pathname.match(/^(?:\/es)?\/\d\d-[a-z-]+\/$/) ?? []);
  assert(pages.includes('/es/01-reach-and-headroom/') && pages.includes('/02-lashing-the-head/'), pages.join());
  assert.equal(await page.$eval('outlean-refresher section [objective]', question => /** @type {HTMLElement} */ (question).lang), 'es');
});
