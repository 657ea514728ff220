// <outlean-refresher>: a refresher from all lessons. What it asks is drawn from the learner's record; its questions are those
// of the lessons' pages, taken out of them, one at a time. Written into the page itself, so that it prints as the page does.
//
// A child <script type="application/json"> holds the course: its lessons, their objectives, their questions.
// Address: ?seed=N draws the same refresher again from the same record.

import { dayOf } from './apart.js';
import { canKeep, listed } from './attempts.js';
import { CourseElement, wayTo } from './course.js';
import { DAY, length, pass, scheduler, today } from './due.js';
import { element } from './element.js';
import { seedBy } from './seed.js';
import { percent } from './share.js';
import { shown } from './shown.js';
import { onOthers, whoAnswers } from './store.js';
import { pageAt } from './taken.js';

/** @typedef {import('./course.js').Card} Card */
/** @typedef {{ card: Card, seed: number, section: HTMLElement, question: HTMLElement & { asked?: any, reveal(): void }, answered: boolean }} Step */

class RefresherElement extends CourseElement {
  /** @type {any} */ #due;
  /** @type {Step[]} */ #steps = [];
  #at = -1;
  #who = '';
  /** When it began: a clock that goes back while it lasts takes no answer with it. */
  #since = 0;

  async begin() {
    if (!(await this.prepared('records', 'refresher'))) return;
    this.#build();
    this.addEventListener('outlean-marked', event => this.#marked(/** @type {CustomEvent} */ (event).detail.share));
    onOthers(() => this.#others());
    await this.#offer();
    this.dataset.ready = '';
  }

  /** @param {string} name @param {() => unknown} act */
  #key(name, act) {
    const key = element('button', { type: 'button', 'data-part': name }, this.word(`key.${name}`));
    key.addEventListener('click', act);
    return key;
  }

  #build() {
    const part = (/** @type {string} */ name, /** @type {(Node | string)[]} */ ...inside) => element('div', { 'data-part': name, hidden: '' }, ...inside);
    this.replaceChildren(
      element('p', { class: 'record-said', role: 'status', 'data-part': 'said' }),
      part('offer', element('p', { 'data-part': 'about' }), element('p', { 'data-part': 'standing' }), element('p', { class: 'facts', 'data-part': 'kept' }), element('div', { class: 'keys' }, this.#key('begin', () => this.#begin()))),
      part('result'),
      element('h2', { 'data-part': 'review', hidden: '' }, this.word('review')),
      element('div', { 'data-part': 'questions' }, element('div', { class: 'keys', 'data-part': 'turns', hidden: '' }, this.#key('unknown', () => this.#unknown()), this.#key('next', () => this.#next()))),
    );
  }

  /** Says what would be asked and why, before it begins. */
  async #offer() {
    try {
      const { rows } = await listed();
      this.#who = await whoAnswers();
      this.#due = await this.awaited(scheduler(this.cards, rows.filter(row => row.learner === this.#who)));
    } catch (why) {
      return this.say('refresher.failed', { why: String(why) });
    }
    const day = today();
    const [due, next] = [this.#due.due(day), this.#due.next(day)];
    const count = Math.min(length(), this.cards.length);
    this.named('about').textContent = this.word('about', { count, pass: percent(pass()) });
    this.named('standing').textContent = due ? this.word(due === 1 ? 'due.one' : 'due.many', { count: due }) : this.word(next ? 'due.later' : 'due.never', { day: dayOf(next * DAY) });
    this.named('kept').replaceChildren(this.word('kept', { who: this.#who }), ' ', element('a', { href: '../record/' }, this.word('kept.turn')));
    this.named('offer').hidden = false;
    this.say(!(await canKeep()) ? 'said.refused' : this.#due.ahead(day) ? 'ahead' : '');
  }

  /** Another page changed what is kept: what is offered is looked at again; what runs goes on. */
  async #others() {
    if (this.#at < 0) return this.#offer();
    const who = await whoAnswers();
    if (who !== this.#who && this.#at < this.#steps.length) this.say('turned', { who });
  }

  /** Draws the questions and takes each out of its lesson's page. */
  async #begin() {
    const seed = seedBy(new URLSearchParams(location.search).get('seed') ?? '');
    const key = this.named('begin');
    key.disabled = true;
    this.#since = Math.floor(Date.now() / 1000);
    try {
      const pairs = [...this.#due.pick(today(), seed)];
      this.#steps = await Promise.all(pairs.filter((_, at) => at % 2 === 0).map(async (place, number) => {
        const card = this.cards[place];
        const page = await pageAt(new URL(wayTo(card.lesson), location.href));
        return { card, seed: pairs[2 * number + 1], answered: false, ...this.#taken(page, card, pairs[2 * number + 1], number + 1, pairs.length / 2) };
      }));
    } catch (why) {
      key.disabled = false;
      return this.say('refresher.failed', { why: why instanceof Error ? why.message : String(why) });
    }
    this.named('offer').hidden = true;
    this.say('');
    this.dataset.running = '';
    this.#next();
  }

  /** A question of a lesson's page, with its figure. @param {Document} page @param {Card} card @param {number} seed @param {number} number @param {number} count */
  #taken(page, card, seed, number, count) {
    const main = page.querySelector('main');
    const found = page.getElementById(card.question);
    if (!main || !found) throw new Error(this.word('refresher.gone', { question: card.question, lesson: card.lesson.title }));
    const question = /** @type {Step['question']} */ (document.importNode(found, true));
    question.setAttribute('seed', String(seed));
    question.setAttribute('once', '');
    question.lang = page.documentElement.lang;
    const section = element('section', { 'data-lesson': card.lesson.name, 'data-version': main.dataset.version ?? '' },
      element('h2', { tabindex: '-1' }, this.word('question', { number, count })),
      element('p', { class: 'facts' }, this.word('from', { lesson: card.lesson.title })));
    const figure = page.getElementById(question.getAttribute('figure') ?? '');
    question.removeAttribute('figure');
    if (figure) {
      figure.querySelector('img')?.remove(); // its address is the lesson's
      const own = /** @type {HTMLElement} */ (document.importNode(figure, true));
      own.id = `figure-${number}`;
      question.setAttribute('figure', own.id);
      section.append(own);
      if (!/^OUTLEAN-(ESTIMATE|SET)$/.test(question.tagName)) shown(question, own);
    }
    for (const link of question.querySelectorAll('a[href^="#"]')) link.setAttribute('href', wayTo(card.lesson) + link.getAttribute('href'));
    // Between them go the keys: who answers does not go through the figure to come to the next.
    section.querySelector('.facts')?.after(question);
    return { section, question };
  }

  /** Puts the next question, or ends. */
  #next() {
    const last = this.#steps[this.#at];
    if (last) {
      last.section.hidden = true;
      last.section.querySelector('outlean-rig')?.remove();
    }
    this.#at += 1;
    const step = this.#steps[this.#at];
    if (!step) return this.#end();
    this.named('questions').append(step.section);
    step.question.after(this.named('turns'));
    this.named('next').hidden = true;
    this.named('next').textContent = this.word(this.#at + 1 < this.#steps.length ? 'key.next' : 'key.result');
    this.named('unknown').hidden = this.named('turns').hidden = false;
    const head = /** @type {HTMLElement} */ (step.section.firstElementChild);
    head.focus({ preventScroll: true });
    head.scrollIntoView({ block: 'start' });
  }

  /** Takes what the present question was marked with. @param {number} share */
  #marked(share) {
    const step = this.#steps[this.#at];
    if (!step || step.answered) return;
    step.answered = true;
    const time = Math.max(this.#since, Math.floor(Date.now() / 1000));
    this.#due.answered(step.card.question, time, step.seed, share);
    this.named('unknown').hidden = true;
    this.named('next').hidden = false;
  }

  /** Shows the answer to who does not know it: an answer of no worth, kept as any. */
  #unknown() {
    const step = this.#steps[this.#at];
    if (!step || step.answered) return;
    if (!step.question.asked) return this.#unasked(step);
    step.question.reveal(); // an estimate that was typed is marked by it
    if (!step.answered) step.question.dispatchEvent(new CustomEvent('outlean-marked', { bubbles: true, composed: true, detail: { seed: step.seed, typed: '', verdict: 'revealed', share: 0, seconds: null, hints: null } }));
    this.named('next').focus();
  }

  /** Goes on from a question that did not start: nobody was asked it. It is taken out, so that it cannot be answered later. @param {Step} step */
  #unasked(step) {
    this.named('questions').append(this.named('turns'));
    step.section.remove();
    this.#steps.splice(this.#at, 1);
    this.#at -= 1;
    this.say('unasked');
    this.#next();
  }

  #end() {
    const end = this.#due.end(Math.max(today(), Math.floor(this.#since / DAY)));
    const back = [...end.back_to()].map(place => this.cards[place]);
    const link = (/** @type {Card} */ card) => element('li', {}, element('a', { href: card.href }, card.about), ' ', element('span', { class: 'facts' }, this.word('from', { lesson: card.lesson.title })));
    const result = this.named('result');
    result.replaceChildren(
      element('h2', { tabindex: '-1' }, this.word(end.passed ? 'passed' : 'not_passed')),
      element('p', {}, this.word('share', { count: this.#steps.length, share: percent(end.share, end.passed ? undefined : pass()), pass: percent(pass()) })),
      element('p', {}, this.word(back.length ? 'back' : 'back.none')),
      ...(back.length ? [element('ul', { 'data-part': 'back' }, ...back.map(link))] : []),
      element('p', { 'data-part': 'day' }, this.word('next', { day: dayOf(end.next * DAY) })),
      element('p', {}, this.word('practical.why')),
      element('div', { class: 'keys' }, this.#key('print', () => print()), element('a', { class: 'key', href: '../record/' }, this.word('key.record'))),
    );
    result.hidden = this.named('review').hidden = false;
    this.named('turns').remove();
    delete this.dataset.running;
    for (const { section } of this.#steps) section.hidden = false;
    const head = /** @type {HTMLElement} */ (result.firstElementChild);
    head.focus({ preventScroll: true });
    head.scrollIntoView({ block: 'start' });
  }
}

customElements.define('outlean-refresher', RefresherElement);
