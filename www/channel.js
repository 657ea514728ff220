// What a projected page and its speaker's page have in common: the channel between them, the steps of a lesson.

/** Whether this page is the speaker's. */
export const speaking = new URLSearchParams(location.search).get('view') === 'speaker';

/** Elements of questions. */
export const QUESTIONS = 'outlean-estimate,outlean-choose,outlean-order,outlean-faults,outlean-set';

/** What a speaker can go to: headings, plates, questions and figures, in the order of the lesson. */
export const STEPS = ['h1', 'h2', ...QUESTIONS.split(','), 'outlean-rig', '.plates li'].map(at => `${at}[id]`).join();

/**
 * What a projected page tells: where it stands. `gone` once it closes.
 * @typedef {object} Told
 * @property {string} page which page, by chance
 * @property {boolean} [gone]
 * @property {string} step the id of the present step
 * @property {boolean} hidden the page is behind something
 * @property {boolean} veiled
 * @property {boolean} playing
 * @property {boolean} reduced
 * @property {boolean} undo
 * @property {import('./engine.js').Verdict | undefined} verdict of the figure that goes with the step
 * @property {string} rig in words
 * @property {{ prompt: string, answer: string, open: boolean, hands?: Hands } | undefined} question
 *
 * The hands that went up for each option.
 * @typedef {{ says: string, count: number }[]} Hands
 *
 * What a speaker's page says, to one page or to all. `hello` asks where it stands; `lead` tells other speakers that this
 * one speaks now, `bye` that it no longer does; `hand` counts one up or down at a place.
 * @typedef {{ by: string, to?: string, say: 'hello' | 'lead' | 'bye' | 'go' | 'reveal' | 'sweep' | 'back' | 'out' | 'undo' | 'reset' | 'hand', step?: string, place?: number, way?: number }} Said
 */

/** The channel of this lesson in this browser. */
export const channel = () => new BroadcastChannel(`outlean ${location.pathname.replace(/index\.html$/, '')}`);

/** A name that no other page has. */
export const someName = () => String(crypto.getRandomValues(new Uint32Array(2)));
