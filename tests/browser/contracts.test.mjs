// What page authors are told of the elements is what they do: attributes are read, events come once, parts are there, colours are used.

import { Ajv } from 'ajv';
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { test } from 'node:test';
import { anyone } from './anyone.mjs';
import { files, manifest } from '../contracts.mjs';
import { eachBrowser } from './harness.mjs';
import { rest } from './lesson.mjs';
import { root } from './place.mjs';
import { scratch } from './scratch.mjs';

const { declarations } = manifest().modules[0];
/** @param {string} tag */
const declared = tag => declarations.find(each => each.tagName === tag) ?? assert.fail(tag);
/** @param {{ name: string }[]} all */
const names = all => all.map(({ name }) => name).sort();

test('manifest and types are those of the elements as they stand', () => {
  for (const [name, text] of Object.entries(files())) {
    assert.equal(readFileSync(join(root, 'www/types', name), 'utf8'), text, `www/types/${name} is not up to date: node tests/contracts.mjs`);
  }
});

test('the manifest is valid by its schema', () => {
  const schema = JSON.parse(readFileSync(createRequire(import.meta.url).resolve('custom-elements-manifest/schema.json'), 'utf8'));
  const valid = new Ajv({ strict: false, allErrors: true }).compile(schema);
  assert(valid(JSON.parse(readFileSync(join(root, 'www/types/custom-elements.json'), 'utf8'))), JSON.stringify(valid.errors));
  for (const { tagName, description, members, attributes, events, slots, cssParts, cssProperties } of declarations) {
    assert(description, tagName);
    for (const each of [...members, ...attributes, ...events, ...slots, ...cssParts, ...cssProperties]) assert(each.description, `${tagName}: ${each.name}`);
  }
});

test('the types compile, and hold a page to what is promised', () => {
  const { folder } = scratch();
  const file = join(folder, 'page.ts');
  const compiled = (/** @type {string} */ code) => {
    writeFileSync(file, `import '${join(root, 'www/types/elements')}';\n${code}`);
    const how = ['--noEmit', '--strict', '--types', '', '--target', 'ES2022', '--module', 'ESNext', '--moduleResolution', 'bundler', '--lib', 'ES2022,DOM'];
    try {
      execFileSync(process.execPath, [join(root, 'tests/node_modules/typescript/bin/tsc'), ...how, file], { cwd: root });
      return '';
    } catch (why) {
      return String(/** @type {any} */ (why).stdout);
    }
  };
  assert.equal(compiled("const figure = document.createElement('outlean-rig'); figure.act({ kind: 'play' }); figure.reveal();\nconst lean: number | string | undefined = figure.rig?.lean;\ndocument.body.addEventListener('outlean-marked', ({ detail }) => detail.share.toFixed(2));\nconsole.log(lean);"), '');
  assert.match(compiled("document.createElement('outlean-rig').told = undefined;"), /read-only/);
  assert.match(compiled("document.createElement('outlean-choose').tell();"), /tell/);
});

