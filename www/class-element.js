// <outlean-class>: records of many learners taken in from their files, as one table by objective. What the files hold and what they
// come to is the program's to say (crate/class over crate/course): here it is set out. Nothing is kept unless asked for.

import { dayOf, give, styled } from './apart.js';
import { canKeep, exported, imported, listed, NoRecord, textOf } from './attempts.js';
import { cardsOf } from './course.js';
import { element } from './element.js';
import { beside } from './origin.js';
import { reason } from './reason.js';
import { percent } from './share.js';
import { WordedElement } from './worded.js';
import begin, { ClassTable } from './wasm/class.js';

/** @typedef {import('./attempts.js').Reason} Reason */
/** @typedef {{ learner: string | null, attempts: number, aside: Reason[] }} Taken What came of a file. */
/** @typedef {{ attempts: number, share: number, last: number } | null} Cell */
/** @typedef {{ objectives: string[], learners: { learner: string, cells: Cell[] }[] }} Table */

class ClassElement extends WordedElement {
  /** @type {any} */ #class;
  /** @type {string[]} The files that are records, to be kept if asked for. */ #texts = [];
  /** @type {Map<string, { place: number, title: string, about: string }>} Where in the course an objective stands, and how it is said here. */ #places = new Map();

  async begin() {
    styled('record.css');
    styled('class.css');
    // Of an objective that several questions are about the first counts.
    this.#places = new Map(cardsOf(this).map(({ about, kept, lesson }, place) => /** @type {const} */ ([kept, { place, title: lesson.title, about }])).reverse());
    try {
      await this.awaited(Promise.all([this.learn('records', 'class'), begin({ module_or_path: fetch(beside('wasm/class_bg.wasm')) })]));
    } catch {
      return; // the page says so
    }
    this.#class = new ClassTable();
    this.#build();
    this.#show();
    this.dataset.ready = '';
  }

