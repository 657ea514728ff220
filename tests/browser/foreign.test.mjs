// What strangers say and write: messages of other origins are not heard, and no name, link, file or translation of anyone's can put anything
// into a page but its letters.

import assert from 'node:assert/strict';
import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { anyone } from './anyone.mjs';
import { broken } from './broken.mjs';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { answer, rest } from './lesson.mjs';
import { listen } from './listen.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */

/** What would run, fetch or turn letters round, if it were taken for anything but text. */
const WILD = '"><img src=x onerror=document.wild=1><script>document.wild=1</script><svg onload=document.wild=1></svg>\u202Egnp.exe';
const ADDRESS = 'javascript:document.wild=1';

/** Holds that nothing of what is wild became more than text. @param {Stage['page']} page @param {string} where */
async function tame(page, where) {
  const found = await page.evaluate(() => {
    /** @type {string[]} */
    const found = [];
    /** @param {Document | ShadowRoot} root */
    const walk = root => {
      for (const each of root.querySelectorAll('*')) {
        if (each.matches('img[src="x"],[onerror],[onload],[onclick],script:not([src]):not([type="application/json"]),a[href^="javascript:" i]')) found.push(each.outerHTML.slice(0, 80));
        if (each.shadowRoot) walk(each.shadowRoot);
      }
    };
    walk(document);
    return [...found, ...('wild' in document ? ['it ran'] : [])];
  });
  assert.deepEqual(found, [], where);
}

/** A page of another origin in the page's frames: it says to everyone around it what only the page around a frame, or a frame, may say. */
const stranger = () => listen((_, response) => {
  response.writeHead(200, { 'content-type': 'text/html' });
  response.end(`<!doctype html><title>A stranger</title><link rel="icon" href="data:,"><script>
    const others = Array.from({ length: parent.length }, (_, at) => parent[at]);
    const all = location.pathname === '/left' ? [parent] : [parent, ...others].filter(each => each !== self);
    const say = () => { for (const to of all) for (const what of [{ outlean: 'set', name: 'theme', value: 'sunlight' }, { outlean: 'height', height: 1 }, { outlean: 'measure' }]) to.postMessage(what, '*'); };
    setInterval(say, 50);
    addEventListener('message', event => { if (event.data && ['height', 'event', 'measure'].includes(event.data.outlean)) document.title = 'it was answered'; });
  </script>`);
});

eachBrowser('a stranger in another frame is not heard', { folder: () => anyone(), allow: [/request elsewhere|target origin provided/] }, async ({ page, origin }) => {
  const other = await stranger();
  // The page that shows the course is of an origin of its own, so that all three differ.
  const host = await listen((request, response) => {
    response.writeHead(200, { 'content-type': 'text/html' });
    // A frame beside the course's, of the same origin as the page around it: it may say no more than others.
    if (request.url === '/beside') return response.end(`<!doctype html><title>Beside</title><script>
      setInterval(() => { for (let at = 0; at < parent.length; at++) parent[at].postMessage({ outlean: 'set', name: 'theme', value: 'sunlight' }, '*'); }, 50);
    </script>`);
    response.end(`<!doctype html><title>A host</title><link rel="icon" href="data:,"><script type="module" src="${origin}/course/frames.js"></script>
      <iframe id="course" width="800" height="321" src="${origin}/course/embed.html?show=05-lean/what-a-degree-does&host=http://${request.headers.host}"></iframe>
      <iframe id="stranger" src="${other.origin}/"></iframe><iframe src="/beside"></iframe>
      <iframe id="file" src="${origin}/course/frames.js"></iframe><iframe id="left" width="300" height="222" src="${origin}/course/embed.html?nothing"></iframe>`);
  });
  try {
    await page.goto(`${host.origin}/`);
    const course = await page.waitForFrame(frame => frame.url().startsWith(`${origin}/course/embed.html`));
    await course.waitForFunction(() => document.querySelector('outlean-choose')?.shadowRoot?.querySelector('#asks'));
    const heard = await page.waitForFrame(frame => frame.url().startsWith(other.origin));
    // A frame of the course that shows a stranger by now, and a file of its origin that is no such frame.
    await page.$eval('#left', (at, to) => /** @type {HTMLIFrameElement} */ (at).contentWindow?.location.replace(to), `${other.origin}/left`);
    const file = await page.waitForFrame(frame => frame.url() === `${origin}/course/frames.js`);
    await file.evaluate(() => parent.postMessage({ outlean: 'height', height: 2 }, '*'));
    // Twenty times it was said; the one who may say so is heard.
    await new Promise(done => setTimeout(done, 1000));
    assert.equal(await course.$eval('outlean-choose', at => at.getAttribute('theme')), null);
    const height = await page.$eval('#course', at => at.clientHeight);
    assert(height > 100 && height !== 321, `the frame is ${height} px high, which only its own page may say`);
    assert.notEqual(await page.$eval('#left', at => at.clientHeight), 1);
    assert.equal(await heard.evaluate(() => document.title), 'A stranger');
    await page.evaluate(to => /** @type {HTMLIFrameElement} */ (document.getElementById('course')).contentWindow?.postMessage({ outlean: 'set', name: 'theme', value: 'dark' }, to), origin);
    await course.waitForFunction(() => document.querySelector('outlean-choose')?.getAttribute('theme') === 'dark');
    // Whatever a frame says of its height, it has a bound.
    await course.evaluate(to => [NaN, '1e9', null, 1e9].forEach(height => parent.postMessage({ outlean: 'height', height }, to)), host.origin);
    await page.waitForFunction(() => /** @type {HTMLElement} */ (document.getElementById('course')).clientHeight > 90_000);
    assert.equal(await page.$eval('#course', at => at.clientHeight), 100_000);
  } finally {
    await host.stop();
    await other.stop();
  }
});

