// Elements on anyone's page: they start from one line, alone or many, stay what they are when moved, hold on to nothing when gone, and
// say why where they cannot start. The page for frames: it is as high as it says, and hears nobody but the page around it.

import assert from 'node:assert/strict';
import { anyone } from './anyone.mjs';
import { eachBrowser } from './harness.mjs';
import { rest } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {import('puppeteer-core').Frame | Stage['page']} Place */

const pages = () => anyone();
/** @type {Awaited<ReturnType<typeof anyone>> | undefined} */
let course;
/** Pages of one origin, the course of another. */
async function apart() {
  course = await anyone();
  const { origin, stop } = await anyone({ course: course.origin });
  return { origin, stop: async () => { await stop(); await course?.stop(); } };
}

/** Waits until figures are drawn. @param {Place} place @param {...string} ids */
const drawn = (place, ...ids) =>
  place.waitForFunction((/** @type {string[]} */ ids) => ids.every(id => document.getElementById(id)?.shadowRoot?.querySelector('canvas')), { timeout: 20_000 }, ids);

/** What a property of an element is. @param {Place} place @param {string} id @param {string} path */
const of = (place, id, path) => place.evaluate((id, path) => path.split('.').reduce((/** @type {any} */ at, key) => at?.[key], document.getElementById(id)), id, path);

eachBrowser('one line makes a figure, and nothing else of the page is touched', { folder: pages }, async stage => {
  const { page, open, axe, shot, requests } = stage;
  await open('/figure/');
  await drawn(page, 'frame');
  await rest(page);
  await shot('embed figure');
  assert.match(await of(page, 'frame', 'told.sentence_text'), /leaning 22/);
  // The caution stands in sight.
  assert(await page.$eval('outlean-rig >>> .caution', caution => caution.checkVisibility()));
  const left = await page.evaluate(async () => ({
    names: Object.getOwnPropertyNames(globalThis).filter(name => !/ariaQuerySelector/.test(name) && !/** @type {any} */ (document).names.includes(name)),
    root: { ...document.documentElement.dataset },
    kept: localStorage.length + (await indexedDB.databases()).length,
    body: document.body.children.length,
  }));
  assert.deepEqual(left, { names: [], root: {}, kept: 0, body: 1 });
  assert.equal(requests.filter(each => each.endsWith('.wasm')).length, 1);
  // What a program sets, and how the page hears of it.
  const told = await page.evaluate(() => new Promise(done => {
    const figure = /** @type {any} */ (document.getElementById('frame'));
    document.addEventListener('outlean-rest', event => done([event.composed, /** @type {CustomEvent} */ (event).detail.lean, figure.rig.lean]));
    figure.rig = { ...figure.rig, lean: 0.3 };
  }));
  assert.deepEqual(told, [true, 0.3, 0.3]);
  // A theme and units are typed, and changed; without a theme it is in the scheme of the page.
  const paper = () => page.$eval('outlean-rig', figure => [/** @type {HTMLElement} */ (figure).dataset.theme, getComputedStyle(figure).getPropertyValue('--paper'), getComputedStyle(figure).backgroundColor]);
  assert.deepEqual(await paper(), ['light', '#F5F7F2', 'rgb(245, 247, 242)']);
  await page.evaluate(() => { document.documentElement.style.colorScheme = 'dark'; });
  await page.waitForFunction(() => document.getElementById('frame')?.dataset.theme === 'dark');
  assert.deepEqual(await paper(), ['dark', '#11191E', 'rgb(17, 25, 30)']);
  await rest(page);
  await shot('embed figure dark');
  await page.$eval('outlean-rig', figure => { figure.setAttribute('theme', 'sunlight'); figure.setAttribute('units', 'us'); });
  await page.waitForFunction(() => document.getElementById('frame')?.dataset.theme === 'sunlight');
  await rest(page);
  assert.equal((await paper())[1], '#FFFFFF');
  assert.match(await of(page, 'frame', 'told.sentence_text'), /lb/);
  await page.evaluate(() => { document.documentElement.style.colorScheme = ''; });
  await page.$eval('outlean-rig', figure => figure.removeAttribute('theme'));
  assert.equal((await paper())[0], 'light');
  await rest(page);
  assert.deepEqual(await axe(), []);
  // Another source is another figure.
  await page.$eval('outlean-rig', figure => figure.setAttribute('src', '08-guys/#test-floor'));
  await page.waitForFunction(() => { const { told } = /** @type {any} */ (document.getElementById('frame')); return told && !told.sentence_text.includes('17.2'); });
});