eachBrowser('every attribute, event, part, colour and property that is promised is there', { folder: () => anyone(), height: 3000 }, async ({ page, open }) => {
  await open('/many/');
  await page.waitForFunction(() => ['one', 'two', 'three'].every(id => document.getElementById(id)?.shadowRoot?.querySelector('canvas')));
  await rest(page);
  for (const { tagName, members, attributes, cssParts, cssProperties } of declarations) {
    const found = await page.evaluate(async (tag, colours) => {
      const at = /** @type {any} */ (document.querySelector(tag));
      const styles = at.shadowRoot.adoptedStyleSheets.flatMap((/** @type {CSSStyleSheet} */ sheet) => [...sheet.cssRules].map(rule => rule.cssText)).join('\n');
      return {
        observed: at.constructor.observedAttributes,
        parts: [...at.shadowRoot.querySelectorAll('[part]')].map(part => part.getAttribute('part')),
        unused: colours.filter((/** @type {string} */ colour) => !getComputedStyle(at).getPropertyValue(colour)),
        missing: colours.filter((/** @type {string} */ colour) => !styles.includes(`${colour}:`)),
        members: (() => { const all = []; for (let of = at; of && of !== HTMLElement.prototype; of = Object.getPrototypeOf(of)) all.push(...Object.getOwnPropertyNames(of)); return all; })(),
      };
    }, tagName, cssProperties.map(({ name }) => name));
    for (const { name } of members) assert(found.members.includes(name), `${tagName} has no ${name}`);
    assert.deepEqual([found.unused, found.missing], [[], []], tagName);
    // Those of what cannot start are in the test of faults.
    assert.deepEqual([...new Set(found.parts)].sort(), names(cssParts).filter(name => !['fail', 'still'].includes(name)), tagName);
    for (const each of found.observed) assert(names(attributes).includes(each), `${tagName} follows ${each}, which nobody is told`);
  }
  // Colours of the pictures and of the page's own are those of the element.
  const painted = async (/** @type {string} */ colour) => {
    await page.evaluate(colour => {
      const one = /** @type {HTMLElement} */ (document.getElementById('one'));
      one.style.setProperty(colour, '#123456');
      one.setAttribute('theme', one.getAttribute('theme') === 'light' ? 'dark' : 'light');
    }, colour);
  };
  await painted('--paper');
  assert.equal(await page.$eval('#one', at => getComputedStyle(at).backgroundColor), 'rgb(18, 52, 86)');

  // What each attribute does that is not seen elsewhere.
  const rig = declared('outlean-rig');
  assert.deepEqual(names(rig.attributes), ['cautioned', 'id', 'src', 'theme', 'units', 'veiled']);
  assert.deepEqual(names(rig.events), ['outlean-failed', 'outlean-ready', 'outlean-rest', 'outlean-told']);
  const question = declared('outlean-choose');
  assert.deepEqual(names(question.attributes), ['cautioned', 'figure', 'id', 'objective', 'once', 'seed', 'src', 'theme', 'units']);
  assert.deepEqual(names(question.events), ['outlean-failed', 'outlean-marked']);
  const seen = await page.evaluate(async () => {
    /** @type {Record<string, number>} */
    const count = {};
    for (const name of ['outlean-ready', 'outlean-rest', 'outlean-failed']) document.addEventListener(name, event => { if (/** @type {Element} */ (event.target).id === 'new') count[name] = (count[name] ?? 0) + 1; });
    const wait = (/** @type {number} */ ms) => new Promise(done => setTimeout(done, ms));
    let told = 0;
    const made = /** @type {any} */ (document.createElement('outlean-rig'));
    Object.assign(made, { id: 'new' });
    made.addEventListener('outlean-told', () => { told += 1; });
    made.setAttribute('src', '05-lean/#slate');
    made.setAttribute('cautioned', '');
    made.setAttribute('veiled', '');
    const ready = new Promise(done => made.addEventListener('outlean-ready', done, { once: true }));
    document.body.append(made);
    await ready;
    await wait(700);
    const caution = made.shadowRoot.querySelector('.caution').checkVisibility();
    const link = made.shadowRoot.querySelector('[data-key=link]').checkVisibility();
    const veiled = made.told.veiled;
    made.reveal();
    await wait(1200);
    const rests = count['outlean-rest'];
    const before = told;
    made.act({ kind: 'set', key: 'lean', value: 0.3 });
    await wait(900);
    const nameless = made.cloneNode();
    nameless.removeAttribute('id');
    nameless.setAttribute('units', 'us');
    document.body.append(nameless);
    await new Promise(done => nameless.addEventListener('outlean-ready', done, { once: true }));
    const choose = /** @type {any} */ (document.getElementById('choose'));
    const asks = choose.known.prompt;
    choose.setAttribute('once', '');
    const again = choose.shadowRoot.querySelector('.again').checkVisibility();
    choose.setAttribute('seed', '8');
    for (let left = 50; left && choose.seed !== 8; left--) await wait(50);
    return { count, rests, more: told > before, caution, link, veiled, after: made.told.veiled, nameless: nameless.shadowRoot.querySelector('[data-key=link]').checkVisibility(), pounds: /lb/.test(nameless.told.sentence_text), again, seed: choose.seed, asks: asks !== '', now: made.rig.lean };
  });
  assert.deepEqual(seen, {
    count: { 'outlean-ready': 1, 'outlean-rest': (seen.rests ?? 0) + 1 }, rests: seen.rests, more: true, caution: false, link: true, veiled: true, after: false,
    nameless: false, pounds: true, again: false, seed: 8, asks: true, now: 0.3,
  });
});
