// The speaker's page: the lesson's steps and notes, what the projected page holds back, and keys that act on that page.
// Loaded only where a page is asked for as the speaker's; it computes nothing and has no figure of its own.

import { styled } from './apart.js';
import { channel, someName, STEPS } from './channel.js';
import { element, say } from './element.js';
import { wordsOf } from './words.js';

/** @typedef {import('./channel.js').Told} Told */
/** @typedef {import('./channel.js').Said['say']} Doing */

/** How often the projected pages are asked where they stand, ms; how often they may fail to answer. */
const ASK = 1500;
const PATIENCE = 3;
/** Where not even the words arrived. */
const MUTE = 'The speaker’s page did not start: its words did not arrive. Reload the page.';

/** A lesson's steps in words: its headings and plates by their text, questions and figures by what they are. @param {DocumentFragment} lesson @param {Record<string, string>} words */
function stepsOf(lesson, words) {
  return [...lesson.querySelectorAll(STEPS)].map(at => {
    const kind = /^OUTLEAN-(\w+)$/.exec(at.tagName)?.[1].toLowerCase();
    const plate = at.querySelector('figcaption');
    return { id: at.id, part: Boolean(kind ?? plate), title: kind ? words[`step.${kind}`] : (plate ?? at).textContent ?? '' };
  });
}

/** Whether something on the channel is what a projected page tells: any page of this address may speak there. @param {any} data @returns {data is Told} */
function tells(data) {
  const { page, gone, step, rig, verdict, question } = data ?? {};
  const words = [page];
  if (!gone) words.push(step, rig);
  if (verdict) words.push(verdict.is, verdict.why);
  const hands = question?.hands ?? [];
  if (!Array.isArray(hands) || !hands.every(each => Number.isInteger(each?.count))) return false;
  if (question) words.push(question.prompt, question.answer, ...hands.map(({ says }) => says));
  return words.every(word => typeof word === 'string');
}

/** What a speaker's page holds as long as it is there. @param {string} name */
const lockOf = name => `outlean speaker ${name}`;

class Desk {
  name = someName();
  line = channel();
  /** @type {Map<string, { told: Told, unanswered: number }>} The projected pages that answer, first heard first. */
  pages = new Map();
  /** @type {string | undefined} The page that is led. */
  page;
  leads = true;
  /** The other speaker's page that leads. */
  leader = '';
  step = '';

  /** @param {HTMLElement} main @param {DocumentFragment} lesson @param {Record<string, string>} words @param {Record<string, string>} notes */
  constructor(main, lesson, words, notes) {
    this.words = words;
    this.notes = notes;
    this.steps = stepsOf(lesson, words);
    this.step = this.steps[0]?.id ?? '';
    const key = (/** @type {string} */ name, /** @type {() => void} */ press) => {
      const button = element('button', { type: 'button', 'data-key': name }, words[`key.${name}`]);
      button.addEventListener('click', press);
      return button;
    };
    this.state = element('p', { class: 'state', role: 'status' });
    this.openKey = element('a', { class: 'key', href: location.pathname, target: '_blank' }, words['key.open']);
    this.turn = key('turn', () => this.other());
    this.take = key('take', () => this.lead());
    this.list = element('ol', { class: 'steps' }, ...this.steps.map(({ id, part, title }) => {
      const button = element('button', { type: 'button' }, title);
      button.addEventListener('click', () => this.go(id));
      return element('li', part ? { class: 'part', 'data-step': id } : { 'data-step': id }, button);
    }));
    this.now = element('h2', { id: 'now' });
    this.next = element('p', { class: 'next' });
    this.note = element('div', { class: 'notes' });
    this.held = element('p', { class: 'held' });
    this.prompt = element('p', { class: 'prompt' });
    this.reveal = key('reveal', () => this.say('reveal'));
    this.hands = element('ol', { class: 'hands' });
    this.is = element('b');
    this.why = element('span');
    this.rig = element('p', { class: 'told' });
    this.moves = /** @type {Doing[]} */ (['sweep', 'back', 'out', 'undo', 'reset']).map(name => key(name, () => this.say(name)));
    this.turns = [key('previous', () => this.by(-1)), key('following', () => this.by(1))];
    const part = (/** @type {string} */ name, /** @type {(Node | string)[]} */ ...inside) =>
      element('section', { class: name, 'aria-labelledby': `of-${name}` }, element('h2', { id: `of-${name}` }, words[`part.${name}`]), ...inside);
    const row = (/** @type {Node[]} */ ...keys) => element('div', { class: 'keys' }, ...keys);
    main.replaceChildren(
      element('h1', {}, words.title),
      element('div', { class: 'standing' }, this.state, row(this.openKey, this.take, this.turn)),
      element('div', { class: 'desk' },
        part('steps', this.list, row(...this.turns), element('p', { class: 'told' }, words.clicker)),
        element('div', {},
          element('section', { class: 'now', 'aria-labelledby': 'now' }, this.now, this.note, this.next),
          part('hidden', this.held, this.prompt, this.hands, row(this.reveal)),
          part('figure', element('p', { class: 'verdict' }, this.is, ' ', this.why), this.rig, row(...this.moves)),
        ),
      ),
    );
    this.line.onmessage = ({ data }) => {
      if (tells(data)) this.hear(data);
      else if (typeof data?.by === 'string') this.meet(data);
    };
    addEventListener('pagehide', () => this.say('bye'));
    addEventListener('keydown', event => this.click(event));
    setInterval(() => this.ask(), ASK);
    // Held until this page is gone, however it goes: not every browser lets a page that closes say so.
    if (navigator.locks) navigator.locks.request(lockOf(this.name), () => { this.lead(); return new Promise(() => {}); });
    else this.lead();
    this.ask();
  }

