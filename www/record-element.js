// <outlean-record>: the record of who learns on this machine: progress by objective, answers over time, files out and in,
// and a sheet with a place for the assessor. Written into the page itself, so that it prints as the page does.

import { canKeep, cleared, exported, imported, listed, NoRecord, table } from './attempts.js';
import { onOthers, turnTo, whoAnswers } from './store.js';

/** @typedef {import('./attempts.js').Row} Row */

const base = new URL('.', import.meta.url);

/** @param {string} name @param {Record<string, string>} attributes @param {...(Node | string)} inside @returns {HTMLElement} */
function made(name, attributes, ...inside) {
  const node = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  node.append(...inside);
  return node;
}

/** @param {string} name @param {Record<string, string | number>} attributes @param {...Node} inside */
function drawn(name, attributes, ...inside) {
  const node = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, String(value));
  node.append(...inside);
  return node;
}

/** @param {number} time */
const dayOf = time => new Date(time * 1000).toISOString().slice(0, 10);

/** Gives a file to the reader. @param {string} name @param {string} content @param {string} type */
function give(name, content, type) {
  const link = /** @type {HTMLAnchorElement} */ (made('a', { download: name, href: URL.createObjectURL(new Blob([content], { type })) }));
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

class RecordElement extends HTMLElement {
  /** @type {Record<string, string>} */ #words = {};
  #who = '';

  async connectedCallback() {
    const language = document.documentElement.lang.split('-')[0] || 'en';
    document.head.append(made('link', { rel: 'stylesheet', href: new URL('record.css', base).href }));
    try {
      this.#words = await (await fetch(new URL(`strings/${language}/records.json`, base))).json();
    } catch {
      return; // what stands between the tags says so
    }
    this.#build();
    document.addEventListener('outlean-store', event => this.#say(`said.${/** @type {CustomEvent} */ (event).detail.say}`));
    onOthers(() => this.#renew());
    if (!(await canKeep())) this.#say('said.refused');
    await this.#renew(true);
    this.dataset.ready = '';
  }

  /** @param {string} key @param {Record<string, string | number>} [places] */
  #word(key, places = {}) {
    return (this.#words[key] ?? key).replace(/\{(\w+)\}/g, (whole, name) => String(places[name] ?? whole));
  }

  /** @param {string} key @param {Record<string, string | number>} [places] */
  #say(key, places) {
    this.#part('said').textContent = this.#word(key, places);
  }

  /** @param {string} name @returns {any} */
  #part(name) {
    return this.querySelector(`[data-part=${name}]`);
  }

  #build() {
    const word = (/** @type {string} */ key) => this.#word(key);
    const key = (/** @type {string} */ name, /** @type {() => Promise<unknown>} */ act) => {
      const button = made('button', { type: 'button', 'data-part': name }, word(`key.${name}`));
      button.addEventListener('click', () => act().catch(why => this.#say('said.failed', { why: String(why) })));
      return button;
    };
    const who = made('form', { class: 'keys' }, made('label', {}, word('who'), ' ', made('input', { 'data-part': 'who', maxlength: '60', required: '', list: 'learners', autocomplete: 'off' })), made('datalist', { id: 'learners' }), made('button', {}, word('key.turn')));
    who.addEventListener('submit', async event => {
      event.preventDefault();
      await turnTo(this.#part('who').value.trim() || this.#who);
      await this.#renew();
    });
    const file = made('input', { type: 'file', accept: '.json,application/json', 'data-part': 'file' });
    file.addEventListener('change', () => this.#take(/** @type {HTMLInputElement} */ (file)));
    const sure = made('span', { 'data-part': 'sure', hidden: '' }, key('really', async () => {
      await cleared(this.#who);
      this.#part('sure').hidden = true;
      await this.#renew();
      this.#say('said.cleared', { who: this.#who });
    }));
    this.replaceChildren(
      made('p', { class: 'record-said', role: 'status', 'data-part': 'said' }),
      who,
      made('h2', {}, word('progress')),
      made('p', { 'data-part': 'none' }, word('none')),
      made('table', { 'data-part': 'table' }),
      made('div', { 'data-part': 'chart' }),
      made('p', { 'data-part': 'aside' }),
      made('div', { class: 'keys' },
        key('export', async () => give(`record ${this.#who}.json`, await exported(this.#who), 'application/json')),
        key('csv', async () => give(`record ${this.#who}.csv`, await table(this.#who), 'text/csv')),
        made('label', { class: 'key' }, word('import'), ' ', file),
        key('print', async () => print()),
        key('clear', async () => { this.#part('sure').hidden = false; }), sure),
      made('section', { class: 'sign' }, made('h2', {}, word('practical')), made('p', {}, word('practical.why')),
        made('dl', {}, ...['task', 'assessor', 'signature', 'date'].flatMap(line => [made('dt', {}, word(`sign.${line}`)), made('dd', {})]))),
    );
  }

  /** @param {HTMLInputElement} input */
  async #take(input) {
    const file = input.files?.[0];
    if (!file) return;
    try {
      const { learner, attempts, aside } = await imported(await file.text());
      await turnTo(learner);
      await this.#renew();
      this.#say('said.imported', { who: learner, attempts, aside });
    } catch (why) {
      if (why instanceof NoRecord) this.#say('said.no_record', { field: why.why.field, value: why.why.value || this.#word('missing'), allowed: this.#allowed(why.why.allowed) });
      else this.#say('said.failed', { why: String(why) });
    }
    input.value = '';
  }

  /** @param {import('./attempts.js').Allowed} allowed */
  #allowed(allowed) {
    const [name, most] = typeof allowed === 'string' ? [allowed, ''] : Object.entries(allowed)[0];
    return this.#word(`allowed.${name}`, { most });
  }

  /** Shows what is kept. @param {boolean} [first] whether what is found damaged is to be told */
  async #renew(first = false) {
    const { rows, aside, found } = await listed();
    this.#who = await whoAnswers();
    const mine = rows.filter(row => row.learner === this.#who);
    if (document.activeElement !== this.#part('who')) this.#part('who').value = this.#who;
    this.querySelector('datalist')?.replaceChildren(...[...new Set(rows.map(row => row.learner))].map(value => made('option', { value })));
    this.#part('none').hidden = mine.length > 0;
    this.#part('table').hidden = this.#part('chart').hidden = mine.length === 0;
    this.#table(mine);
    this.#chart(mine);
    const stands = aside.filter(each => each.learner === this.#who || each.learner === '');
    this.#part('aside').hidden = stands.length === 0;
    const why = stands.at(-1)?.why;
    if (why) this.#part('aside').textContent = this.#word('aside', { count: stands.length, field: why.field, value: why.value || this.#word('missing'), allowed: this.#allowed(why.allowed) });
    if (first && found) this.#say('said.aside', { count: found });
    const now = Date.now() / 1000;
    if (mine.some(row => row.time > now + 60)) this.#say('said.ahead');
  }

  /** Answers by lesson and objective. @param {Row[]} rows */
  #table(rows) {
    /** @type {Map<string, Map<string, Row[]>>} */
    const lessons = new Map();
    for (const row of rows) {
      const lesson = lessons.get(row.lesson) ?? new Map();
      const about = row.objective || row.question;
      lessons.set(row.lesson, lesson.set(about, [...(lesson.get(about) ?? []), row]));
    }
    const head = made('tr', {}, ...['objective', 'answers', 'right', 'last'].map(column => made('th', { scope: 'col' }, this.#word(`column.${column}`))));
    const line = (/** @type {[string, Row[]]} */ [about, answers]) => {
      const share = answers.reduce((sum, row) => sum + row.mark.share, 0) / answers.length;
      const cells = [String(answers.length), `${Math.round(share * 100)}\u202f%`, dayOf(answers.at(-1)?.time ?? 0)];
      return made('tr', {}, made('th', { scope: 'row' }, about), ...cells.map(cell => made('td', {}, cell)));
    };
    const bodies = [...lessons].map(([lesson, lines]) => made('tbody', {}, made('tr', {}, made('th', { scope: 'rowgroup', colspan: '4' }, lesson)), ...[...lines].map(line)));
    this.#part('table').replaceChildren(made('caption', {}, this.#word('caption', { who: this.#who })), made('thead', {}, head), ...bodies);
  }

  /** The latest answers, each a mark: high right, low not. @param {Row[]} rows */
  #chart(rows) {
    const latest = rows.slice(-60);
    const right = latest.filter(row => row.mark.share === 1).length;
    const marks = latest.map((row, at) => drawn('circle', { cx: 8 + at * 10, cy: 52 - 44 * row.mark.share, r: 3.5 }));
    const name = this.#word('chart', { count: latest.length, right });
    this.#part('chart').replaceChildren(drawn('svg', { viewBox: '0 0 608 60', role: 'img', 'aria-label': name }, drawn('path', { d: 'M0 8h608M0 52h608' }), ...marks), made('p', { class: 'facts' }, name));
  }
}

customElements.define('outlean-record', RecordElement);
