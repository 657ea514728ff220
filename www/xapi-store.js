// A record store (LRS) as xAPI 1.0.3 has it: statements and documents by HTTP, and what its answers mean.

/** How long an answer is waited for, ms. */
const WAIT = 20_000;

/** What went wrong with a request. */
export class Refused extends Error {
  /** @param {number} status of HTTP; 0 where no answer came @param {string} why @param {number} [after] when to ask again, s */
  constructor(status, why, after = 0) {
    super(why);
    this.status = status;
    this.after = after;
  }

  /** Whether it is no fault of what was sent: the same may be taken later. */
  get passing() {
    return this.status < 400 || this.status >= 500 || [401, 408, 429].includes(this.status);
  }
}

/** Asks; an answer that is no success is thrown. Nothing of the address or the key goes into what is said of it. @param {string} address @param {RequestInit} how */
export async function asked(address, how) {
  /** @type {Response} */
  let answer;
  try {
    answer = await fetch(address, { ...how, cache: 'no-store', referrerPolicy: 'no-referrer', signal: AbortSignal.timeout(WAIT) });
  } catch {
    throw new Refused(0, '');
  }
  if (!answer.ok) throw new Refused(answer.status, `${answer.status} ${answer.statusText}`.trim(), Number(answer.headers.get('Retry-After')) || 0);
  return answer;
}

/** Most bytes of an answer that are read. */
export const MOST = 1_000_000;

/** What an answer says, as JSON; one that is longer than may be is thrown before it is there. @param {Response} answer @returns {Promise<any>} */
export async function said(answer) {
  const reader = answer.body?.getReader();
  const parts = [];
  for (let size = 0, part = await reader?.read(); reader && part && !part.done; part = await reader.read()) {
    size += part.value.length;
    if (size > MOST) {
      reader.cancel().catch(() => {});
      throw new Refused(413, `> ${MOST} B`);
    }
    parts.push(part.value);
  }
  const text = await new Blob(/** @type {any} */ (parts)).text();
  try {
    return JSON.parse(text);
  } catch {
    throw new Refused(answer.status, `${answer.status}, no JSON`);
  }
}

export class RecordStore {
  /** @param {string} endpoint with a slash at its end @param {string} token what opens it */
  constructor(endpoint, token) {
    this.endpoint = endpoint;
    this.headers = { Authorization: `Basic ${token}`, 'X-Experience-API-Version': '1.0.3' };
  }

  /** @param {string} method @param {string} resource @param {Record<string, string>} query @param {any} [body] */
  #ask(method, resource, query, body) {
    const sent = body === undefined ? {} : { body: JSON.stringify(body), headers: { ...this.headers, 'Content-Type': 'application/json' } };
    return asked(`${this.endpoint}${resource}?${new URLSearchParams(query)}`, { method, headers: this.headers, ...sent });
  }

  /** Stores a statement. One that the store has already, by its id, is stored. @param {any} statement */
  async store(statement) {
    try {
      await this.#ask('PUT', 'statements', { statementId: statement.id }, statement);
    } catch (why) {
      if (!(why instanceof Refused) || why.status !== 409) throw why;
    }
  }

  /** A document; nothing where there is none. @param {string} resource @param {Record<string, string>} query @returns {Promise<any>} */
  async document(resource, query) {
    try {
      return await said(await this.#ask('GET', resource, query));
    } catch (why) {
      if (why instanceof Refused && why.status !== 404 && Math.floor(why.status / 100) !== 2) throw why;
      return undefined;
    }
  }

  /** @param {string} resource @param {Record<string, string>} query @param {any} content */
  async keep(resource, query, content) {
    await this.#ask('PUT', resource, query, content);
  }
}
