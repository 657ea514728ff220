// What a projected page and its speaker's page have in common: the channel between them, the steps of a lesson.

/** Whether this page is the speaker's. */
export const speaking = new URLSearchParams(location.search).get('view') === 'speaker';

/** What a speaker can go to: headings, questions and figures, in the order of the lesson. */
export const STEPS = 'h1[id],h2[id],outlean-estimate[id],outlean-choose[id],outlean-order[id],outlean-faults[id],outlean-set[id],outlean-rig[id]';

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
 * @property {{ prompt: string, answer: string, open: boolean } | undefined} question
 *
 * What a speaker's page says, to one page or to all. `hello` asks where it stands; `lead` tells other speakers that this
 * one speaks now, `bye` that it no longer does.
 * @typedef {{ by: string, to?: string, say: 'hello' | 'lead' | 'bye' | 'go' | 'reveal' | 'sweep' | 'back' | 'out' | 'undo' | 'reset', step?: string }} Said
 */

/** The channel of this lesson in this browser. */
export const channel = () => new BroadcastChannel(`outlean ${location.pathname.replace(/index\.html$/, '')}`);

/** A name that no other page has. */
export const someName = () => String(crypto.getRandomValues(new Uint32Array(2)));
