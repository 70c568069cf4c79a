/** Calls to the service, typed by its OpenAPI document; a refusal is an error with its sentence. */
import createClient from 'openapi-fetch';
import { hearServerTime } from '../shell/clock.js';
import { store, type Store } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import type { paths } from './schema.js';

/** A problem detail of the service (RFC 9457). */
interface ProblemDetail {
  readonly type: string;
  readonly status: number;
  readonly detail: string;
  readonly facts: Record<string, unknown>;
}

/** The service refused: `detail` is a sentence for the person. */
export class Refused extends Error {
  override readonly name = 'Refused';
  readonly code: string;
  readonly status: number;
  readonly facts: Record<string, unknown>;

  constructor(problem: ProblemDetail) {
    super(problem.detail);
    this.code = problem.type.replace('/problems/', '');
    this.status = problem.status;
    this.facts = problem.facts;
  }
}

/** The service did not answer: no network, or it is away. */
export class Unreached extends Error {
  override readonly name = 'Unreached';
}

/** Whether the service answered the last time that anything was asked. */
export const reach: Store<{ readonly away: boolean }> = store({ away: false });

/** So long an answer is waited for; a network that swallows everything says nothing at all. */
const patienceMs = 20_000;

function heard(away: boolean): void {
  if (reach.get().away !== away) reach.set({ away });
}

/** Every call of the service: `calls.GET('/api/v1/vessels')`. */
export const calls = createClient<paths>({ baseUrl: '/', credentials: 'same-origin' });

calls.use({
  onResponse: ({ response }) => hearServerTime(response.headers.get('date')),
});

/**
 * The body of an answer.
 * @throws Refused with the service's sentence; Unreached where nobody answered
 */
export async function answer<T>(
  call: Promise<{ data?: T; error?: unknown; response: Response }>,
): Promise<T> {
  const got = await call.catch((cause: unknown) => {
    heard(true);
    throw new Unreached(texts.notReached, { cause });
  });
  const { status, ok } = got.response;
  // a gateway, or a page that a network puts in the way, is not the service
  if (status >= 502 || (!ok && !isProblem(got.error))) {
    heard(true);
    throw new Unreached(texts.notReached);
  }
  heard(false);
  if (ok) return got.data as T;
  throw new Refused(got.error as ProblemDetail);
}

function isProblem(error: unknown): error is ProblemDetail {
  return String((error as Partial<ProblemDetail> | undefined)?.type).startsWith('/problems/');
}

/**
 * A call by its path, for calls that wait in line before they are sent.
 * @throws Refused, Unreached
 */
export function send(
  method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE',
  path: string,
  body?: unknown,
  headers: Readonly<Record<string, string>> = {},
): Promise<unknown> {
  const json = body === undefined ? {} : { 'content-type': 'application/json' };
  const request = fetch(`/api/v1${path}`, {
    method,
    credentials: 'same-origin',
    headers: { ...json, ...headers },
    signal: AbortSignal.timeout(patienceMs),
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  const read = async (response: Response) => {
    hearServerTime(response.headers.get('date'));
    const text = await response.text();
    const json: unknown = text === '' ? undefined : JSON.parse(text);
    return response.ok ? { data: json, response } : { error: json, response };
  };
  return answer(request.then(read));
}
