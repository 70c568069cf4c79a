/** Answers everything that went wrong as a problem detail (RFC 9457). */
import {
  Catch,
  HttpException,
  Inject,
  type ArgumentsHost,
  type ExceptionFilter,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Logger } from 'pino';
import { LinesRefused } from '../../../shared/problems/lines-refused.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { Facts } from '../../../shared/problems/refusal.js';
import { isDatabaseAway } from '../database/away.js';
import { LOGGER } from './log.js';
import { statusOf } from './status.js';
import { MalformedRequest, type FieldError } from './unreadable.js';

/** The body of a refusal. */
export interface ProblemDetail {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly requestId: string;
  readonly facts: Facts;
  readonly errors: readonly FieldError[];
}

const retryAfterSeconds = 2;

@Catch()
export class ProblemFilter implements ExceptionFilter {
  constructor(@Inject(LOGGER) private readonly log: Logger) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const http = host.switchToHttp();
    this.answer(error, http.getRequest<FastifyRequest>(), http.getResponse<FastifyReply>());
  }

  /** Also for what fails before a route is found: broken JSON, no such address. */
  answer(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
    const problem = problemOf(error, request);
    const wait = problem && waitOf(problem);
    if (wait !== undefined) void reply.header('Retry-After', wait);
    if (!problem || problem.kind === 'unavailable') {
      this.log.error({ requestId: request.id, err: error }, 'request failed');
    }
    const body = problem ? detailOf(problem, request.id) : unexpected(request.id);
    void reply
      .status(body.status)
      .header('Content-Type', 'application/problem+json')
      .send(JSON.stringify(body));
  }
}

function problemOf(error: unknown, request: FastifyRequest): Problem | undefined {
  if (error instanceof Problem) return error;
  if (isDatabaseAway(error)) return new Problem('unavailable', { seconds: retryAfterSeconds });
  const { statusCode } = (error ?? {}) as { statusCode?: unknown };
  const status = error instanceof HttpException ? error.getStatus() : statusCode;
  switch (status) {
    case 404:
      return new Problem('no_such_address', {
        method: request.method,
        path: request.url.split('?')[0] ?? '',
      });
    case 413:
      return new Problem('body_too_large', { limitBytes: request.routeOptions.bodyLimit ?? 0 });
    case 415:
      return new Problem('not_json', { contentType: request.headers['content-type'] ?? 'unnamed' });
    case 400:
      return new Problem('broken_json', {});
    default:
      return undefined;
  }
}

function waitOf(problem: Problem): number | undefined {
  const { seconds } = problem.facts as { seconds?: number };
  return problem.kind === 'unavailable' || problem.kind === 'too_often' ? seconds : undefined;
}

/** A refusal as it is answered. */
export function detailOf(problem: Problem, requestId: string): ProblemDetail {
  return {
    type: `/problems/${problem.code}`,
    title: problem.title,
    status: statusOf(problem),
    detail: problem.message,
    requestId,
    facts: problem.facts,
    errors: errorsOf(problem),
  };
}

function errorsOf(problem: Problem): readonly FieldError[] {
  if (problem instanceof MalformedRequest || problem instanceof LinesRefused) {
    return problem.errors;
  }
  if (problem.pointer === undefined) return [];
  return [{ pointer: problem.pointer, code: problem.code, detail: problem.message }];
}

/** The answer to what nobody foresaw. */
export function unexpected(requestId: string): ProblemDetail {
  return {
    type: '/problems/unexpected',
    title: 'Something went wrong here',
    status: 500,
    detail:
      'This is a fault of the program; nothing was stored. ' +
      `Report it with the id ${requestId}.`,
    requestId,
    facts: {},
    errors: [],
  };
}
