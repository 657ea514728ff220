// Work that is asked for now and done soon, each kind in a task of its own: none is long enough to hold up a hand, nor is what asks.

export class Tasks {
  #channel = new MessageChannel();
  /** @type {Set<string>} */
  #asked = new Set();

  /** @param {Record<string, () => void>} ways What each kind does. */
  constructor(ways) {
    this.#channel.port1.onmessage = ({ data }) => {
      this.#asked.delete(data);
      ways[data]();
    };
  }

  /** Asks for one kind, once until it is done. @param {string} kind */
  ask(kind) {
    if (!this.#asked.has(kind)) this.#channel.port2.postMessage(kind);
    this.#asked.add(kind);
  }

  /** Does nothing more, not even what is asked for. */
  stop() {
    this.#channel.port1.close();
  }
}