  /** @param {Doing} say @param {string} [step] @param {{ place: number, way: number }} [hand] */
  say(say, step, hand) {
    this.line.postMessage({ by: this.name, to: this.page, say, step, ...hand });
  }

  /** The hands of the class, to be counted here as well. @param {import('./channel.js').Hands} hands @param {boolean} acts */
  count(hands, acts) {
    const { words } = this;
    const said = JSON.stringify(hands.map(({ says }) => says));
    if (this.hands.dataset.said !== said) {
      this.hands.dataset.said = said;
      this.hands.replaceChildren(...hands.map(({ says }, place) => {
        const key = (/** @type {number} */ way) => {
          const button = element('button', { type: 'button', 'aria-label': `${words[way < 0 ? 'key.less' : 'key.more']}: ${says}` }, way < 0 ? '−' : '+');
          button.addEventListener('click', () => this.say('hand', undefined, { place, way }));
          return button;
        };
        return element('li', {}, element('span', {}, says), element('span', { class: 'keys' }, key(-1), element('b'), key(1)));
      }));
    }
    hands.forEach(({ count }, place) => {
      const item = this.hands.children[place];
      say(/** @type {HTMLElement} */ (item.querySelector('b')), String(count));
      for (const button of item.querySelectorAll('button')) button.disabled = !acts;
    });
  }

  /** Asks every page where it stands; one that no longer answers is gone. */
  ask() {
    for (const [page, known] of this.pages) if (++known.unanswered > PATIENCE) this.forget(page);
    this.line.postMessage({ by: this.name, say: 'hello' });
    this.show();
  }

  /** @param {string} page */
  forget(page) {
    this.pages.delete(page);
    if (this.page === page) this.page = [...this.pages.keys()].at(-1);
  }

  /** What a projected page tells. @param {Told} told */
  hear(told) {
    if (told.gone) this.forget(told.page);
    else {
      this.pages.set(told.page, { told, unanswered: 0 });
      this.page ??= told.page;
      if (told.page === this.page && this.steps.some(({ id }) => id === told.step)) this.step = told.step;
    }
    this.show();
  }

  /** What another speaker's page says: the one that came last speaks, until it closes. @param {import('./channel.js').Said} said */
  meet({ by, say }) {
    if (say === 'bye') this.miss(by);
    if (say !== 'lead') return;
    this.leads = false;
    this.leader = by;
    navigator.locks?.request(lockOf(by), () => this.miss(by));
    this.show();
  }

  /** Another speaker's page is gone. @param {string} name */
  miss(name) {
    if (this.leader !== name) return;
    this.leader = '';
    this.leads = true;
    this.show();
  }

