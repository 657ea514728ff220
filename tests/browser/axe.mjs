// The accessibility checker, run inside a page without asking the page's policy.

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Kinds of rules that the pages are held to: WCAG 2.2 A and AA, and the checker's own good practice. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Waits until every figure of the page is as it will be, or has said why not. @param {import('puppeteer-core').Page} page */
const settled = page => page.waitForFunction(() => !customElements.get('outlean-rig') || [...document.querySelectorAll('outlean-rig')].every(figure => {
  if (figure.shadowRoot?.querySelector('.fail')) return true;
  const { told, pending } = /** @type {any} */ (figure);
  return told && (told.playing || !pending);
}));

/**
 * What the checker finds wrong in the page once its figures have settled, shadow roots included: one line a rule and element.
 * @param {import('puppeteer-core').Page} page
 * @returns {Promise<string[]>}
 */
export async function axe(page) {
  await settled(page);
  await page.evaluate(`${source}; undefined`);
  return page.evaluate(async tags => {
    const found = await /** @type {any} */ (globalThis).axe.run(document, { preload: false, runOnly: tags });
    return found.violations.flatMap((/** @type {any} */ rule) =>
      rule.nodes.map((/** @type {any} */ node) => `${rule.id}: ${node.target.flat().join(' ')}: ${node.failureSummary}`),
    );
  }, TAGS);
}
