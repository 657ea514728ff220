// <outlean-offline>: keeps the course on this machine when asked to, says which version that is, and takes a newer one when told.
// Attribute size: of all files, bytes.

import { styled } from './apart.js';
import { element } from './element.js';
import { WordedElement } from './worded.js';

/** What stands beside the first page: a worker answers for what is below it. @param {string} name */
const at = name => new URL(name, new URL('./', location.href)).href;

class OfflineElement extends WordedElement {
  #said = element('p', { role: 'status' });
  #keys = element('p', { class: 'keys' });
  /** @type {ServiceWorkerRegistration | undefined} */ #kept;

  async begin() {
    this.dataset.state = '';
    styled('record.css');
    try {
      await this.learn('offline');
    } catch {
      return; // what stands between the tags says so
    }
    this.replaceChildren(this.#said, this.#keys);
    const workers = navigator.serviceWorker;
    if (!workers || !isSecureContext) return this.#show('none');
    workers.addEventListener('message', ({ data }) => {
      if (data.all) this.#show('keeping', { done: String(data.done), all: String(data.all) });
      if (data.failed && !this.#kept?.active) this.#show('failed', { why: data.failed });
      if (data.version) this.#show(this.#kept?.waiting ? 'newer' : 'kept', { version: data.version.slice(0, 8) });
    });
    workers.addEventListener('controllerchange', () => { if (this.dataset.state === 'newer') location.reload(); });
    this.#kept = await workers.getRegistration(at('')).catch(() => undefined);
    if (this.#kept) this.#watch(this.#kept);
    this.#stands();
  }

  /** Says how it stands. */
  #stands() {
    const active = this.#kept?.active;
    if (active) active.postMessage('version');
    else if (!this.#kept?.installing) this.#show('away', { size: (Number(this.getAttribute('size')) / 1e6).toFixed(1) });
  }

  /** @param {ServiceWorkerRegistration} kept */
  #watch(kept) {
    const follow = () => kept.installing?.addEventListener('statechange', event => {
      const { state } = /** @type {ServiceWorker} */ (event.target);
      if (state === 'installed' || state === 'activated') this.#stands();
    });
    follow();
    kept.addEventListener('updatefound', follow);
  }

  async #keep() {
    try {
      this.#kept = await navigator.serviceWorker.register(at('offline-worker.js'));
      this.#watch(this.#kept);
    } catch (why) {
      this.#show('failed', { why: String(why) });
    }
  }

  async #forget() {
    await this.#kept?.unregister();
    for (const name of await caches.keys()) if (name.startsWith('outlean-')) await caches.delete(name);
    this.#kept = undefined;
    this.#stands();
  }

  /** @param {'none' | 'away' | 'keeping' | 'kept' | 'newer' | 'failed'} state @param {Record<string, string>} [values] */
  #show(state, values) {
    this.dataset.state = state;
    this.#said.textContent = this.word(`offline.${state}`, values);
    const key = (/** @type {string} */ name, /** @type {() => unknown} */ act) => {
      const button = element('button', { type: 'button', 'data-part': name }, this.word(`offline.key.${name}`));
      button.addEventListener('click', act);
      return button;
    };
    const keep = () => key('keep', () => this.#keep());
    const forget = () => key('forget', () => this.#forget());
    const use = () => key('use', () => this.#kept?.waiting?.postMessage('take over'));
    const keys = { none: [], away: [keep], keeping: [], kept: [forget], newer: [use, forget], failed: [keep] }[state];
    this.#keys.replaceChildren(...keys.map(make => make()));
  }
}

if (!customElements.get('outlean-offline')) customElements.define('outlean-offline', OfflineElement);
