// The script of embed.html, a page for a frame in another's page: it shows one figure or question of the course, as its address says, and
// tells the page around it how high it is. The build tool puts anywhere.js in the place of given.js.
//
// Address: show=LESSON/ID names what is shown, by its id in that lesson's page; theme, units and seed are as the attributes of elements;
// host is the origin of the page around it, its own where it is left out.
//
// Messages are objects. It is spoken to first; only by the page around it, and only where that comes from `host`; all else is not heard.
//   { outlean: 'measure' }                       asks how high it is, and to be told whenever that changes
//   { outlean: 'set', name, value }              sets theme or units; a value that is not allowed changes nothing
// What it says goes to that origin alone:
//   { outlean: 'height', height }                CSS pixels
//   { outlean: 'event', name, detail }           outlean-ready, outlean-failed or outlean-marked happened, as in a page of elements

import { element } from './element.js';
import './elements.js';
import { shown } from './shown.js';
import { pageAt } from './taken.js';
import { amiss } from './typed.js';
import { fill, speak, wordsOf } from './words.js';

const EVENTS = ['outlean-ready', 'outlean-failed', 'outlean-marked'];
const settings = new URLSearchParams(location.search);
const host = settings.get('host') ?? location.origin;

/** What an address may say, each with what is allowed. @type {Record<string, [(value: string) => boolean, string]>} */
const KNOWN = {
  show: [value => /^([a-z]{2}\/)?[\w-]+\/[\w-]+$/.test(value), 'LESSON/ID'],
  theme: [value => value !== 'projector' && !amiss('theme', value), 'light, dark, sunlight'],
  units: [value => !amiss('units', value), 'metric, us'],
  seed: [value => !amiss('seed', value), '0 … 999999999'],
  host: [value => URL.canParse(value) && new URL(value).origin === value, 'https://…'],
};

/** Shows what the address names. */
async function showNamed() {
  const said = settings.get('show') ?? '';
  const [lesson, id] = [said.slice(0, said.lastIndexOf('/')), said.slice(said.lastIndexOf('/') + 1)];
  const language = /^[a-z]{2}\//.exec(said)?.[0].slice(0, 2) ?? 'en';
  document.documentElement.lang = language;
  speak(language);
  /** @type {Record<string, string>} */
  const words = await wordsOf('embed').catch(() => ({}));
  /** @type {string[]} */
  const told = [];
  const wrong = (/** @type {string} */ key, /** @type {Record<string, string>} */ places) => told.push(fill(words, key, places));
  for (const [name, value] of settings) {
    if (!(name in KNOWN)) wrong('unknown', { name, known: Object.keys(KNOWN).join(', ') });
    else if (!KNOWN[name][0](value)) wrong('value', { name, value, allowed: KNOWN[name][1] });
  }
  if (!said) wrong('nothing', { example: '05-lean/slate' });
  if (!told.length) {
    try {
      const found = (await pageAt(new URL(`${lesson}/`, location.href))).getElementById(id);
      if (!found?.localName.startsWith('outlean-')) throw new Error(`#${id}`);
      const figure = found.getAttribute('figure');
      const put = (/** @type {string} */ kind, /** @type {string} */ which, /** @type {Record<string, string>} */ besides = {}) => {
        const all = Object.entries({ id: which, src: `${lesson}/#${which}`, ...besides, ...Object.fromEntries(['theme', 'units', 'seed'].map(name => [name, settings.get(name) ?? ''])) });
        const made = element(/** @type {any} */ (kind), Object.fromEntries(all.filter(([, value]) => value)));
        document.body.append(made);
        return made;
      };
      const question = put(found.localName, id, figure ? { figure } : {});
      if (figure) {
        const under = put('outlean-rig', figure);
        if (!/estimate|set$/.test(found.localName)) shown(question, under);
      }
      return;
    } catch (why) {
      wrong('gone', { value: said, why: why instanceof Error ? why.message : String(why) });
    }
  }
  document.body.append(element('div', { role: 'alert' }, ...told.map(each => element('p', {}, each))));
}

/** Whether the page around it has asked. */
let heard = false;

/** @param {Record<string, unknown>} what */
const tell = what => { if (heard) parent.postMessage(what, host); };
const measure = () => tell({ outlean: 'height', height: Math.ceil(document.documentElement.getBoundingClientRect().height) });

/** Takes on a theme: the page's own scheme goes with it. @param {string | null} theme */
function scheme(theme) {
  document.documentElement.style.colorScheme = theme === 'dark' ? 'dark' : theme ? 'light' : '';
}

addEventListener('message', ({ source, origin, data }) => {
  if (parent === self || source !== parent || origin !== host) return;
  if (data?.outlean === 'measure') {
    heard = true;
    measure();
  } else if (data?.outlean === 'set' && ['theme', 'units'].includes(data.name) && typeof data.value === 'string' && KNOWN[data.name][0](data.value)) {
    for (const each of document.querySelectorAll('body>*')) each.setAttribute(data.name, data.value);
    if (data.name === 'theme') scheme(data.value);
  }
});
for (const name of EVENTS) addEventListener(name, event => tell({ outlean: 'event', name, detail: /** @type {CustomEvent} */ (event).detail ?? null }));
new ResizeObserver(measure).observe(document.documentElement);
scheme(settings.get('theme'));
showNamed();