  #build() {
    const word = (/** @type {string} */ key) => this.word(key);
    const key = (/** @type {string} */ name, /** @type {() => unknown} */ act) => {
      const button = element('button', { type: 'button', 'data-part': name }, word(`key.${name}`));
      button.addEventListener('click', async () => {
        try {
          await act();
        } catch (why) {
          this.say('said.failed', { why: String(why) });
        }
      });
      return button;
    };
    const file = element('input', { type: 'file', multiple: '', accept: '.json,application/json', 'data-part': 'file' });
    file.addEventListener('change', async () => {
      const files = [...(file.files ?? [])];
      await this.#take(files.map(each => ({ name: each.name, text: () => textOf(each) })));
      file.value = '';
    });
    const counts = element('input', { type: 'checkbox', 'data-part': 'counts' });
    counts.addEventListener('change', () => this.toggleAttribute('data-counts', counts.checked));
    this.replaceChildren(
      element('p', { class: 'how' }, word('how')),
      element('div', { class: 'keys' }, element('label', { class: 'key' }, word('take'), ' ', file), key('here', () => this.#here())),
      element('p', { class: 'record-said', role: 'status', 'data-part': 'said' }),
      element('p', { 'data-part': 'none' }, word('none')),
      element('div', { 'data-part': 'all', hidden: '' },
        element('p', { class: 'keys' }, element('label', {}, counts, ' ', word('counts'))),
        element('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-labelledby': 'class-caption' }, element('table', { 'data-part': 'table' })),
        element('p', {}, word('practical')),
        element('div', { class: 'keys' },
          key('csv', () => give('class.csv', this.#class.csv(), 'text/csv')),
          key('answers', () => give('answers.csv', this.#class.answers(), 'text/csv')),
          key('print', () => print()),
          key('keep', () => this.#keep()),
          key('empty', () => this.#empty()))),
      element('section', { 'data-part': 'read', hidden: '' }, element('h2', {}, word('files')), element('ul', { 'data-part': 'files' })),
      element('p', {}, element('a', { href: '../record/' }, word('record'))),
    );
  }

  /** Takes in files, one after another; those that are damaged are named. @param {{ name: string, text(): Promise<string> }[]} files */
  async #take(files) {
    let [read, aside] = [0, 0];
    const tell = (/** @type {string} */ key, /** @type {Record<string, string | number>} */ places) =>
      this.named('files').append(element('li', /\.(aside|part|unread)$/.test(key) ? { class: 'aside' } : {}, this.word(key, places)));
    for (const { name: file, text } of files) {
      let content;
      try {
        content = await text();
      } catch (why) {
        if (why instanceof NoRecord) tell('file.aside', { file, ...reason(this.words, why.why) });
        else tell('file.unread', { file, why: String(why) });
        aside += 1;
        continue;
      }
      /** @type {Taken} */
      const taken = JSON.parse(this.#class.take(content));
      aside += taken.aside.length;
      if (taken.learner !== null) {
        read += 1;
        this.#texts.push(content);
        tell(taken.attempts === 1 ? 'file.one' : 'file', { file, learner: taken.learner, attempts: taken.attempts });
      }
      for (const why of taken.aside) tell(taken.learner === null ? 'file.aside' : 'file.part', { file, ...reason(this.words, why) });
    }
    const learners = this.#show();
    this.named('read').hidden = this.named('files').childElementCount === 0;
    this.say(aside ? 'said.damaged' : 'said.taken', { files: read, learners, aside });
  }

  /** Takes in the records that are kept on this machine. */
  async #here() {
    const { rows } = await listed();
    const learners = [...new Set(rows.map(row => row.learner))];
    if (learners.length === 0) return this.say((await canKeep()) ? 'said.here' : 'said.refused');
    await this.#take(learners.map(learner => ({ name: this.word('here.name'), text: () => exported(learner) })));
  }

  /** Keeps what was taken in on this machine, as the record page does. */
  async #keep() {
    const sum = { attempts: 0, aside: 0 };
    for (const text of this.#texts) {
      const { attempts, aside } = await imported(text);
      sum.attempts += attempts;
      sum.aside += aside;
    }
    this.say('said.kept', sum);
  }

  #empty() {
    this.#class.free();
    this.#class = new ClassTable();
    this.#texts = [];
    this.named('files').replaceChildren();
    this.named('read').hidden = true;
    this.named('said').textContent = '';
    this.#show();
    this.named('file').focus();
  }

  /** Sets the table out: objectives as the course has them, lesson by lesson. Gives how many learners there are. */
  #show() {
    /** @type {Table} */
    const { objectives, learners } = JSON.parse(this.#class.table());
    this.named('none').hidden = learners.length > 0;
    this.named('all').hidden = learners.length === 0;
    const rows = objectives.map((objective, at) => ({ objective, at, ...(this.#places.get(objective) ?? { place: Infinity, title: this.word('other'), about: objective }) }));
    rows.sort((a, b) => (a.place === b.place ? a.at - b.at : a.place - b.place));
    const titles = [...new Set(rows.map(row => row.title))];
    const span = String(learners.length + 1);
    const bodies = titles.map(title => element('tbody', {},
      element('tr', {}, element('th', { scope: 'rowgroup', colspan: span }, title)),
      ...rows.filter(row => row.title === title).map(row => element('tr', {},
        element('th', { scope: 'row' }, row.about || this.word('no_objective')),
        ...learners.map(({ cells }) => this.#cell(cells[row.at]))))));
    const head = element('tr', {}, element('th', { scope: 'col' }, this.word('column.objective')), ...learners.map(({ learner }) => element('th', { scope: 'col' }, element('span', {}, learner))));
    this.named('table').replaceChildren(element('caption', { id: 'class-caption' }, this.word('caption', { pass: percent(ClassTable.pass()) })), element('thead', {}, head), ...bodies);
    return learners.length;
  }

  /** @param {Cell} cell */
  #cell(cell) {
    if (!cell) return element('td', {}, element('span', { 'aria-hidden': 'true' }, this.word('cell.none')), element('span', { class: 'unseen' }, this.word('cell.none.said')));
    const { attempts, share, last } = cell;
    const more = this.word(attempts === 1 ? 'cell.one' : 'cell.many', { attempts, last: dayOf(last) });
    const told = ClassTable.passes(share) ? element('span', {}, percent(share)) : element('u', {}, percent(share, ClassTable.pass()));
    return element('td', {}, told, ' ', element('span', { class: 'more' }, more));
  }
}

customElements.define('outlean-class', ClassElement);
