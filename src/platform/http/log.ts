/** One line for every request, and one for everything that went wrong. */
import type { FastifyInstance } from 'fastify';
import pino, { type Logger } from 'pino';
import { uuidv7 } from 'uuidv7';
import type { LogLevel } from '../settings.js';

/** Injection token of the log. */
export const LOGGER = Symbol('log');

/** A log of JSON lines on standard error. */
export function openLog(level: LogLevel): Logger {
  return pino(
    { level, base: null, formatters: { level: (label) => ({ level: label }) } },
    pino.destination({ dest: 2, sync: true }),
  );
}

const decentId = /^[\w-]{8,64}$/;

/** The id of a request: the caller's own where it is decent, else a new one. */
export function requestId(raw: { headers: Record<string, string | string[] | undefined> }): string {
  const given = raw.headers['x-request-id'];
  return typeof given === 'string' && decentId.test(given) ? given : uuidv7();
}

/** Tells every caller the id of its request, and logs method, route, status and milliseconds. */
export function logRequests(server: FastifyInstance, log: Logger): void {
  server.addHook('onRequest', (request, reply, done) => {
    void reply.header('X-Request-Id', request.id);
    done();
  });
  if (!log.isLevelEnabled('info')) return;
  server.addHook('onResponse', (request, reply, done) => {
    log.info({
      requestId: request.id,
      method: request.method,
      route: request.routeOptions.url ?? 'unknown', // never the address itself: it may name people
      status: reply.statusCode,
      ms: Math.round(reply.elapsedTime),
    });
    done();
  });
}
