/** Calls to the service, typed by its OpenAPI document; a refusal is an error with its sentence. */
import createClient from 'openapi-fetch';
import { hearServerTime } from '../shell/clock.js';
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
  const got = await call.catch((error: unknown) => {
    throw new Unreached('No answer', { cause: error });
  });
  if (got.response.ok) return got.data as T;
  if (got.response.status >= 502) throw new Unreached('No answer');
  throw new Refused(got.error as ProblemDetail);
}

/**
 * A call by its path, for calls that wait in line before they are sent.
 * @throws Refused, Unreached
 */
export function send(
  method: 'GET' | 'POST' | 'PUT' | 'PATCH',
  path: string,
  body?: unknown,
): Promise<unknown> {
  const request = fetch(`/api/v1${path}`, {
    method,
    credentials: 'same-origin',
    ...(body === undefined
      ? {}
      : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  });
  const read = async (response: Response) => {
    hearServerTime(response.headers.get('date'));
    const text = await response.text();
    const json: unknown = text === '' ? undefined : JSON.parse(text);
    return response.ok ? { data: json, response } : { error: json, response };
  };
  return answer(request.then(read));
}