eachBrowser('many elements share one program and nothing else, through moves and removals', { folder: pages, height: 3000 }, async stage => {
  const { page, open, requests, browser, shot } = stage;
  await open('/many/');
  await drawn(page, 'one', 'two', 'three');
  await page.waitForFunction(() => ['estimate', 'choose', 'order', 'faults', 'set'].every(id => document.getElementById(id)?.shadowRoot?.querySelector('#asks')));
  await rest(page);
  await shot('embed many');
  for (const file of ['outlean_bg.wasm', 'page.json', 'figure.css']) assert.equal(requests.filter(each => each.endsWith(file)).length, 1, file);
  // The page's names and rules are not theirs.
  const looks = await page.$eval('#one', one => {
    const root = /** @type {ShadowRoot} */ (one.shadowRoot);
    return [getComputedStyle(one).getPropertyValue('--paper'), ...['.plate', 'table', 'canvas'].map(part => getComputedStyle(/** @type {Element} */ (root.querySelector(part))).borderTopWidth), getComputedStyle(/** @type {Element} */ (root.querySelector('.plate'))).display];
  });
  assert.deepEqual(looks, ['#F5F7F2', '0px', '0px', '0px', 'block']);
  // Each has its own units, theme, state.
  assert.match(await of(page, 'two', 'told.sentence_text'), /lb/);
  assert.match(await of(page, 'one', 'told.sentence_text'), /kg/);
  const [one, two] = [await of(page, 'one', 'rig.lean'), await of(page, 'two', 'rig.lean')];
  await page.evaluate(() => /** @type {any} */ (document.getElementById('two')).act({ kind: 'set', key: 'lean', value: 0.5 }));
  await rest(page);
  assert.deepEqual([await of(page, 'one', 'rig.lean'), await of(page, 'two', 'rig.lean')], [one, 0.5]);
  assert.notEqual(two, 0.5);
  // An event comes once, and out of every root.
  const marked = await page.evaluate(() => {
    /** @type {unknown[]} */
    const heard = [];
    document.addEventListener('outlean-marked', event => heard.push([/** @type {Element} */ (event.target).id, event.composed, Object.keys(/** @type {CustomEvent} */ (event).detail).sort().join()]));
    const root = /** @type {ShadowRoot} */ (document.getElementById('choose')?.shadowRoot);
    root.querySelector('input')?.click();
    /** @type {HTMLElement} */ (root.querySelector('button.first')).click();
    /** @type {HTMLElement} */ (root.querySelector('button.first')).click();
    return heard;
  });
  assert.deepEqual(marked, [['choose', true, 'hints,seconds,seed,share,typed,verdict']]);
  // By a result stands the caution.
  assert.match(await page.$eval('#choose', at => { const caution = at.shadowRoot?.querySelector('.answer .caution'); return caution?.checkVisibility() ? caution.textContent ?? '' : ''; }), /^A teaching aid/);
  // Moved at once, and taken out and put back: as it was, drawn once.
  const again = await page.evaluate(async () => {
    let ready = 0;
    document.addEventListener('outlean-ready', () => { ready += 1; });
    const two = /** @type {any} */ (document.getElementById('two'));
    document.body.prepend(two);
    await new Promise(done => setTimeout(done, 100));
    two.remove();
    two.rig = { ...two.rig, lean: 0.4 };
    await new Promise(done => setTimeout(done, 600));
    document.body.append(two);
    await new Promise(done => setTimeout(done, 300));
    two.act({ kind: 'set', key: 'lean', value: 0.35 });
    await new Promise(done => setTimeout(done, 300));
    return [ready, two.rig.lean, two.shadowRoot.querySelector('.value[data-key=lean]').getAttribute('aria-valuenow'), two.shadowRoot.querySelectorAll('canvas').length];
  });
  assert.deepEqual(again, [0, 0.35, '0.35', 5]);
  // One that is out of the page does nothing.
  const frames = await page.evaluate(async () => {
    const out = /** @type {any} */ (document.getElementById('three'));
    out.removeAttribute('veiled');
    out.act({ kind: 'play' });
    out.remove();
    for (const each of document.querySelectorAll('body>*')) each.remove();
    let asked = 0;
    const usual = globalThis.requestAnimationFrame;
    globalThis.requestAnimationFrame = then => { asked += 1; return usual(then); };
    out.act({ kind: 'set', key: 'lean', value: 0.4 });
    await new Promise(done => setTimeout(done, 500));
    globalThis.requestAnimationFrame = usual;
    return asked;
  });
  assert.equal(frames, 0);
  if (browser === 'chromium') await forgotten(page);
});

