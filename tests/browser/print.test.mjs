// A sheet: the figure, its curves, every reading and the caution; nothing to press, and no theme of the screen.

import assert from 'node:assert/strict';
import { constants, inflateSync } from 'node:zlib';
import { eachBrowser } from './harness.mjs';
import { answer, LESSON, ready, rest, rig } from './lesson.mjs';
import { solved } from './native.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {Stage['page']} Page */

for (const [theme, dark] of /** @type {const} */ ([['system', true], ['dark', false], ['projector', false], ['sunlight', false]])) {
  eachBrowser(`printed from ${theme}${dark ? ' in the dark' : ''}`, { dark }, async stage => {
    const { page, browser } = stage;
    if (browser === 'firefox') return; // its driver cannot show a page as it is printed
    await ready(stage, `${LESSON}&theme=${theme}`);
    await answer(page, '4 kN');
    const still = await page.$$eval('outlean-rig >>> tbody tr', rows => rows.length);
    // A sheet of A4 between its margins.
    await page.setViewport({ width: 688, height: 1032 });
    await page.emulateMediaType('print');
    await rest(page);
    const sheet = await page.evaluate(() => {
      const figure = document.querySelector('outlean-rig');
      const root = /** @type {ShadowRoot} */ (figure?.shadowRoot);
      const seen = (/** @type {string} */ selector) => [...root.querySelectorAll(selector)].filter(each => each.checkVisibility() && each.getBoundingClientRect().height > 1).length;
      const side = /** @type {HTMLCanvasElement} */ (root.querySelector('.plate>canvas'));
      const dots = /** @type {CanvasRenderingContext2D} */ (side.getContext('2d')).getImageData(0, 0, side.width, side.height).data;
      let inked = 0;
      for (let at = 3; at < dots.length; at += 4) if (dots[at] > 128) inked++;
      return {
        rows: seen('tbody tr'),
        more: seen('details dd'),
        canvases: seen('.plate>canvas,.curves>canvas'),
        pressed: seen('.keys button,.views button,.head,summary'),
        projector: figure?.hasAttribute('projector'),
        paper: getComputedStyle(document.documentElement).backgroundColor,
        settings: document.querySelector('.settings')?.checkVisibility(),
        caution: document.querySelector('.caution')?.checkVisibility() && getComputedStyle(/** @type {Element} */ (document.querySelector('.caution'))).display,
        height: figure?.getBoundingClientRect().height ?? 0,
        inked,
        beyond: (root.querySelector('table')?.getBoundingClientRect().right ?? 0) - (figure?.getBoundingClientRect().right ?? 0),
      };
    });
    assert(sheet.rows === still && still >= 8, `${sheet.rows} of ${still} rows`);
    assert(sheet.more >= 8, `${sheet.more} more readings`);
    assert.equal(sheet.canvases, 3);
    assert.equal(sheet.pressed, 0);
    assert.equal(sheet.projector, false);
    assert.equal(sheet.paper, 'rgb(255, 255, 255)');
    assert.equal(sheet.settings, false);
    assert.equal(sheet.caution, 'table-footer-group');
    assert(sheet.height > 500 && sheet.height < 980, `${sheet.height} px stand on one sheet`);
    assert(sheet.beyond <= 1, `the readings end ${sheet.beyond} px beyond the sheet`);
    assert(sheet.inked > 2000, `${sheet.inked} dots of ink`);
    await page.emulateMediaType('screen');
    await rest(page);
    assert.equal(await page.$eval('>>> details:has(dl)', more => /** @type {HTMLDetailsElement} */ (more).open), false, 'folded away again');
  });
}

