// The package for npm: packed and installed by npm itself, and a page that uses it out of node_modules.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, relative } from 'node:path';
import { test } from 'node:test';
import { eachBrowser } from './harness.mjs';
import { rest } from './lesson.mjs';
import { outlean, root, site } from './place.mjs';
import { scratch } from './scratch.mjs';

const { folder } = scratch();
const [made, project] = ['made', 'project'].map(name => join(folder, name));
const types = join(root, 'www/types');
execFileSync(outlean, ['pack', 'npm', '--site', site, ...(existsSync(types) ? ['--types', types] : []), '--output', made]);
mkdirSync(project);
writeFileSync(join(project, 'package.json'), '{ "private": true }');
/** @param {string[]} words */
const npm = (...words) => execFileSync('npm', [...words, '--offline', '--ignore-scripts', '--no-audit', '--no-fund', '--cache', join(folder, 'cache')], { cwd: project, encoding: 'utf8' });
const [packed] = JSON.parse(npm('pack', made, '--json'));
npm('install', `./${packed.filename}`);
const installed = join(project, 'node_modules/outlean');
const entry = createRequire(join(project, 'index.js')).resolve('outlean');
const rig = /<outlean-rig [^>]*><script type="application\/json">(\{.*?\})<\/script>/.exec(readFileSync(join(site, '05-lean/index.html'), 'utf8'))?.[1] ?? assert.fail('the lesson has a figure');
const loads = relative(project, entry);
writeFileSync(join(project, 'index.html'), `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A page of others</title>
<link rel="icon" href="node_modules/outlean/program/favicon.svg"><link rel="stylesheet" href="node_modules/outlean/program/tokens.css">
<script type="module" src="${loads}"></script></head>
<body><main><h1>A page of others</h1><outlean-rig><script type="application/json">${rig}</script></outlean-rig></main></body></html>`);

test('the package holds what it says, and nothing that npm or a page has no use for', () => {
  const about = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
  const version = /^version = "(.*)"$/m.exec(readFileSync(join(root, 'Cargo.toml'), 'utf8'))?.[1];
  assert.deepEqual([about.name, about.version, about.type], ['outlean', version, 'module']);
  for (const way of [about.main, about.exports['.'].default, about.exports['.'].types, about.types, about.customElements]) {
    if (way !== undefined) assert(existsSync(join(installed, way)), way);
  }
  assert.equal(join(installed, about.exports['.'].default), entry);
  const files = readdirSync(installed, { recursive: true }).map(String);
  for (const wanted of ['LICENSE-MIT', 'LICENSE-APACHE', 'README.md', 'program/wasm/outlean_bg.wasm', 'program/fonts/OFL-gentium-book-plus.txt']) assert(files.includes(wanted), wanted);
  assert.deepEqual(files.filter(name => /\.(br|gz|html)$|program\/pictures/.test(name)), []);
  assert.match(readFileSync(join(installed, 'README.md'), 'utf8'), /A teaching aid\..*Qualified instruction/);
  // Every way that what is read first shows is there.
  for (const [, way] of readFileSync(join(installed, 'README.md'), 'utf8').matchAll(/"(node_modules\/[^"]+)"/g)) assert(existsSync(join(project, way)), way);
});

eachBrowser('a page uses the package out of node_modules', { folder: project }, async ({ page, open, axe, shot }) => {
  await open('/');
  await page.waitForFunction(() => /** @type {any} */ (document.querySelector('outlean-rig'))?.told);
  await rest(page);
  const lean = () => page.$eval('outlean-rig', figure => /** @type {any} */ (figure).rig.lean);
  const before = await lean();
  await page.$eval('>>> .plate > .head', head => /** @type {HTMLElement} */ (head).focus());
  await page.keyboard.press('ArrowRight');
  await rest(page);
  assert((await lean()) > before);
  assert.match((await page.$eval('>>> .caution', at => /** @type {HTMLElement} */ (at).innerText)) ?? '', /teaching aid/i);
  assert.equal(await page.evaluate(() => document.fonts.check('500 13px "Outlean Label"')), true);
  await shot('package in a page of others');
  assert.deepEqual(await axe(), []);
});