/** The site in words of a translator who put markup into each. */
const worded = broken(program => {
  const strings = join(program, 'strings/en');
  for (const name of readdirSync(strings).filter(name => name.endsWith('.json'))) {
    const words = Object.entries(JSON.parse(readFileSync(join(strings, name), 'utf8')));
    writeFileSync(join(strings, name), JSON.stringify(Object.fromEntries(words.map(([key, says]) => [key, `${says} ${WILD}`]))));
    for (const packed of ['.gz', '.br']) rmSync(join(strings, name + packed), { force: true });
  }
});

eachBrowser('what anyone writes into a link, a record, a plan or a translation stays text', { folder: worded }, async stage => {
  const { page, open } = stage;
  // A link.
  for (const said of [`figure=slate&lean=${encodeURIComponent(WILD)}`, `figure=slate&${encodeURIComponent(WILD)}=1`, `figure=${encodeURIComponent(WILD)}&lean=0.3`]) {
    await open('/');
    await open(`/05-lean/?seed=7#${said}`);
    await page.waitForFunction(() => document.querySelector('outlean-rig')?.shadowRoot?.querySelector('canvas,.fail'));
    await tame(page, said);
  }
  await open(`/05-lean/?seed=${encodeURIComponent(WILD)}&theme=${encodeURIComponent(WILD)}&units=${encodeURIComponent(WILD)}`);
  await page.waitForFunction(() => document.querySelector('outlean-rig')?.shadowRoot?.querySelector('canvas,.fail'));
  await tame(page, 'settings in an address');
  await answer(page, '4 kN');
  await page.$eval('>>> tbody .opener', key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await tame(page, 'words of a lesson');
  assert(await page.evaluate(() => document.querySelector('outlean-rig')?.shadowRoot?.textContent?.includes('<img src=x') ?? false), 'they are shown as they are written');
  await open('/05-lean/?view=speaker');
  await page.waitForSelector('.desk');
  await tame(page, 'words of a speaker');
  await open('/refresher/?seed=3');
  await page.waitForSelector('outlean-refresher[data-ready]');
  await tame(page, 'words of the refresher');
  // A record, in the database and in a file.
  const row = { time: 1_790_000_000, lesson: WILD.slice(0, 60), question: WILD.slice(0, 60), lesson_version: '5f', seed: 1, response: WILD, mark: { share: 1, verdict: 'right' }, seconds: 9, hints: 0, objective: WILD };
  const who = '=1+1<img src=x onerror=document.wild=1>';
  const record = JSON.stringify({ format: 'outlean-record', version: 2, learner: who, attempts: [row, { ...row, time: 1_790_000_001, objective: ADDRESS }], aside: [{ raw: WILD, why: { field: WILD, value: WILD, allowed: 'object' } }] });
  await open('/record/');
  await page.waitForSelector('outlean-record[data-ready]');
  await kept(page, [{ ...row, key: 'a', learner: who }]);
  const take = (/** @type {string} */ selector) => page.$eval(selector, (input, text) => {
    const files = new DataTransfer();
    files.items.add(new File([text], '<img src=x onerror=document.wild=1>.json', { type: 'application/json' }));
    /** @type {HTMLInputElement} */ (input).files = files.files;
    input.dispatchEvent(new Event('change'));
  }, record);
  await take('outlean-record [data-part=file]');
  await page.waitForFunction(() => document.querySelector('[data-part=said]')?.textContent);
  await page.$eval('[data-part=who]', (at, who) => { /** @type {HTMLInputElement} */ (at).value = who; }, who);
  await page.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
  await page.waitForFunction(() => document.querySelector('outlean-record caption')?.textContent?.includes('=1+1'));
  await tame(page, 'the record');
  assert.equal(await page.$eval('outlean-record', at => at.querySelectorAll('img').length), 0);
  // The class.
  await open('/class/');
  await page.waitForSelector('outlean-class[data-ready]');
  await take('outlean-class [data-part=file]');
  await page.waitForFunction(() => document.querySelector('outlean-class tbody td'));
  await tame(page, 'the class');
  // A plan: its names are all that is free in it.
  await open('/plan/');
  await page.waitForSelector('outlean-plan[data-ready]');
  await page.select('[data-part=example]', '0');
  await page.waitForSelector('.plan-form form:not([aria-busy])');
  const fields = await page.$$eval('.plan-form input[data-key^="plan."]', (all, wild) => all.filter(entry => /** @type {HTMLInputElement} */ (entry).type === 'text').map(entry => {
    /** @type {HTMLInputElement} */ (entry).value = wild;
    entry.dispatchEvent(new Event('input', { bubbles: true }));
    entry.dispatchEvent(new Event('change', { bubbles: true }));
    return /** @type {HTMLElement} */ (entry).dataset.key;
  }), WILD);
  assert(fields.length > 3, String(fields));
  await page.waitForSelector('.plan-form form:not([aria-busy])');
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await tame(page, 'the plan');
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  assert(await page.evaluate(() => document.querySelector('outlean-plan')?.textContent?.includes('<img src=x') ?? false), 'it is shown as it was written');
});