eachBrowser('the key stands on a page of its own, and only on paper', async stage => {
  const { page, browser } = stage;
  if (browser === 'firefox') return; // as above
  await ready(stage);
  assert.equal(await page.$('.key-page'), null);
  const shown = await rig(page);
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await page.emulateMediaType('print');
  await rest(page);
  const { title, keys, prompts, breaks } = await page.evaluate(() => {
    const sheet = /** @type {HTMLElement} */ (document.querySelector('body > .key-page:last-child'));
    const asked = [...document.querySelectorAll('outlean-estimate,outlean-choose,outlean-order,outlean-faults,outlean-set')];
    return {
      title: sheet.querySelector('h2')?.textContent,
      breaks: getComputedStyle(sheet).breakBefore,
      keys: [...sheet.querySelectorAll('li')].map(item => item.textContent ?? ''),
      prompts: asked.map(each => each.shadowRoot?.querySelector('#asks')?.textContent ?? 'none'),
    };
  });
  assert.equal(title, 'Key: Lean and its price');
  assert.equal(breaks, 'page');
  assert.equal(keys.length, prompts.length);
  keys.forEach((key, number) => assert(key.startsWith(prompts[number]) && key.length > prompts[number].length + 3, key));
  const leg = String(shown['line.path']).includes('left') ? 'left' : 'right';
  const newtons = solved(shown).solution.balance.stands.compression[leg];
  assert(keys[0].includes((newtons / 1000).toFixed(2)), `${keys[0]} against ${newtons} N`);
  await page.emulateMediaType('screen');
  assert.equal(await page.$eval('.key-page', key => key.checkVisibility()), false);
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  assert.equal(await page.$('.key-page'), null);
});

