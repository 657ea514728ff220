// A learning system that keeps to cmi5, as far as a lesson sees one: it serves the package, starts lessons, hands each its key once, and
// stands before the record store; pages and records are of two origins, as they mostly are. What ralph lacks is filled in here: the State and Agent Profile resources (in memory). Everything about
// statements is ralph's: they go on to it byte by byte, and by the key that ralph itself asks for. Before that each is held against a
// validator that others wrote, since ralph stores what is no statement.
//
// Here also go wrong what can go wrong on the way: `fault` says of each request what becomes of it.

import { randomUUID } from 'node:crypto';
import { request as ask } from 'node:http';
import { createRequire } from 'node:module';
import { setTimeout as wait } from 'node:timers/promises';
import { listen } from './listen.mjs';
import { recordStore } from './record-store.mjs';
import { serve } from './server.mjs';

/** @type {(statement: any) => { path: string[], data: unknown }[]} What is wrong in it. */
export const wrongIn = createRequire(import.meta.url)('@learninglocker/xapi-validation').default;

/** What becomes of a request: no answer; stored, but the answer lost; late; or an answer of this status without a word of the store. @typedef {'down' | 'lost' | 'slow' | number | undefined} Fault */

/** @param {import('node:http').IncomingMessage} request */
async function bodyOf(request) {
  const parts = [];
  for await (const part of request) parts.push(part);
  return Buffer.concat(parts);
}

