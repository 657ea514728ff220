// Nothing appears as one points at something, or as it gets the focus, but what is named here: WCAG 2.2, 1.4.13. Of styles and scripts, without a
// page; what does change on a page is tried there (`plan.test.mjs`).

import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { root } from './place.mjs';

const www = join(root, 'www');
const files = (/** @type {string} */ ending) => readdirSync(www).filter(name => name.endsWith(ending)).map(name => ({ name, text: readFileSync(join(www, name), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '') }));

/** What may change as something is pointed at or has the focus: a mark on it itself. */
const MARKS = /^(?:outline(?:-width|-offset)?|text-decoration-color)$/;
/** The way past the head of a page, which has the focus itself as it is seen. */
const SKIP = '.skip:focus';

/** Rules that show or hide something by pointer or focus. @param {string} css */
const shows = css => [...css.matchAll(/([^{};]*:(?:hover|focus|focus-visible|focus-within|active)\b[^{]*)\{([^{}]*)\}/g)].flatMap(([, selector, body]) =>
  selector.trim() === SKIP || body.split(';').every(each => !each.trim() || MARKS.test(each.split(':')[0].trim()) || /^cursor:/.test(each.trim())) ? [] : [`${selector.trim()}{${body}}`]);

test('a rule that shows something on hover or focus is found', () => {
  assert.equal(shows('.tip{display:none}a:hover .tip{display:block}').length, 1);
  assert.equal(shows('@media (width>1px){a:focus-within>b{visibility:visible;outline:0}}').length, 1);
  assert.equal(shows(':focus-visible{outline:3px solid;outline-offset:2px}').length, 0);
});

test('no style shows or hides anything on hover or focus', () => {
  const all = files('.css').flatMap(({ name, text }) => shows(text).map(rule => `${name}: ${rule}`));
  assert.deepEqual(all, []);
});

test('no script but those named does anything as something is pointed at or gets the focus', () => {
  const hearing = files('.js').filter(({ text }) => /'(?:mouse(?:enter|over|leave)|pointer(?:enter|over|leave)|focus|focusin)'/.test(text) || /\bon(?:mouse|pointer)(?:enter|over)|popover|\btitle=|setAttribute\('title'/.test(text)).map(({ name }) => name);
  assert.deepEqual(hearing.filter(name => readFileSync(join(www, name), 'utf8').match(/addEventListener\('(?:mouse|pointer|focus)|popover|'title'/)), [
    'estimate-element.js', // the figure shows the rig of the question that is answered, and goes on doing so
    'plan-meant.js', // the sketch beside the form
    'rig-element.js', // a handle has its mark
  ]);
});