/** How many pages a PDF has; what says so may stand packed. @param {Buffer} bytes */
function pages(bytes) {
  const text = bytes.toString('latin1');
  const unpacked = [...text.matchAll(/stream\r?\n/g)].map(({ index, 0: head }) => {
    try {
      return inflateSync(bytes.subarray(index + head.length), { finishFlush: constants.Z_SYNC_FLUSH }).toString('latin1');
    } catch {
      return ''; // no such stream
    }
  });
  return [text, ...unpacked].join('\n').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

const KINDS = ['estimate', 'choose', 'order', 'faults', 'set'];

/** The page as it is printed. A driver that cannot show that is given the rules for paper as rules for the screen. @param {Stage} stage */
async function onPaper({ page, browser }) {
  await page.setViewport({ width: 688, height: 1032 });
  if (browser === 'chromium') await page.emulateMediaType('print');
  else {
    await page.evaluate(() => {
      const turned = (/** @type {any} */ rules) => {
        for (const rule of rules) {
          if (rule.styleSheet) turned(rule.styleSheet.cssRules);
          else if (rule instanceof CSSMediaRule && /print|screen/.test(rule.media.mediaText)) rule.media.mediaText = /print/.test(rule.media.mediaText) ? 'all' : 'not all';
          else if (rule.cssRules) turned(rule.cssRules);
        }
      };
      const roots = [...document.querySelectorAll('*')].flatMap(each => each.shadowRoot ?? []);
      for (const sheet of new Set([...document.styleSheets, ...roots.flatMap(root => root.adoptedStyleSheets)])) turned(sheet.cssRules);
    });
  }
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await rest(page);
}

/** What a question of each kind shows. @param {Page} page */
const asPrinted = page => page.evaluate(kinds => kinds.map(kind => {
  const question = /** @type {any} */ (document.querySelector(`outlean-${kind}`));
  const root = /** @type {ShadowRoot} */ (question.shadowRoot);
  const all = (/** @type {string} */ selector) => /** @type {HTMLElement[]} */ ([...root.querySelectorAll(selector)]).filter(each => each.checkVisibility() && each.getBoundingClientRect().height > 1);
  const made = (/** @type {string} */ selector, /** @type {string} */ part) => all(selector).map(each => {
    const { content, width, height, borderBottomWidth } = getComputedStyle(each, part);
    return content === '""' && borderBottomWidth !== '0px' ? { width: Number.parseFloat(width), height: Number.parseFloat(height) } : { width: 0, height: 0 };
  });
  const drawn = (/** @type {string} */ selector) => all(selector).map(each => ({ width: each.getBoundingClientRect().width, height: each.getBoundingClientRect().height }));
  const box = /** @type {Element} */ (root.querySelector('section')).getBoundingClientRect();
  const { prompt, answer } = question.known;
  const view = kind === 'estimate' ? { options: [] } : question.asked.view('metric');
  return {
    kind, prompt, answer,
    text: /** @type {HTMLElement} */ (root.querySelector('section')).innerText,
    entries: all('.entries li').map(each => each.innerText.trim()),
    options: view.options,
    may: view.may ?? [],
    room: kind === 'estimate' ? drawn('#mark') : kind === 'order' ? made('.steps li', '::before') : kind === 'set' ? made('form.set ul:not(.entries) li', '::after') : drawn('.entries input'),
    marks: all('.answer,.explanation,.source,.tick,button,.grip,.hint').length,
    beyond: box.right - (document.querySelector('main')?.getBoundingClientRect().right ?? 0),
    height: box.height,
    whole: getComputedStyle(question).breakInside,
  };
}), KINDS);

eachBrowser('a question of each kind is printed whole, with room for an answer; the key stands on its own sheet', async stage => {
  const { page, shot } = stage;
  await ready(stage);
  await page.waitForFunction(kinds => kinds.every(kind => /** @type {any} */ (document.querySelector(`outlean-${kind}`))?.known), {}, KINDS);
  await onPaper(stage);
  const sheet = await asPrinted(page);
  const keys = await page.$$eval('.key-page li', all => all.map(each => each.textContent ?? ''));
  for (const { kind, prompt, answer, text, entries, options, may, room, marks, beyond, height, whole } of sheet) {
    await page.$eval(`outlean-${kind}`, each => each.scrollIntoView());
    await shot(`printed ${kind}`);
    assert(prompt.length > 20 && text.includes(prompt.trim()), `${kind}: what is asked is there: ${text}`);
    assert.deepEqual(entries, options, `${kind}: its entries, and nothing beside them`);
    for (const each of may) assert(text.includes(each), `${kind}: ${each}`);
    const wanted = kind === 'estimate' ? 1 : kind === 'set' ? may.length : options.length;
    assert(wanted > 0);
    assert.equal(room.length, wanted, `${kind}: room for each answer`);
    const [width, least] = kind === 'estimate' || kind === 'set' ? [90, 20] : [18, 18];
    for (const each of room) assert(each.width >= width && each.height >= least, `${kind}: ${each.width} by ${each.height} px are no room`);
    assert.equal(marks, 0, `${kind}: nothing of the answer, nothing to press`);
    assert(answer.length > 1 && !text.includes(answer), `${kind}: its answer is not beside it`);
    assert.equal(keys.filter(key => key.startsWith(prompt) && key.endsWith(answer)).length, 1, `${kind}: in the key, once`);
    assert(beyond <= 1, `${kind}: ${beyond} px beyond the sheet`);
    assert(height < 980 && whole === 'avoid', `${kind}: ${height} px on one sheet`);
  }
  const after = await page.evaluate(kinds => {
    const key = /** @type {HTMLElement} */ (document.querySelector('.key-page'));
    const last = Math.max(...kinds.map(kind => /** @type {Element} */ (document.querySelector(`outlean-${kind}`)).getBoundingClientRect().bottom));
    return [key.checkVisibility(), getComputedStyle(key).breakBefore, key.getBoundingClientRect().top >= last, key.matches('body > :last-child')];
  }, KINDS);
  assert.deepEqual(after, [true, 'page', true, true]);
});

eachBrowser('what was answered is printed as it was marked, without room for another', async stage => {
  const { page, shot } = stage;
  await ready(stage);
  await page.waitForFunction(kinds => kinds.every(kind => /** @type {any} */ (document.querySelector(`outlean-${kind}`))?.known), {}, KINDS);
  await page.evaluate(kinds => { for (const kind of kinds) /** @type {any} */ (document.querySelector(`outlean-${kind}`)).reveal(); }, KINDS);
  await onPaper(stage);
  for (const { kind, room, text, answer } of await asPrinted(page)) {
    await page.$eval(`outlean-${kind}`, each => each.scrollIntoView());
    await shot(`printed ${kind} once marked`);
    assert(text.includes(answer), `${kind}: ${answer}`);
    if (kind === 'order' || kind === 'set') assert(room.every(({ width }) => width === 0), `${kind}: ${room[0]?.width} px of room`);
  }
});

eachBrowser('the key takes a sheet of its own of those that are printed', async stage => {
  const { page } = stage;
  await ready(stage);
  const sheets = async () => pages(Buffer.from(await page.pdf({ format: 'A4' })));
  const all = await sheets();
  assert(all > 2, `${all} sheets`);
  await page.evaluate(() => addEventListener('beforeprint', () => document.querySelector('.key-page')?.remove()));
  assert.equal(all, (await sheets()) + 1);
});
