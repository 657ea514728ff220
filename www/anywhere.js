// What elements are given on anyone's page, in the place of www/given.js: theme and units by attributes, styles and lettering of their own,
// so that nothing of the page leaks in; and what they are made of, from a page of the course where they name one.

import { element } from './element.js';
import { onMedia, sheet, StartFailure } from './engine.js';
import { FACES } from './faces.js';
import { beside, load } from './origin.js';
import { painter } from './surface.js';
import { pageAt } from './taken.js';
import { amiss, TYPED } from './typed.js';
import { speak } from './words.js';

/** Attributes that every element follows. */
export const FOLLOWED = ['src', 'theme', 'units'];

/** What paints pictures beside the page: no browser gives a worker to a script of another origin. */
export const painterOf = async () => (beside('').startsWith(`${location.origin}/`) ? painter() : undefined);

/** What is typed, where it may be. @param {Element} at @param {string} name */
function typed(at, name) {
  const value = at.getAttribute(name);
  return value === null || amiss(name, value) ? undefined : value;
}

/** The colour scheme of the page where an element stands, as its styles have it. @param {Element} at */
function schemeOf(at) {
  const around = at.parentElement ?? /** @type {ShadowRoot} */ (at.getRootNode()).host ?? document.documentElement;
  const { colorScheme } = getComputedStyle(around);
  // What a page's head says of its schemes is not among its styles.
  const head = document.querySelector('meta[name=color-scheme]')?.getAttribute('content') ?? '';
  const schemes = (colorScheme === 'normal' ? head : colorScheme).split(/[\s,]+/);
  if (!schemes.includes('dark')) return 'light';
  return !schemes.includes('light') || matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
}

/** The theme of an element: what is typed, or light or dark as the page is. @param {Element} at */
export const themeOf = at => typed(at, 'theme') ?? schemeOf(at);

/** The units of an element. @param {Element} at */
export const unitsOf = at => typed(at, 'units') ?? 'metric';

/** The seed that a question is to be drawn by, as it is typed. @param {Element} question */
export const seedOf = question => question.getAttribute('seed');

/** The caution by a result, unless the page itself has it. @param {Element} at @param {import('./words.js').Words} words */
export const cautionOf = (at, words) => (at.hasAttribute('cautioned') ? [] : [element('p', { class: 'note caution' }, words.caution)]);

/**
 * What an element is made of: what stands between its tags, or what stands between those of the element that `src` names in a page.
 * Such a page must come from where the script or the page itself does: its content is shown as the author's own.
 * @param {HTMLElement} at @returns {Promise<HTMLElement>}
 */
export async function contentOf(at) {
  for (const name of TYPED) {
    const value = at.getAttribute(name);
    const allowed = value === null ? undefined : amiss(name, value);
    if (value !== null && allowed) throw new StartFailure('attribute', { name, value, allowed });
  }
  const value = at.getAttribute('src');
  if (value === null) return at;
  const origins = [...new Set([location.origin, new URL(import.meta.url).origin])];
  let address;
  try {
    address = new URL(value, document.baseURI);
  } catch {
    address = undefined;
  }
  if (!address || !origins.includes(address.origin)) throw new StartFailure('attribute', { name: 'src', value, allowed: origins.map(origin => `${origin}/…`).join(', ') });
  let found;
  try {
    found = (await pageAt(address)).getElementById(decodeURIComponent(address.hash.slice(1)));
  } catch (why) {
    throw new StartFailure('src', { value, why: why instanceof Error ? why.message : String(why) });
  }
  if (found?.localName !== at.localName) throw new StartFailure('src', { value, why: `<${at.localName} id="${address.hash.slice(1)}">` });
  const content = element('div', { part: 'still' });
  content.append(...[...found.childNodes].map(node => document.importNode(node, true)));
  for (const picture of content.querySelectorAll('img')) {
    picture.src = new URL(picture.getAttribute('src') ?? '', address).href;
    Object.assign(picture.style, { maxWidth: '100%', height: 'auto' });
  }
  return content;
}

/** How that is shown as long as the element itself is not. @param {HTMLElement} content */
export const stillOf = content => (content.matches('[part=still]') ? content : element('slot'));

/** Values of the design on the element itself, whatever the page calls by the same names. @type {Promise<CSSStyleSheet> | undefined} */
let tokens;

/** The style sheets of an element. @param {string} name that of its own */
export async function styles(name) {
  tokens ??= sheet('tokens.css').then(made => {
    // Faces of a shadow tree are not looked at: the document has them, below.
    for (let at = made.cssRules.length; at--;) if (made.cssRules[at] instanceof CSSFontFaceRule) made.deleteRule(at);
    made.insertRule(':host{background:var(--paper)}');
    return made;
  });
  return Promise.all([tokens, sheet(name)]);
}

/** Calls `then` whenever theme, units or pixel density of an element change. Returns how to stop. @param {HTMLElement} at @param {() => void} then */
export function onSettings(at, then) {
  const follow = () => { at.dataset.theme = themeOf(at); };
  const renew = () => { follow(); then(); };
  follow();
  const observer = new MutationObserver(renew);
  // Where pages say which scheme they are in: by a class, an attribute or a style of their own.
  for (const place of [document.documentElement, document.body]) observer.observe(place, { attributes: true });
  observer.observe(at, { attributeFilter: ['theme', 'units'] });
  const stop = onMedia(renew);
  return () => { observer.disconnect(); stop(); };
}

if (![...document.fonts].some(face => face.family.includes('Outlean Label'))) {
  for (const [family, file, how] of FACES) document.fonts.add(new FontFace(family, `url(${beside(`fonts/${file}.woff2`)})`, how));
}

// The page may be in any language: its words are in that one only where there are some.
const asked = document.documentElement.lang.split('-')[0];
speak(asked && asked !== 'en' ? load('strings/languages.json').then(answer => answer.json()).then(known => (known.includes(asked) ? asked : 'en'), () => 'en') : 'en');
