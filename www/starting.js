// What all elements have in common: they start once they stand in a page, say why where they cannot, follow its settings while they
// stand there, and hold on to nothing of it once they are gone.

import { element } from './element.js';
import { engine, StartFailure, vocabulary } from './engine.js';
import { contentOf, FOLLOWED, onSettings, stillOf, styles } from './given.js';
import { awaited } from './late.js';
import { fill } from './words.js';

/** All that can be said where not even the words arrived. */
const UNSAID = 'This page did not start: its words did not arrive. Reload it.';

/** How long words are waited for once there is something to say, ms. */
const SOON = 1000;

/** The data in an element's content. @param {HTMLElement} content @returns {unknown} */
function dataOf(content) {
  try {
    return JSON.parse(content.querySelector('script[type="application/json"]')?.textContent ?? '');
  } catch (why) {
    throw new StartFailure('content', { why: String(why) });
  }
}

/** @type {Set<string>} Failures that were announced: of several elements that fail alike one is enough. */
const announced = new Set();

/**
 * An element over the program. What its kind adds: how it is made, and what it does while it stands in a page.
 *
 * @slot - What is shown until it starts, and where it cannot: words, a still picture, numbers. The rig or question itself may stand there,
 * as `outlean embed` and the course's pages have it.
 * @attr {string} src - With elements.js: where it is taken from instead, the address of a page of the course and after `#` the id of an
 * element in it. From where the script or the page comes from; nothing else is shown.
 * @attr {'light' | 'dark' | 'projector' | 'sunlight'} theme - With elements.js: its colours and sizes. Left out, it is light or dark as the page
 * is where it stands (`color-scheme`).
 * @attr {'metric' | 'us'} units - With elements.js: the units of its numbers; metric where it is left out.
 * @attr {boolean} cautioned - The page itself shows the caution, which must always be in sight near a result: it is not said here again.
 * @fires {CustomEvent<{ cause: string }>} outlean-failed - It cannot start, and says why in its place: `absent`, `fetch`, `type`, `forbidden`, `compile`,
 * `version`, `words`, `style`, `canvas`, `attribute`, `src`, `content`, `rig`, `question` or `other`; or `late`: it may yet start.
 * @csspart fail - The sentence that says why it cannot start.
 * @csspart still - What stands in its place meanwhile, where it is taken from elsewhere.
 * @cssprop --paper - What it is drawn on. Set on the element, as the others are.
 * @cssprop --ink - Lines and lettering.
 * @cssprop --ink-2 - Notes and dimensions.
 * @cssprop --rule - Hairlines of tables.
 * @cssprop --out-wash - What is outside the working range, below its hatch.
 * @cssprop --out-hatch - That hatch.
 * @cssprop --pencil - Predictions of the learner.
 * @cssprop --label - The family of labels and numbers. Labels are laid out by the widths of the usual one.
 * @cssprop --text - The family of sentences.
 * @cssprop --target - Least height of what is pressed.
 */
export class StartingElement extends HTMLElement {
  static observedAttributes = FOLLOWED;
  /** Its style sheet. @internal */
  css = '';
  /** @internal @type {import('./words.js').Words} */ words = {};
  /** What to undo once it is taken out of the page. @internal @type {(() => void)[]} */ stops = [];
  /** Whether it is made. @internal */
  made = false;
  #starting = false;
  /** Whether what it is made of changed while it started. */
  #stale = false;

  connectedCallback() {
    if (!this.shadowRoot) this.attachShadow({ mode: 'open' }).append(element('slot'));
    if (this.made) this.#watch();
    else if (!this.#starting) this.#start();
  }

  disconnectedCallback() {
    this.stops.splice(0).forEach(stop => stop());
  }

  /** @param {string} name @param {string | null} was @param {string | null} is */
  attributeChangedCallback(name, was, is) {
    if (!this.shadowRoot || was === is) return;
    if (this.#starting) this.#stale = true;
    else if (!this.made || name === 'src' || name === 'seed') this.#again();
  }

  /** Is as before it was made. */
  #unmake() {
    this.disconnectedCallback();
    this.made = false;
    this.free();
  }

  /** Starts anew. */
  #again() {
    this.#unmake();
    if (this.isConnected) this.#start();
  }

  async #start() {
    this.#starting = true;
    const root = /** @type {ShadowRoot} */ (this.shadowRoot);
    /** @type {HTMLElement} */
    let still = element('slot');
    const standing = contentOf(this).then(content => {
      still = stillOf(content);
      root.replaceChildren(still);
      return content;
    });
    const late = () => this.#fail(new StartFailure('late'), still);
    try {
      const [content, words, sheets, gathered] = await awaited(Promise.all([standing, engine(), styles(this.css), this.gather()]), late);
      this.words = words;
      const outer = this.make(dataOf(content), content, gathered);
      root.adoptedStyleSheets = sheets;
      root.replaceChildren(outer);
      this.made = true;
      this.begin();
      if (this.isConnected) this.#watch();
    } catch (why) {
      this.#unmake();
      await standing.catch(() => {});
      await this.#fail(why, still);
    }
    this.#starting = false;
    if (this.#stale) this.#again();
    this.#stale = false;
  }

  /** Says in the page why there is nothing; what stands between the tags stays. @param {unknown} why @param {HTMLElement} still */
  async #fail(why, still) {
    const { cause, places } = why instanceof StartFailure ? why : new StartFailure('other', { why: String(why) });
    /** @type {import('./words.js').Words} */
    const words = await Promise.race([vocabulary(), new Promise(done => setTimeout(done, SOON, {}))]).catch(() => ({}));
    if (this.made) return;
    const said = words[`fail.${cause}`] ? fill(words, `fail.${cause}`, places) : UNSAID;
    const first = !announced.has(said);
    announced.add(said);
    this.shadowRoot?.replaceChildren(element('p', { class: 'fail', part: 'fail', ...(first && { role: 'alert' }) }, said), still);
    this.dispatchEvent(new CustomEvent('outlean-failed', { bubbles: true, composed: true, detail: { cause } }));
  }

  #watch() {
    this.stops.push(onSettings(this, () => this.settle()));
    this.watch();
    this.settle();
  }

  // What a kind says of itself.

  /** What else it needs. @internal */
  async gather() {
    return /** @type {any} */ (undefined);
  }
  /** Its parts, made of the data that is written in its content. @internal @param {any} _data @param {HTMLElement} _content @param {any} _gathered @returns {HTMLElement} */
  make(_data, _content, _gathered) {
    return element('div');
  }
  /** Gives up what it was made of. @internal */
  free() {}
  /** What it does once it is made. @internal */
  begin() {}
  /** What it does as long as it stands in a page; how to undo that goes to `stops`. @internal */
  watch() {}
  /** Takes on theme and units. @internal */
  settle() {}
}
