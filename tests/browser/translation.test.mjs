// A lesson in another language: its own page, the same questions, no word missing.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';
import { eachBrowser } from './harness.mjs';
import { answer, ready, text } from './lesson.mjs';
import { outlean, root, target } from './place.mjs';

const folder = mkdtempSync(join(tmpdir(), 'translation-'));
after(() => rmSync(folder, { recursive: true }));
const [lessons, assets, site] = ['lessons', 'www', 'site'].map(name => join(folder, name));
const lesson = join(lessons, '01-lean');
cpSync(join(root, 'lessons/05-lean'), lesson, { recursive: true });
mkdirSync(join(lesson, 'lang'), { recursive: true });
writeFileSync(join(lesson, 'lang/de.md'), readFileSync(join(lesson, 'lesson.md'), 'utf8').replace('Lean and its price', 'Neigung und ihr Preis').replaceAll(/^hint = ".*"$/gm, 'hint = "Denk an das Lot."'));
cpSync(join(root, 'www'), assets, { recursive: true });
// Two of all words are German; the others are not there.
mkdirSync(join(assets, 'strings/de'));
writeFileSync(join(assets, 'strings/de/shell.json'), '{"record": "Nachweis"}');
writeFileSync(join(assets, 'strings/de/questions.json'), '{"question.again": "Noch eine"}');
execFileSync(outlean, ['build', '--lessons', lessons, '--assets', assets, '--program', join(target, 'program'), '--out', site]);

eachBrowser('a translated lesson runs, and says in English what has no other words', { folder: site }, async stage => {
  const { page, axe } = stage;
  await ready(stage, '/de/01-lean/?seed=7');
  assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
  assert.equal(await page.$eval('h1', at => at.textContent), 'Neigung und ihr Preis');
  assert.equal(await page.$eval('.settings a[href$="record/"]', at => at.textContent), 'Nachweis');
  assert.equal(await page.$eval('outlean-estimate >>> .again button', at => at.textContent), 'Noch eine');
  assert.equal(await page.$eval('outlean-estimate >>> button[type=submit]', at => at.textContent), 'Set the mark and see');
  assert.match(await text(page, '.hint p'), /Lot/);
  await answer(page, '4 kN');
  assert.match(await text(page, '.answer'), /See, then say why/);
  assert.deepEqual(await axe(), []);
  // The same question as in the original, and the way between them.
  const asked = () => page.$eval('outlean-estimate', at => JSON.stringify(/** @type {any} */ (at).rig));
  const own = await asked();
  await page.click('.facts a[hreflang=en]');
  await page.waitForFunction(() => document.documentElement.lang === 'en');
  await ready(stage, '/01-lean/?seed=7');
  assert.equal(await asked(), own);
  assert.equal(await page.$eval('.facts a', at => at.getAttribute('href')), '../de/01-lean/');
  await page.goto(`${stage.origin}/de/`);
  assert.deepEqual(await page.$$eval('main li a', all => all.map(each => [each.getAttribute('href'), each.textContent])), [['01-lean/', 'Neigung und ihr Preis']]);
});