/** Figures that came and went hold no memory: neither they nor what the program keeps of them. @param {Stage['page']} page */
async function forgotten(page) {
  const session = await page.createCDPSession();
  await page.evaluate(() => { /** @type {any} */ (document).left = []; });
  /** Puts some in, waits until they are drawn, takes them out. @param {number} count */
  const round = async count => {
    await page.evaluate(async count => {
      const all = Array.from({ length: count }, (_, at) => Object.assign(document.createElement('outlean-rig'), { id: `r${at}` }));
      for (const each of all) {
        each.setAttribute('src', '05-lean/#slate');
        /** @type {any} */ (document).left.push(new WeakRef(each));
      }
      const ready = all.map(each => new Promise(done => each.addEventListener('outlean-ready', done, { once: true })));
      document.body.append(...all);
      await Promise.all(ready);
      await new Promise(done => setTimeout(done, 100));
      for (const each of all) each.remove();
    }, count);
    for (let turn = 0; turn < 3; turn++) {
      await page.evaluate(() => new Promise(done => setTimeout(done, 200)));
      await session.send('HeapProfiler.collectGarbage');
    }
  };
  await round(4);
  await round(4);
  const alive = await page.evaluate(() => /** @type {WeakRef<Element>[]} */ (/** @type {any} */ (document).left).filter(each => each.deref()).length);
  assert.equal(alive, 0, `${alive} of 8 figures are still there`);
}

/** @type {[string, RegExp][]} */
const FAULTS = [
  ['absent', /no WebAssembly.*newer browser/],
  ['fetch', /program.*did not arrive.*reload/],
  ['type', /wrong type.*application\/wasm/],
  ['forbidden', /policy forbids.*'wasm-unsafe-eval'/],
  ['compile', /cut off or damaged.*Reload/],
  ['version', /different versions.*Reload/],
  ['words', /words did not arrive.*Reload/],
  ['style', /style.*did not arrive.*reload/],
  ['canvas', /no canvas.*Close/],
];

const NOISE = [/404/, /policy: .*wasm-eval|Content.Security.Policy|unsafe-eval|wasm-unsafe-eval/i];

