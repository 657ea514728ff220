// <outlean-plan>: a real exercise, planned. What is there is asked in the order in which a site is walked; what comes of it stands
// beside it as one types. The plan is the text of its rig file (crate/planner): this page shows it, and writes it field by field.

import { give, styled } from './apart.js';
import { element } from './element.js';
import { PlanForm } from './plan-form.js';
import { forgotten, kept, linked, linkOf, MOST, remember } from './plan-kept.js';
import { PlanMeant } from './plan-meant.js';
import { fitted } from './plan-paper.js';
import { drawing, inLines, sections } from './plan-said.js';
import { planner } from './plan-program.js';
import { WordedElement } from './worded.js';
import { wordsOf } from './words.js';

/** @typedef {{ error: boolean, message: string, hint?: string }} Problem */
/** @typedef {{ key: string, heading: string, lines: Record<string, any>[] }} Section */
/** @typedef {{ problems: Problem[], advice: string | null, sections: Section[], proposals: string[] }} Answer */

/** How long nothing is typed before it is worked out what comes of it, and then how surely, ms. */
const BEFORE = 120;
const REST = 500;
/** How long rigs a little off are drawn in one go, ms. */
const SLICE = 4;
/** How many plans lie beside this one at most. */
const BESIDE = 2;

class PlanElement extends WordedElement {
  /** @type {any} */ #planner;
  /** @type {PlanForm | undefined} */ #form;
  /** @type {PlanMeant | undefined} */ #meant;
  /** @type {{ title: string, text: string }[]} */ #examples = [];
  /** @type {[string, string][]} Titles and texts. */ #beside = [];
  /** @type {string | undefined} */ #measured;
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #resting;
  #slice = new MessageChannel();