  lead() {
    this.leads = true;
    this.leader = '';
    this.say('lead');
    this.show();
  }

  /** Speaks to the next of the pages that answer. */
  other() {
    const all = [...this.pages.keys()];
    this.page = all[(all.indexOf(this.page ?? '') + 1) % all.length];
    this.show();
  }

  /** @param {string} step */
  go(step) {
    if (!this.leads) return;
    this.step = step;
    this.say('go', step);
    this.show();
  }

  /** @param {number} way */
  by(way) {
    const next = this.steps[this.at() + way];
    if (next) this.go(next.id);
  }

  at() {
    return this.steps.findIndex(step => step.id === this.step);
  }

  /** The keys that a clicker sends. @param {KeyboardEvent} event */
  click(event) {
    const way = { PageDown: 1, PageUp: -1 }[event.key];
    if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.by(way);
  }

  show() {
    const { words, pages, page } = this;
    const told = pages.get(page ?? '')?.told;
    const at = this.at();
    const [now, next] = [this.steps[at], this.steps[at + 1]];
    say(this.state, words[!this.leads ? 'state.other' : !told ? 'state.none' : told.hidden ? 'state.behind' : pages.size > 1 ? 'state.many' : 'state.led'].replace('{count}', String(pages.size)));
    this.openKey.hidden = Boolean(told);
    this.take.hidden = this.leads;
    this.turn.hidden = !this.leads || pages.size < 2;
    for (const item of this.list.children) {
      const button = /** @type {HTMLButtonElement} */ (item.firstElementChild);
      if (/** @type {HTMLElement} */ (item).dataset.step === this.step) button.setAttribute('aria-current', 'step');
      else button.removeAttribute('aria-current');
      button.disabled = !this.leads;
    }
    if (this.now.dataset.step !== this.step) {
      this.now.dataset.step = this.step;
      say(this.now, now?.title ?? '');
      this.note.innerHTML = this.notes[this.step] ?? ''; // made by the build, which takes no HTML of an author's
      if (!this.note.firstChild) this.note.append(element('p', { class: 'told' }, words['notes.none']));
    }
    say(this.next, next ? words.next.replace('{title}', next.title) : words.last);
    const acts = this.leads && told !== undefined;
    const asked = told?.question;
    const hidden = told?.veiled || asked?.open;
    say(this.held, !told ? words['hidden.unknown'] : asked?.open && told.veiled ? words['hidden.both'] : asked?.open ? words['hidden.answer'] : told.veiled ? words['hidden.forces'] : words['hidden.nothing']);
    if (asked) this.held.append(' ', words['hidden.is'], ' ', element('b', { class: 'answer' }, asked.answer));
    say(this.prompt, asked?.prompt ?? '');
    this.count(asked?.hands ?? [], acts);
    this.reveal.disabled = !acts || !hidden;
    say(this.is, told?.verdict?.is ?? '');
    say(this.why, told?.verdict?.why ?? words['figure.unknown']);
    say(this.rig, told?.rig ?? '');
    const [sweep, back, out, undo, reset] = this.moves;
    for (const key of [back, out, reset]) key.disabled = !acts || told.veiled;
    sweep.disabled = !acts || told.veiled || told.reduced;
    undo.disabled = !acts || told.veiled || !told.undo;
    say(sweep, words[told?.playing ? 'key.pause' : 'key.sweep']);
    this.turns[0].disabled = !this.leads || at < 1;
    this.turns[1].disabled = !this.leads || !next;
  }
}

async function sit() {
  const main = document.querySelector('main');
  const lesson = main?.querySelector('template')?.content;
  if (!main || !lesson) return;
  document.documentElement.dataset.speaker = '';
  styled('speaker.css');
  try {
    // Without notes the page still leads.
    const [words, notes] = await Promise.all([wordsOf('speaker'), fetch('notes.json').then(answer => answer.json()).catch(() => ({}))]);
    document.title = `${words.title}: ${document.title}`;
    new Desk(main, lesson, words, notes);
  } catch {
    main.prepend(element('p', { role: 'alert' }, MUTE));
  }
}

sit();
