// <outlean-record>: the record of who learns on this machine: progress by objective, answers over time, files out and in,
// and a sheet with a place for the assessor. Written into the page itself, so that it prints as the page does.

import { dayOf, give } from './apart.js';
import { canKeep, cleared, exported, imported, listed, NoRecord, table, textOf } from './attempts.js';
import { CourseElement } from './course.js';
import { DAY, scheduler, today } from './due.js';
import { element } from './element.js';
import { reason } from './reason.js';
import { percent } from './share.js';
import { onOthers, turnTo, whoAnswers } from './store.js';

/** @typedef {import('./attempts.js').Row} Row */

/** @param {string} name @param {Record<string, string | number>} attributes @param {...Node} inside */
function drawn(name, attributes, ...inside) {
  const node = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, String(value));
  node.append(...inside);
  return node;
}

class RecordElement extends CourseElement {
  #who = '';
  /** Who is to be forgotten: whoever it was when that was asked. */
  #doomed = '';
  /** When the next refresher is due is told once the scheduler is there: nothing else waits for it. */
  #told = Promise.resolve();

  async begin() {
    if (!(await this.prepared('records', 'refresher'))) return;
    this.#build();
    document.addEventListener('outlean-store', event => this.say(`said.${/** @type {CustomEvent} */ (event).detail.say}`));
    onOthers(() => this.#tried(() => this.#renew()));
    if (!(await canKeep())) this.say('said.refused');
    await this.#tried(() => this.#renew(true));
    await this.#told;
    this.dataset.ready = '';
  }

  /** Does something; why it did not work is said. @param {() => Promise<unknown>} act */
  async #tried(act) {
    try {
      await act();
    } catch (why) {
      this.say('said.failed', { why: String(why) });
    }
  }

