// An answer as learning systems are told of it: by the types of interaction that SCORM and xAPI have in common.

/** @typedef {{ name: string, kind: string, seed: number, typed: string, steps: string[], share: number, seconds: number, at: Date, place?: string }} Answer `place` is where it stands in SCORM, once it has a place there. */

/** The letter of a place of a list, from 1. @param {number} place */
const letter = place => String.fromCharCode(96 + place);

/** The standards' type of an answer, and the parts of the response in their order; none where nothing was marked. @param {Answer} answer */
export function interactionOf({ kind, typed, steps }) {
  if (kind === 'estimate' || kind === 'set') return { type: 'fill-in', parts: typed ? [typed] : [] };
  const entries = typed.split(' ').filter(Boolean);
  return kind === 'order'
    ? { type: 'sequencing', parts: entries.map(id => letter(steps.indexOf(id) + 1)) }
    : { type: 'choice', parts: entries.map(place => letter(Number(place))) };
}

/** Whether an answer is right in every part. @param {number} share */
export const whole = share => share >= 1 - 1e-9;
