/** Asks the service as one caller; short forms for stories, the whole answer where it matters. */
import type { Description } from './described.js';
import type { ProblemDetail } from '../../src/platform/http/problem-filter.js';

/** A whole answer. */
export interface Answer<T = unknown> {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | undefined>>;
  readonly body: T;
}

type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';

export class Client {
  private readonly cookies = new Map<string, string>();

  constructor(
    /** Where the service listens: "http://127.0.0.1:4180". */
    private readonly origin: string,
    private readonly token?: string,
    /** Every answer is held against it. */
    private readonly description?: Description,
  ) {}

  /** The same service, asked with another token, without cookies. */
  with(token: string): Client {
    return new Client(this.origin, token, this.description);
  }

  /** The answer's body; anything but success fails the test with what was said. */
  get<T = Record<string, unknown>>(path: string): Promise<T> {
    return this.succeed<T>('GET', path);
  }

  post<T = Record<string, unknown>>(path: string, body?: unknown): Promise<T> {
    return this.succeed<T>('POST', path, body);
  }

  put<T = Record<string, unknown>>(path: string, body?: unknown): Promise<T> {
    return this.succeed<T>('PUT', path, body);
  }

  patch<T = Record<string, unknown>>(path: string, body?: unknown): Promise<T> {
    return this.succeed<T>('PATCH', path, body);
  }

  delete<T = unknown>(path: string): Promise<T> {
    return this.succeed<T>('DELETE', path);
  }

  /** The problem that this is refused with; success fails the test. */
  async refused(method: Method, path: string, body?: unknown): Promise<ProblemDetail> {
    const answer = await this.ask<ProblemDetail>(method, path, body);
    if (answer.status < 400) throw new Error(`${method} ${path} was not refused.`);
    return answer.body;
  }

  /** The whole answer, whatever it is. `path` is below /api/v1 unless it begins with "//". */
  async ask<T = unknown>(
    method: Method,
    path: string,
    body?: unknown,
    headers: Record<string, string> = {},
  ): Promise<Answer<T>> {
    const cookie = [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
    const address = path.startsWith('//') ? path.slice(1) : `/api/v1${path}`;
    const response = await fetch(`${this.origin}${address}`, {
      method,
      headers: {
        ...(this.token === undefined ? {} : { authorization: `Bearer ${this.token}` }),
        ...(cookie ? { cookie } : {}),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined
        ? {}
        : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    for (const set of response.headers.getSetCookie()) this.keep(set);
    const text = await response.text();
    const isJson = response.headers.get('content-type')?.includes('json') ?? false;
    const read: unknown = isJson && text ? JSON.parse(text) : text;
    const type = response.headers.get('content-type') ?? '';
    await this.description?.check(method, address, response.status, type, read);
    return {
      status: response.status,
      headers: Object.fromEntries(response.headers),
      body: read as T,
    };
  }

  private keep(setCookie: string): void {
    const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(setCookie) ?? [];
    if (value) this.cookies.set(name, value);
    else this.cookies.delete(name);
  }

  private async succeed<T>(method: Method, path: string, body?: unknown): Promise<T> {
    const answer = await this.ask<T>(method, path, body);
    if (answer.status < 300) return answer.body;
    throw new Error(
      `${method} ${path} -> ${answer.status}\n${JSON.stringify(answer.body, null, 2)}`,
    );
  }
}