  #build() {
    const word = (/** @type {string} */ key, /** @type {Record<string, string>} */ places = {}) => this.word(key, places);
    const key = (/** @type {string} */ name, /** @type {() => Promise<unknown>} */ act) => {
      const button = element('button', { type: 'button', 'data-part': name }, word(`key.${name}`));
      button.addEventListener('click', () => this.#tried(act));
      return button;
    };
    const who = element('form', { class: 'keys' }, element('label', {}, word('who'), ' ', element('input', { 'data-part': 'who', maxlength: '60', required: '', list: 'learners', autocomplete: 'off' })), element('datalist', { id: 'learners' }), element('button', {}, word('key.turn')));
    who.addEventListener('submit', event => {
      event.preventDefault();
      this.#tried(async () => {
        await turnTo(this.named('who').value.trim() || this.#who);
        await this.#renew();
      });
    });
    const file = element('input', { type: 'file', accept: '.json,application/json', 'data-part': 'file' });
    file.addEventListener('change', () => this.#take(/** @type {HTMLInputElement} */ (file)));
    const sure = element('span', { 'data-part': 'sure', hidden: '' }, key('really', async () => {
      const who = this.#doomed;
      await cleared(who);
      this.named('sure').hidden = true;
      await this.#renew();
      this.say('said.cleared', { who });
    }));
    this.replaceChildren(
      element('p', { class: 'record-said', role: 'status', 'data-part': 'said' }),
      who,
      element('h2', {}, word('progress')),
      element('p', { 'data-part': 'none' }, word('none')),
      element('table', { 'data-part': 'table' }),
      element('div', { 'data-part': 'chart' }),
      element('p', { 'data-part': 'aside' }),
      element('h2', {}, word('record.refresher')),
      element('p', {}, element('span', { 'data-part': 'due' }), ' ', element('a', { href: '../refresher/' }, word('record.open'))),
      element('div', { class: 'keys' },
        key('export', async () => give(`record ${this.#who}.json`, await exported(this.#who), 'application/json')),
        key('csv', async () => give(`record ${this.#who}.csv`, await table(this.#who), 'text/csv')),
        element('label', { class: 'key' }, word('import'), ' ', file),
        key('print', async () => print()),
        key('clear', async () => {
          this.#doomed = this.#who;
          this.named('really').textContent = word('key.really', { who: this.#who });
          this.named('sure').hidden = false;
        }), sure),
      element('p', {}, element('a', { href: '../class/' }, word('class.open'))),
      element('section', { class: 'sign' }, element('h2', {}, word('practical')), element('p', {}, word('practical.why')),
        element('dl', {}, ...['task', 'assessor', 'signature', 'date'].flatMap(line => [element('dt', {}, word(`sign.${line}`)), element('dd', {})]))),
    );
  }

  /** @param {HTMLInputElement} input */
  async #take(input) {
    const file = input.files?.[0];
    if (!file) return;
    try {
      const { learner, attempts, aside } = await imported(await textOf(file));
      await turnTo(learner);
      await this.#renew();
      this.say('said.imported', { who: learner, attempts, aside });
    } catch (why) {
      if (why instanceof NoRecord) this.say('said.no_record', reason(this.words, why.why));
      else this.say('said.failed', { why: String(why) });
    }
    input.value = '';
  }

  /** Shows what is kept. @param {boolean} [first] whether what is found damaged is to be told */
  async #renew(first = false) {
    const { rows, aside, found } = await listed();
    this.#who = await whoAnswers();
    if (this.#who !== this.#doomed) this.named('sure').hidden = true;
    const mine = rows.filter(row => row.learner === this.#who);
    if (document.activeElement !== this.named('who')) this.named('who').value = this.#who;
    this.querySelector('datalist')?.replaceChildren(...[...new Set(rows.map(row => row.learner))].map(value => element('option', { value })));
    this.named('none').hidden = mine.length > 0;
    this.named('table').hidden = this.named('chart').hidden = mine.length === 0;
    this.#table(mine);
    this.#chart(mine);
    this.#told = this.#due(mine);
    const stands = aside.filter(each => each.learner === this.#who || each.learner === '');
    this.named('aside').hidden = stands.length === 0;
    const why = stands.at(-1)?.why;
    if (why) this.named('aside').textContent = this.word('aside', { count: stands.length, ...reason(this.words, why) });
    if (first && found) this.say('said.aside', { count: found });
    const now = Date.now() / 1000;
    if (mine.some(row => row.time > now + 60)) this.say('said.ahead');
  }

  /** When the next refresher is due. @param {Row[]} rows */
  async #due(rows) {
    try {
      const [due, day] = [await this.awaited(scheduler(this.cards, rows)), today()];
      const [count, next] = [due.due(day), due.next(day)];
      const told = count > 1 ? 'many' : count === 1 ? 'one' : next ? 'later' : 'never';
      this.named('due').textContent = this.word(`record.due.${told}`, { count, day: dayOf(next * DAY) });
      due.free();
    } catch (why) {
      this.say('said.failed', { why: String(why) });
    }
  }

  /** Answers by lesson and objective. @param {Row[]} rows */
  #table(rows) {
    // A lesson's folder may be named anew, and it may be read in several languages: both are found by its questions.
    const cards = new Map(this.cards.map(card => [card.question, card]));
    /** @type {Map<string, Map<string, Row[]>>} */
    const lessons = new Map();
    for (const row of rows) {
      const card = cards.get(row.question);
      const title = card?.lesson.title ?? row.lesson;
      const lesson = lessons.get(title) ?? new Map();
      const about = card?.about || row.objective || row.question;
      lessons.set(title, lesson.set(about, [...(lesson.get(about) ?? []), row]));
    }
    const head = element('tr', {}, ...['objective', 'answers', 'marks', 'last'].map(column => element('th', { scope: 'col' }, this.word(`column.${column}`))));
    const line = (/** @type {[string, Row[]]} */ [about, answers]) => {
      const share = answers.reduce((sum, row) => sum + row.mark.share, 0) / answers.length;
      const cells = [String(answers.length), percent(share), dayOf(answers.at(-1)?.time ?? 0)];
      return element('tr', {}, element('th', { scope: 'row' }, about), ...cells.map(cell => element('td', {}, cell)));
    };
    const bodies = [...lessons].map(([lesson, lines]) => element('tbody', {}, element('tr', {}, element('th', { scope: 'rowgroup', colspan: '4' }, lesson)), ...[...lines].map(line)));
    this.named('table').replaceChildren(element('caption', {}, this.word('caption', { who: this.#who })), element('thead', {}, head), ...bodies);
  }

  /** The latest answers, each a mark: high right, low not. @param {Row[]} rows */
  #chart(rows) {
    const latest = rows.slice(-60);
    const right = latest.filter(row => row.mark.share === 1).length;
    const marks = latest.map((row, at) => drawn('circle', { cx: 8 + at * 10, cy: 52 - 44 * row.mark.share, r: 3.5 }));
    const name = this.word('chart', { count: latest.length, right });
    this.named('chart').replaceChildren(drawn('svg', { viewBox: '0 0 608 60', role: 'img', 'aria-label': name }, drawn('path', { d: 'M0 8h608M0 52h608' }), ...marks), element('p', { class: 'facts' }, name));
  }
}

customElements.define('outlean-record', RecordElement);