  async begin() {
    styled('plan.css');
    this.#examples = JSON.parse(this.querySelector('script[type="application/json"]')?.textContent ?? '[]');
    try {
      this.#planner = await this.awaited(this.#learnt());
    } catch (why) {
      const key = 'planner.fail';
      if (this.words[key]) this.replaceChildren(element('p', { role: 'alert' }, this.word(key, { why: String(why) })));
      return; // else the page says so
    }
    this.#build();
    const [link, own] = [await linked(), kept()];
    // A link's plan stands a step after one's own: what comes with a link writes over nothing.
    if (own) this.#planner.open(own);
    if (link && 'text' in link) this.#planner.open(link.text);
    if (link && 'wrong' in link) this.say(`planner.${link.wrong}`, { most: MOST });
    new MutationObserver(() => this.#renew()).observe(document.documentElement, { attributeFilter: ['data-theme', 'data-units'] });
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => this.#draw(false));
    addEventListener('beforeprint', () => this.#print());
    addEventListener('afterprint', () => this.#draw(false));
    this.#renew();
    this.dataset.ready = '';
  }

  async #learnt() {
    const [picture] = await Promise.all([wordsOf('picture'), this.learn('working', 'native', 'plan', 'planner', 'shell')]);
    return planner(this.words, picture);
  }

  /** The text of the rig file as it stands. */
  get text() {
    return this.#planner?.text() ?? '';
  }

  #build() {
    const word = (/** @type {string} */ key) => this.word(`planner.${key}`);
    const key = (/** @type {string} */ name, /** @type {() => unknown} */ act) => {
      const button = element('button', { type: 'button', 'data-part': name }, word(name));
      button.addEventListener('click', async () => {
        this.say('');
        await act();
      });
      return button;
    };
    const file = (/** @type {string} */ name, /** @type {(text: string) => void} */ take) => {
      const input = element('input', { type: 'file', accept: '.toml,text/plain', 'data-part': name });
      input.addEventListener('change', async () => {
        this.say('');
        try {
          const given = input.files?.[0];
          if (given && given.size > MOST) this.say('planner.file_long', { bytes: given.size, most: MOST });
          else if (given) take(await given.text());
        } catch (why) {
          this.say('planner.file_failed', { why: String(why) });
        }
        input.value = '';
      });
      return element('label', { class: 'key file' }, word(name), input);
    };
    const examples = element('select', { 'data-part': 'example' }, element('option', { value: '' }, word('example.none')), ...this.#examples.map(({ title }, place) => element('option', { value: String(place) }, title)));
    examples.addEventListener('change', () => {
      const chosen = this.#examples[Number(examples.value)];
      if (examples.value && chosen) this.#open(chosen.text);
      examples.value = '';
    });
    this.#form = new PlanForm(this.words, (key, value, done) => this.#set(key, value, done), number => this.#guy(number));
    this.#meant = new PlanMeant(this.words, this.#form.element, (...asked) => JSON.parse(this.#planner.meant(...asked)));
    this.replaceChildren(
      element('div', { class: 'keys' },
        key('new', () => this.#open(this.#planner.start())),
        element('label', { class: 'key' }, word('example'), ' ', examples),
        file('open', text => this.#open(text)),
        key('save', () => give('rig.toml', this.text, 'application/toml')),
        key('lesson', () => this.#lesson()),
        key('link', () => this.#link()),
        key('undo', () => this.#step(true)),
        key('redo', () => this.#step(false)),
        key('keep', () => this.#keep()),
        file('measured', text => { this.#measured = text; this.#renew(); }),
        key('print', () => print())),
      element('p', { class: 'plan-said', role: 'status', 'data-part': 'said' }),
      element('div', { class: 'plan' },
        element('section', { class: 'plan-form', 'aria-labelledby': 'plan-form' }, element('h2', { id: 'plan-form' }, word('form')), this.#meant.element, this.#form.element),
        element('section', { class: 'plan-answers', tabindex: '0', 'aria-labelledby': 'plan-answers' }, element('h2', { id: 'plan-answers' }, word('answers')),
          element('p', { class: 'plan-caution' }, this.word('caution')),
          element('p', { class: 'plan-title', 'data-part': 'title' }),
          element('div', { 'data-part': 'beside' }),
          element('div', { 'data-part': 'aside' }),
          element('div', { 'data-part': 'answers' }),
          element('p', { class: 'facts', 'data-part': 'surely' }),
          element('section', { class: 'plan-names' }, element('h3', {}, word('names')), this.#names(), element('p', { 'data-part': 'printed' })),
          element('p', { class: 'plan-caution twice' }, this.word('caution')))),
    );
  }

  #names() {
    const head = element('tr', {}, ...['name', 'role', 'signature'].map(name => element('th', { scope: 'col' }, this.word(`planner.${name}`))));
    return element('table', {}, element('thead', {}, head), element('tbody', {}, ...Array.from({ length: 4 }, () => element('tr', {}, element('td', {}), element('td', {}), element('td', {})))));
  }

  /** @param {string} text */
  #open(text) {
    this.#planner.open(text);
    this.#measured = undefined;
    this.#renew();
  }

  /** @param {boolean} back */
  #step(back) {
    if (this.#planner.step(back)) this.#renew();
  }

  /** @param {string} key @param {string} value @param {boolean} done whether one is through with it */
  #set(key, value, done) {
    // One who empties an entry is about to write another: it goes out of the file once they are through with it.
    if (!value.trim() && !done) return this.#hold(key);
    if (!this.#planner.set(key, value)) this.say('planner.no_place');
    if (done) this.#planner.rest();
    this.#renew();
  }

  /** Takes the guy of a number out, or adds one and asks where it is anchored. @param {number} [number] */
  #guy(number) {
    const added = number === undefined ? this.#planner.add_guy() : undefined;
    if (number === undefined ? added === undefined : !this.#planner.take_out_guy(number)) return this.say('planner.no_place');
    this.#renew();
    this.say(number === undefined ? 'planner.guy_added' : 'planner.guy_gone', { number: (number ?? added) + 1 });
    if (number === undefined) this.#form?.focus(`guy.${added}.setback`);
    else this.named('undo').focus();
  }

  /** Works out no more of what was there. */
  #stop() {
    clearTimeout(this.#resting);
    this.#slice.port1.onmessage = null;
    this.named('surely').textContent = '';
  }

  /** Says nothing of a rig while one of its entries is empty. @param {string} key */
  #hold(key) {
    this.#stop();
    this.dataset.surely = 'false';
    this.#form?.element.removeAttribute('aria-busy');
    this.#wait([this.#form?.means(key) ?? key], []);
  }

  /** Says what is waited for. @param {string[]} fields @param {Problem[]} problems */
  #wait(fields, problems) {
    const waiting = fields.length > 0 ? this.word('planner.waiting', { fields: fields.join(', ') }) : this.word('planner.waiting.file');
    this.named('answers').dataset.advice = 'none';
    this.named('answers').replaceChildren(element('p', { class: 'lead' }, waiting), element('ul', {}, ...inLines(problems)));
    this.named('beside').replaceChildren();
    this.named('aside').replaceChildren();
  }

  #lesson() {
    const lesson = this.#planner.lesson();
    if (!lesson) return this.say('planner.lesson.none');
    give('lesson.md', lesson, 'text/markdown');
    give('rig.toml', this.text, 'application/toml');
    this.say('planner.lesson.saved');
  }

  async #link() {
    /** @type {string} */
    let href;
    try {
      href = await linkOf(this.text);
    } catch {
      return this.say('planner.link_long', { most: MOST });
    }
    try {
      await navigator.clipboard.writeText(href);
      this.say('planner.linked');
    } catch {
      history.replaceState(null, '', href);
      this.say('planner.link_failed');
    }
  }

  #keep() {
    if (this.#beside.length >= BESIDE) return this.say('planner.keep_full');
    const letter = 'AB'.split('').find(letter => this.#beside.every(([title]) => title !== this.word('planner.variant', { letter }))) ?? 'A';
    this.#beside.push([this.word('planner.variant', { letter }), this.text]);
    this.say('planner.kept');
    this.#renew();
  }

  /** Shows what is there and what comes of it. */
  #renew() {
    const us = document.documentElement.dataset.units === 'us';
    this.#planner.show_in(us);
    remember(this.text) || forgotten(() => this.say('planner.unkept'));
    const form = JSON.parse(this.#planner.form());
    this.#form?.show(form);
    this.#meant?.draw();
    const [back, forth] = this.#planner.steps();
    this.named('undo').disabled = back === 0;
    this.named('redo').disabled = forth === 0;
    this.#stop();
    this.#form?.element.setAttribute('aria-busy', 'true');
    this.dataset.surely = 'false';
    // What is typed is shown first.
    this.#resting = setTimeout(() => {
      this.#answers(form);
      this.#form?.element.removeAttribute('aria-busy');
      this.#resting = setTimeout(() => this.#surely(form), REST);
    }, BEFORE);
  }

  /** Draws rigs a little off, a slice at a time, and says how surely it holds. @param {import('./plan-form.js').Form} form */
  #surely(form) {
    const until = performance.now() + SLICE;
    let left = 0;
    do left = this.#planner.draw(1); while (left > 0 && performance.now() < until);
    this.named('surely').textContent = left > 0 ? this.word('planner.drawing', { left }) : '';
    if (left > 0) {
      // The next slice is a task of its own, without the wait that timers have.
      this.#slice.port1.onmessage = () => this.#surely(form);
      this.#slice.port2.postMessage(null);
    } else this.#sure(form);
  }

  /** Says what comes of it, all drawn. @param {import('./plan-form.js').Form} form */
  #sure(form) {
    this.#answers(form);
    this.#form?.element.removeAttribute('aria-busy');
    this.named('surely').textContent = '';
    this.dataset.surely = 'true';
  }

  /** @param {import('./plan-form.js').Form} form */
  #answers(form) {
    const at = this.named('answers');
    /** @type {Answer} */
    const answer = JSON.parse(this.#planner.answer());
    at.dataset.advice = answer.advice ?? 'none';
    if (!answer.advice) return this.#wait(this.#form?.wrong(form) ?? [], answer.problems);
    // A list of changes is one of keys here.
    const shown = sections(this.words, answer.sections, section => section.key === 'proposals' ? this.#proposals(answer.proposals) : []);
    const [occasion, verdict, ...rest] = shown;
    // What to do with it first, and what it looks like.
    at.replaceChildren(...[verdict, element('figure', { 'data-part': 'side' }), occasion, ...rest].filter(Boolean));
    this.#draw(false);
    this.#besides();
  }

  /** @param {string[]} proposals */
  #proposals(proposals) {
    const row = (/** @type {string} */ proposal, /** @type {number} */ place) => {
      const key = element('button', { type: 'button', 'aria-describedby': `change-${place}`, 'data-change': String(place) }, this.word('planner.apply'));
      key.addEventListener('click', () => {
        if (!this.#planner.propose(place)) return this.say('planner.by_hand');
        this.#renew();
        this.say('planner.applied', { change: proposal });
        this.named('undo').focus();
      });
      return element('li', {}, element('span', { id: `change-${place}` }, proposal), ' ', key);
    };
    return [element('ol', { class: 'changes' }, ...proposals.map(row))];
  }

  /** Other plans, and what was measured, beside this one. */
  #besides() {
    const beside = this.named('beside');
    if (this.#beside.length === 0) beside.replaceChildren();
    else {
      const { sections: said, unread } = JSON.parse(this.#planner.beside(this.#beside.flat()));
      const keys = this.#beside.map(([title, text], place) => {
        const on = element('button', { type: 'button' }, `${title}: ${this.word('planner.swap')}`);
        on.addEventListener('click', () => {
          this.#beside[place] = [title, this.text];
          this.#open(text);
        });
        const drop = element('button', { type: 'button' }, `${title}: ${this.word('planner.drop')}`);
        drop.addEventListener('click', () => {
          this.#beside.splice(place, 1);
          this.#renew();
        });
        return [on, drop];
      });
      beside.replaceChildren(...unread.map((/** @type {string} */ title) => element('p', {}, this.word('planner.unread', { title }))), ...sections(this.words, said), element('div', { class: 'keys' }, ...keys.flat()));
    }
    const aside = this.named('aside');
    if (this.#measured === undefined) return aside.replaceChildren();
    const { sections: said, problems } = JSON.parse(this.#planner.measured(this.#measured));
    const drop = element('button', { type: 'button' }, this.word('planner.measured.drop'));
    drop.addEventListener('click', () => {
      this.#measured = undefined;
      this.#renew();
    });
    aside.replaceChildren(element('ul', {}, ...inLines(problems)), ...sections(this.words, said), element('div', { class: 'keys' }, drop));
  }

  /** However much there is, it goes on two sides of paper: all of what stands in the text now, how surely it holds too. */
  #print() {
    if (this.dataset.surely !== 'true') {
      this.#stop();
      while (this.#planner.draw(64) > 0);
      this.#sure(JSON.parse(this.#planner.form()));
    }
    this.#draw(true);
    this.named('title').textContent = this.#form?.value('title') ?? '';
    this.named('printed').textContent = this.word('planner.printed', { date: new Date().toLocaleDateString(document.documentElement.lang, { dateStyle: 'long' }) });
    const answers = /** @type {HTMLElement} */ (this.querySelector('.plan-answers'));
    fitted(this, answers, left => this.word('planner.left_off', { things: left.map(name => this.word(`planner.left_off.${name}`)).join(', ') }));
  }

  /** Draws the frame, on paper in the inks of print. @param {boolean} paper */
  #draw(paper) {
    const at = this.named('side');
    if (!at) return;
    const dark = !paper && getComputedStyle(document.documentElement).colorScheme === 'dark';
    // On paper beside the ground plan, at its own size, so that its lettering can be read.
    // For the back row it is drawn small and shown large.
    const projected = document.documentElement.dataset.theme === 'projector';
    const [width, height] = paper ? [252, 197] : projected ? [540, 320] : [830, 480];
    at.replaceChildren(...drawing(this.#planner.side(width, height, dark), this.word('planner.figure')), ...drawing(this.#planner.ground(118, paper ? 52 : 66, dark), this.word('planner.ground')));
    const spread = drawing(this.#planner.spread(560, dark), this.word('planner.spread'));
    const [surely] = this.querySelectorAll('[data-section=uncertainty]');
    surely?.querySelector('svg')?.remove();
    surely?.append(...spread);
  }
}

customElements.define('outlean-plan', PlanElement);
