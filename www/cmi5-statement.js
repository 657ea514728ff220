// Statements of a lesson, as xAPI 1.0.3 and its profile cmi5 (Quartz, 1st edition) have them. Each has its id and its time as it is made. What the
// learning system adds to all of them (the context template) is put in before the first is sent.

import { interactionOf, whole } from './lms-interaction.js';
import { someId } from './cmi5-launch.js';
import { isObject } from './object.js';

/** @typedef {import('./cmi5-launch.js').Launch} Launch */

const VERBS = 'http://adlnet.gov/expapi/verbs/';
const CMI5 = 'https://w3id.org/xapi/cmi5/context/';

/** A length of time, ISO 8601. @param {number} seconds */
const lasting = seconds => `PT${Math.max(0, Math.round(seconds * 100) / 100)}S`;

/** @param {Launch} launch @param {string} verb @param {any} more */
const statement = (launch, verb, more) => ({
  id: someId(),
  actor: launch.actor,
  verb: { id: VERBS + verb, display: { en: verb } },
  object: { objectType: 'Activity', id: launch.activityId },
  timestamp: new Date().toISOString(),
  ...more,
  context: { registration: launch.registration, ...more.context },
});

/** What is true of the lesson as a whole. @param {Launch} launch @param {string} verb @param {any} [result] @param {any} [extensions] */
function defined(launch, verb, result, extensions) {
  const judged = result && ('success' in result || 'completion' in result);
  const category = ['cmi5', ...(judged ? ['moveon'] : [])].map(name => ({ id: `${CMI5}categories/${name}` }));
  const context = { contextActivities: { category }, ...(extensions && { extensions }) };
  return statement(launch, verb, { ...(result && { result }), context });
}

/** How long the visit has lasted: pages before this one by the clock, this one whatever becomes of the clock. @param {Launch} launch */
const soFar = launch => lasting((Math.max(0, performance.timeOrigin - launch.began) + performance.now()) / 1000);

/** @param {Launch} launch */
export const initialized = launch => defined(launch, 'initialized');
/** @param {Launch} launch */
export const completed = launch => defined(launch, 'completed', { completion: true, duration: soFar(launch) });
/** @param {Launch} launch */
export const terminated = launch => defined(launch, 'terminated', { duration: soFar(launch) });

/** Passed or failed. @param {Launch} launch @param {boolean} success @param {number} scaled 0 to 1 @param {number} mastery what it is held against */
export const judged = (launch, success, scaled, mastery) =>
  defined(launch, success ? 'passed' : 'failed', { success, score: { scaled }, duration: soFar(launch) }, { [`${CMI5}extensions/masteryscore`]: mastery });

/** One answer, about its question as a part of the lesson. @param {Launch} launch @param {import('./lms-interaction.js').Answer & { course: string, title: string, question: string, language: string }} answer `course` names the course, and so what it adds to a statement. */
export function answered(launch, answer) {
  const { type, parts } = interactionOf(answer);
  const { activityId } = launch;
  return statement(launch, 'answered', {
    timestamp: answer.at.toISOString(),
    object: {
      objectType: 'Activity',
      id: `${activityId}${activityId.includes('#') ? '/' : '#'}${answer.question}`,
      definition: {
        type: 'http://adlnet.gov/expapi/activities/cmi.interaction',
        name: { [answer.language]: `${answer.title}: ${answer.question}` },
        interactionType: type,
      },
    },
    result: {
      success: whole(answer.share),
      score: { scaled: Math.round(answer.share * 1e4) / 1e4 },
      duration: lasting(answer.seconds),
      ...(parts.length && { response: parts.join('[,]') }),
    },
    context: { contextActivities: { parent: [{ objectType: 'Activity', id: activityId }] }, extensions: { [`${answer.course}#seed`]: answer.seed } },
  });
}

/** What activities of a context are to its statement. */
const KINDS = ['parent', 'grouping', 'category', 'other'];

/** A statement with what the system adds to every context; nothing of that is written over, what is no activity is left out. @param {any} made @param {any} template */
export function dressed(made, template) {
  const { context } = made;
  /** @type {Record<string, any[]>} */
  const activities = {};
  for (const kind of KINDS) {
    const listed = [template.contextActivities?.[kind], context.contextActivities?.[kind]].flat().filter(isObject);
    const all = listed.filter(({ id }, at) => listed.findIndex(known => known.id === id) === at);
    if (all.length) activities[kind] = all;
  }
  const extensions = { ...context.extensions, ...(isObject(template.extensions) && template.extensions) };
  return { ...made, context: { ...context, ...template, registration: context.registration, contextActivities: activities, extensions } };
}