eachBrowser('whatever keeps a figure from starting is named, with what to do, and a still figure is in its place', { folder: pages, allow: NOISE }, async stage => {
  const { page, open, origin, shot } = stage;
  await open('/typed/');
  await page.evaluate((/** @type {string[]} */ names) => {
    /** @type {any} */ (document).failed = {};
    for (const name of names) {
      const frame = document.createElement('iframe');
      frame.name = name;
      frame.src = `/fault-${name}/`;
      document.body.append(frame);
    }
  }, FAULTS.map(([name]) => name));
  for (const [name, said] of FAULTS) {
    const frame = await page.waitForFrame(frame => frame.url() === `${origin}/fault-${name}/`);
    await frame.waitForFunction(() => document.getElementById('frame')?.shadowRoot?.querySelector('.fail'), { timeout: 20_000 }).catch(why => { throw new Error(`${name}: ${why}`); });
    const [text, picture, numbers] = await frame.$eval('#frame', at => {
      const root = /** @type {ShadowRoot} */ (at.shadowRoot);
      const picture = /** @type {HTMLImageElement} */ (root.querySelector('img'));
      return [root.querySelector('.fail')?.textContent ?? '', picture.checkVisibility() ? picture.src : '', root.querySelector('table')?.textContent ?? ''];
    });
    assert.match(text, said, name);
    assert.match(picture, /\/slate\.svg$/, name);
    assert.match(numbers, /What is set up.*Load.*260/s, name);
    if (name !== 'style' && name !== 'canvas') {
      await frame.waitForFunction(() => document.getElementById('choose')?.shadowRoot?.querySelector('.fail'));
      // Said once aloud, and the question can be read.
      assert.equal(await frame.evaluate(() => [...document.querySelectorAll('*')].filter(at => at.shadowRoot?.querySelector('.fail[role=alert]')).length), 1, name);
      assert(await frame.$eval('#choose', at => (at.shadowRoot?.textContent ?? '').length > 200), name);
    }
  }
  await shot('embed faults');
  // What is typed wrongly.
  const wrong = /** @type {[string, RegExp][]} */ ([
    ['units', /units is “imperial”; allowed is: metric, us\./],
    ['theme', /theme is “drak”; allowed is: light, dark, projector, sunlight\./],
    ['seed', /seed is “seven”; allowed is: 0 … 999999999\./],
    ['elsewhere', /src is “https:\/\/elsewhere\.example\/05-lean\/#slate”; allowed is: http/],
    ['missing', /99-nowhere\/#slate names did not arrive, or is not there: .*404/],
    ['unnamed', /names did not arrive, or is not there: <outlean-rig id="what-a-degree-does">/],
    ['rig', /cannot be computed: .*legs\.left\.length/],
    ['empty', /stands no rig or question/],
    ['question', /question could not be put/],
  ]);
  for (const [id, said] of wrong) {
    await page.waitForFunction(id => document.getElementById(id)?.shadowRoot?.querySelector('.fail'), {}, id);
    assert.match(await page.$eval(`#${id}`, at => at.shadowRoot?.querySelector('.fail')?.textContent ?? ''), said, id);
  }
  assert(await page.$eval('#rig .own', own => own.checkVisibility()));
  // Put right, it starts.
  await page.$eval('#units', at => at.setAttribute('units', 'us'));
  await drawn(page, 'units');
});

eachBrowser('a course of another origin works in elements and frames, and frames hear only their own page', { folder: apart, allow: [/request elsewhere/] }, async stage => {
  const { page, open, origin, shot } = stage;
  await open('/foreign/');
  await drawn(page, 'frame');
  const from = course?.origin ?? assert.fail();
  // In a page whose language has no words here it speaks English, and asks for no others.
  assert.match(await of(page, 'frame', 'told.sentence_text'), /leaning 22/);
  await page.evaluate((from, origin) => {
    const put = (/** @type {string} */ id, /** @type {string} */ query) => {
      const frame = document.createElement('iframe');
      Object.assign(frame, { id, name: id, src: `${from}/course/embed.html?${query}` });
      frame.style.cssText = 'display:block;width:700px;height:50px;border:3px solid';
      document.body.append(frame);
    };
    /** @type {any} */ (document).heard = [];
    addEventListener('message', ({ origin, source, data }) => {
      const name = [...document.querySelectorAll('iframe')].find(each => each.contentWindow === source)?.id;
      /** @type {any} */ (document).heard.push([name, origin, data]);
    });
    put('right', `show=05-lean/what-a-degree-does&seed=7&units=us&host=${origin}`);
    put('other', `show=05-lean/what-a-degree-does&seed=7&host=https://other.example`);
    put('bad', `show=05-lean&theme=projector&units=yards&seed=x&colour=red&host=${origin}`);
    put('gone', `show=05-lean/nothing&host=${origin}`);
  }, from, origin);
  const frame = async (/** @type {string} */ id) => /** @type {import('puppeteer-core').Frame} */ (await (await page.waitForSelector(`#${id}`))?.contentFrame());
  const right = await frame('right');
  await right.waitForFunction(() => document.querySelector('outlean-choose')?.shadowRoot?.querySelector('#asks'), { timeout: 20_000 });
  // A frame of another origin that is out of sight is not drawn.
  await page.$eval('#right', at => at.scrollIntoView());
  const height = () => page.$eval('#right', at => at.clientHeight);
  /** The height of the frame, once it is that of what is in it. */
  const fitted = async () => {
    for (const until = Date.now() + 5000; ;) {
      const [outside, inside] = [await height(), await right.evaluate(() => Math.ceil(document.documentElement.getBoundingClientRect().height))];
      if (outside === inside) return outside;
      assert(Date.now() < until, `${outside} px around ${inside} px`);
      await new Promise(done => setTimeout(done, 50));
    }
  };
  const before = await fitted();
  assert(before > 200);
  // Narrower it is higher, and an answer makes it higher.
  await page.$eval('#right', at => { /** @type {HTMLElement} */ (at).style.width = '340px'; });
  const narrow = await fitted();
  assert(narrow > before, `${narrow} after ${before}`);
  await right.evaluate(() => {
    const root = /** @type {ShadowRoot} */ (document.querySelector('outlean-choose')?.shadowRoot);
    root.querySelector('input')?.click();
    /** @type {HTMLElement} */ (root.querySelector('button.first')).click();
  });
  await page.waitForFunction(() => /** @type {any} */ (document).heard.some((/** @type {any[]} */ [name, , data]) => name === 'right' && data.name === 'outlean-marked' && data.detail.seed === 7));
  assert((await fitted()) > narrow);
  // What it does not know it does not heed; what it knows it does.
  const theme = () => right.$eval('outlean-choose', at => [at.getAttribute('theme'), at.getAttribute('units')]);
  const post = (/** @type {string} */ id, /** @type {unknown} */ what) => page.evaluate((id, what, from) => /** @type {HTMLIFrameElement} */ (document.getElementById(id)).contentWindow?.postMessage(what, from), id, what, from);
  for (const what of ['measure', null, 7, { outlean: 'eat' }, { outlean: 'set', name: 'src', value: 'x' }, { outlean: 'set', name: 'theme', value: 'drak' }, { outlean: 'set', name: 'units' }]) await post('right', what);
  await post('right', { outlean: 'set', name: 'theme', value: 'dark' });
  await right.waitForFunction(() => document.querySelector('outlean-choose')?.getAttribute('theme') === 'dark');
  assert.deepEqual(await theme(), ['dark', 'us']);
  // The page around the other is not the one that it is for.
  const other = await frame('other');
  await other.waitForFunction(() => document.querySelector('outlean-choose')?.shadowRoot?.querySelector('#asks'));
  await post('other', { outlean: 'measure' });
  await post('other', { outlean: 'set', name: 'theme', value: 'dark' });
  // Nor does the page take a height from whom it does not show.
  const fixed = await height();
  await page.evaluate(from => {
    const right = /** @type {HTMLIFrameElement} */ (document.getElementById('right')).contentWindow;
    const data = { outlean: 'height', height: 1 };
    for (const [origin, source] of /** @type {const} */ ([['https://other.example', right], [from, self]])) dispatchEvent(Object.assign(new Event('message'), { origin, source, data }));
  }, from);
  // Nor the frame a theme, from whom it is not for.
  await right.evaluate(origin => {
    const data = { outlean: 'set', name: 'theme', value: 'sunlight' };
    for (const [from, source] of /** @type {const} */ ([['https://other.example', parent], [origin, self]])) dispatchEvent(Object.assign(new Event('message'), { origin: from, source, data }));
  }, origin);
  await page.evaluate(() => new Promise(done => setTimeout(done, 300)));
  assert.deepEqual(await theme(), ['dark', 'us']);
  assert.equal(await other.$eval('outlean-choose', at => at.getAttribute('theme')), null);
  assert.equal(await page.$eval('#other', at => at.clientHeight), 50);
  assert.equal(await height(), fixed);
  const heard = await page.evaluate(() => /** @type {any} */ (document).heard);
  assert.deepEqual(heard.filter((/** @type {any[]} */ [name, origin]) => name === 'other' || (name && ![from, 'https://other.example'].includes(origin))), []);
  // Bad values are named, all of them.
  const said = async (/** @type {string} */ id) => (await frame(id)).waitForSelector('[role=alert]').then(at => at?.evaluate(place => place.textContent ?? ''));
  const bad = await said('bad');
  for (const part of [/show is “05-lean”; allowed is: LESSON\/ID/, /theme is “projector”; allowed is: light, dark, sunlight/, /units is “yards”; allowed is: metric, us/, /seed is “x”/, /no setting “colour”. It has: show, theme, units, seed, host/]) assert.match(bad ?? '', part);
  assert.match((await said('gone')) ?? '', /05-lean\/nothing is no figure or question/);
  await shot('embed frames');
});

eachBrowser('the examples of a built course are what is said of them', { folder: pages }, async ({ page, open, axe }) => {
  await open('/figure/examples/question.html');
  await drawn(page, 'frame');
  await page.waitForFunction(() => document.getElementById('predict')?.shadowRoot?.querySelector('#asks') && /** @type {any} */ (document.getElementById('frame')).told.veiled);
  await open('/figure/examples/frame.html');
  const frame = /** @type {import('puppeteer-core').Frame} */ (await (await page.waitForSelector('iframe'))?.contentFrame());
  await drawn(frame, 'slate');
  assert.match(await of(frame, 'slate', 'told.sentence_text'), /lb/);
  await page.waitForFunction(() => { const frame = /** @type {HTMLIFrameElement} */ (document.querySelector('iframe')); return frame.clientHeight !== 900 && frame.clientHeight === Math.ceil(frame.contentDocument?.documentElement.getBoundingClientRect().height ?? 0); });
  await open('/figure/examples/figure.html');
  await drawn(page, 'frame');
  assert.deepEqual(await axe(), []);
});