/** @param {string} folder of the package, unzipped */
export async function learningSystem(folder) {
  const [pages, store] = await Promise.all([serve(folder), recordStore()]);
  /** @type {Map<string, string>} */
  const documents = new Map();
  /** @type {Map<string, boolean>} Keys that can be fetched, and whether they were. */
  const keys = new Map();
  const system = {
    /** Of the pages. */ origin: '',
    /** Of the records. */ records: '',
    store,
    /** @type {(resource: string, statement?: any) => Fault} */ fault: () => undefined,
    /** What was wrong in a statement that was sent. @type {string[]} */ wrong: [],
    /** Every address that was asked for. @type {string[]} */ addresses: [],
    /** How many statements came, with those that were sent again. */ came: 0,

    /**
     * The address that starts a lesson, a new session each time; as 8.1 of cmi5 has it.
     * @param {string} path @param {{ registration: string, mode?: string, masteryScore?: number, returnURL?: string }} of
     */
    launch(path, { registration, mode = 'Normal', masteryScore = 0.8, returnURL }) {
      const actor = JSON.stringify({ objectType: 'Agent', account: { homePage: 'https://learning.example', name: registration.slice(0, 8) } });
      const activityId = `https://learning.example/activities/${encodeURIComponent(path)}`;
      const session = randomUUID();
      const contextTemplate = {
        extensions: { 'https://w3id.org/xapi/cmi5/context/extensions/sessionid': session },
        contextActivities: { grouping: [{ id: `urn:uuid:00000000-0000-4000-8000-000000000000#${path}` }] },
      };
      documents.set(place({ activityId, agent: actor, registration, stateId: 'LMS.LaunchData' }), JSON.stringify({ contextTemplate, launchMode: mode, masteryScore, returnURL, moveOn: 'CompletedAndPassed' }));
      keys.set(session, false);
      const asked = new URLSearchParams({ endpoint: `${system.records}/lrs`, fetch: `${system.records}/key?k=${session}`, actor, registration, activityId });
      return { address: `${path}?seed=7&${asked}`, session, activityId };
    },
    async stop() {
      await Promise.all([...servers, pages, store].map(each => each.stop()));
    },
  };

  /** @param {Record<string, string>} query */
  const place = ({ activityId, agent, registration, stateId }) => JSON.stringify([activityId, JSON.parse(agent), registration, stateId]);

  /** Sends a request on; resolves with the answer, whole. @param {string} to @param {import('node:http').IncomingMessage} request @param {Buffer} body @returns {Promise<{ status: number, headers: any, body: Buffer }>} */
  const pass = (to, request, body) => new Promise((done, failed) => {
    const { host: _, ...headers } = request.headers;
    const on = ask(to, { method: request.method, headers }, async answer => done({ status: answer.statusCode ?? 500, headers: answer.headers, body: await bodyOf(answer) }));
    on.once('error', failed).end(body);
  });

  /** A page, with a policy that lets it ask for the records too. @param {import('node:http').IncomingMessage} request @param {import('node:http').ServerResponse} answer */
  async function shown(request, answer) {
    system.addresses.push(String(request.url));
    const { status, headers, body } = await pass(pages.origin + request.url, request, await bodyOf(request));
    const policy = `${headers['content-security-policy']}; connect-src 'self' ${system.records}`;
    answer.writeHead(status, { ...headers, 'content-security-policy': policy }).end(body);
  }

  /** @param {import('node:http').IncomingMessage} request @param {import('node:http').ServerResponse} answer */
  async function told(request, answer) {
    const url = new URL(request.url ?? '/', system.records);
    system.addresses.push(url.href);
    const body = await bodyOf(request);
    answer.setHeader('Access-Control-Allow-Origin', system.origin);
    if (request.method === 'OPTIONS') {
      const allowed = { Methods: 'GET, PUT, POST', Headers: 'Authorization, Content-Type, X-Experience-API-Version' };
      for (const [what, values] of Object.entries(allowed)) answer.setHeader(`Access-Control-Allow-${what}`, values);
      return answer.writeHead(204).end();
    }
    const say = (/** @type {number} */ status, /** @type {unknown} */ content = {}) => answer.writeHead(status, { 'Content-Type': 'application/json' }).end(status === 204 ? undefined : JSON.stringify(content));
    if (url.pathname === '/key') {
      if (system.fault('key') === 'down') return answer.destroy();
      const session = url.searchParams.get('k') ?? '';
      if (request.method !== 'POST' || keys.get(session) !== false) return say(200, { 'error-code': '1', 'error-text': 'This key was fetched already.' });
      keys.set(session, true);
      return say(200, { 'auth-token': store.token });
    }
    const resource = url.pathname.slice('/lrs/'.length);
    const statement = resource === 'statements' && body.length ? JSON.parse(body.toString()) : undefined;
    const fault = system.fault(resource, statement);
    if (fault === 'down') return answer.destroy();
    if (typeof fault === 'number') return say(fault);
    if (fault === 'slow') await wait(300);
    if (request.headers['x-experience-api-version'] !== '1.0.3') return say(400, 'no version');
    if (request.headers.authorization !== `Basic ${store.token}`) return say(401, 'no key');
    const query = Object.fromEntries(url.searchParams);
    if (resource === 'activities/state') {
      if (request.method === 'PUT') documents.set(place(query), body.toString());
      const found = documents.get(place(query));
      if (request.method === 'PUT') return say(204);
      return found ? answer.writeHead(200, { 'Content-Type': 'application/json' }).end(found) : say(404);
    }
    if (resource === 'agents/profile') return say(200, { languagePreference: 'en' });
    if (statement) {
      system.came += 1;
      for (const { path, data } of wrongIn(statement)) system.wrong.push(`${path.join('.')}: ${JSON.stringify(data)} in ${body}`);
    }
    const from = await pass(`${store.endpoint}${resource}${url.search}`, request, body);
    if (fault === 'lost') return answer.destroy();
    return answer.writeHead(from.status, from.headers).end(from.body);
  }

  /** Starts a server on a free port; its origin. @param {(request: import("node:http").IncomingMessage, answer: import("node:http").ServerResponse) => Promise<unknown>} does */
  const listening = async does => {
    const server = await listen((request, answer) => {
      does(request, answer).catch(why => {
        system.wrong.push(`${request.method} ${request.url}: ${why.stack}`);
        answer.destroy();
      });
    });
    servers.push(server);
    return server.origin;
  };
  /** @type {Awaited<ReturnType<typeof listen>>[]} */
  const servers = [];
  system.records = await listening(told);
  system.origin = await listening(shown);
  return system;
}
