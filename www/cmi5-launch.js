// How a learning system starts a page by cmi5: what stands in the address, kept for this tab alone until the visit is ended.
//
// The key to the records can be fetched once, so a page that is loaded again must still have it: it stands in sessionStorage, which
// other tabs and later visits never see, and is taken out when the visit ends. Out of the address all of it goes at once, so that no
// link, bookmark or history holds it. A launch by an address that holds the key itself (`auth`, from before cmi5) is not taken: such an
// address stands in histories and in servers' logs, and nothing in it says what counts as passed.

/**
 * What the system says of this launch (its document LMS.LaunchData), as far as it is gone by.
 * @typedef {{ contextTemplate: any, launchMode: string, masteryScore?: number, returnURL?: string }} LaunchData
 *
 * @typedef {object} Launch
 * @property {string} endpoint of the record store, with a slash at its end
 * @property {string} fetch where the key is fetched, once
 * @property {any} actor the learner
 * @property {string} registration
 * @property {string} activityId
 * @property {string} visit which visit this is, by chance
 * @property {number} began ms since 1970
 * @property {string} [token] the key
 * @property {LaunchData} [data]
 */

const NAMES = ['endpoint', 'fetch', 'actor', 'registration', 'activityId'];
/** Of a launch from before cmi5. */
const BEFORE = ['auth', 'activity_id'];

/** A launch that cannot be gone by: which word says so. */
export class Unlaunched extends Error {
  /** @param {'plain' | 'damaged'} said @param {string} [field] */
  constructor(said, field = '') {
    super(said);
    this.said = said;
    this.field = field;
  }
}

/** A UUID by chance (RFC 9562, version 4); crypto.randomUUID is there on secure pages only. */
export function someId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 15) | 64;
  bytes[8] = (bytes[8] & 63) | 128;
  const hex = [...bytes].map(byte => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

const shelf = () => `outlean.cmi5 ${location.pathname}`;

/** Keeps it for this tab. @param {Launch} launch */
export function keepLaunch(launch) {
  try {
    sessionStorage.setItem(shelf(), JSON.stringify(launch));
  } catch {
    // Storage is forbidden here: a page that is loaded again has to be started anew, and says so.
  }
}

/** Once the visit is over. */
export function dropLaunch() {
  try {
    sessionStorage.removeItem(shelf());
  } catch {
    // As above.
  }
}

/** @returns {Launch | undefined} */
function kept() {
  try {
    return JSON.parse(sessionStorage.getItem(shelf()) ?? 'null') ?? undefined;
  } catch {
    return undefined;
  }
}

/** The launch of this page, if it is a cmi5 one; throws `Unlaunched` for one that cannot be gone by. */
export function launchOfPage() {
  const address = new URL(location.href);
  const given = new Map([...NAMES, ...BEFORE].map(name => [name, address.searchParams.get(name)]));
  const before = kept();
  if (![...given.values()].some(value => value !== null)) return before;
  for (const name of given.keys()) address.searchParams.delete(name);
  history.replaceState(history.state, '', address);
  // The system's own page was loaded again, and with it this one: its key was fetched already.
  if (before && before.fetch === webAddress(given.get('fetch'))) return before;
  if (given.get('fetch') === null) throw new Unlaunched('plain');
  const launch = launchFrom(given);
  keepLaunch(launch);
  return launch;
}

/** An address of the web; nothing for one of any other kind, which could run a script. @param {unknown} address */
export function webAddress(address) {
  try {
    const { protocol, href } = new URL(String(address));
    return /^https?:$/.test(protocol) ? href : undefined;
  } catch {
    return undefined;
  }
}

/** @param {Map<string, string | null>} given @returns {Launch} */
function launchFrom(given) {
  const take = (/** @type {string} */ name, /** @type {(value: string) => any} */ read) => {
    try {
      const value = read(given.get(name) ?? '');
      if (value) return value;
    } catch {
      // Said below.
    }
    throw new Unlaunched('damaged', name);
  };
  return {
    endpoint: take('endpoint', webAddress).replace(/\/?$/, '/'),
    fetch: take('fetch', webAddress),
    actor: take('actor', value => typeof JSON.parse(value) === 'object' && JSON.parse(value)),
    registration: take('registration', value => value),
    activityId: take('activityId', value => value),
    visit: someId(),
    began: Date.now(),
  };
}
