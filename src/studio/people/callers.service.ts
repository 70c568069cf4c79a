/** Finds out who is asking: by the session in a cookie, else by a program's or device's token. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock, millisOf } from '../../platform/clock.js';
import { forStudio } from '../../platform/database/transaction.js';
import { Callers, type Caller, type IncomingRequest } from '../../platform/http/rights.js';
import { cookieOf } from './cookies.js';
import { readSecret, type ReadSecret } from './secret.js';
import { CALLER_BY_SESSION, CALLER_BY_TOKEN, TOKEN_USED } from './sign-in.queries.js';

export const sessionCookie = 'bowlworth_session';
export const deviceCookie = 'bowlworth_device';

/** A caller may ask with a bench's rights only: for what a device keeps, whoever is signed in. */
const asHeader = 'bowlworth-as';

/** So long an answer is believed without asking again; ended here at once, elsewhere by then. */
const believedMs = 5_000;
const mostBelieved = 5_000;
const usedNotedEveryMs = 5 * 60_000;

interface CallerRow extends Omit<Caller, 'personId' | 'benchId' | 'studioId'> {
  readonly personId: string | null;
  readonly benchId: string | null;
  readonly usedAt: Date | null;
}

@Injectable()
export class CallersService extends Callers {
  private readonly believed = new Map<string, { caller: Caller; until: number }>();

  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {
    super();
  }

  override async find(request: IncomingRequest): Promise<Caller | undefined> {
    const caller = await this.whoAsks(request);
    if (!caller || request.headers[asHeader] !== 'bench') return caller;
    return { ...caller, role: 'bench', personId: undefined };
  }

  private async whoAsks(request: IncomingRequest): Promise<Caller | undefined> {
    const session = secretOf(cookieOf(request.cookies, sessionCookie), 'session');
    const signedIn = session && (await this.believe(session));
    if (signedIn) return signedIn;
    const device = secretOf(bearer(request) ?? cookieOf(request.cookies, deviceCookie), 'token');
    return device && (await this.believe(device));
  }

  /** To be called when a token, session, role or person has changed. */
  forget(): void {
    this.believed.clear();
  }

  private async believe(secret: ReadSecret): Promise<Caller | undefined> {
    const key = secret.hash.toString('base64');
    const known = this.believed.get(key);
    const now = this.clock.millis();
    if (known && known.until > now && known.until <= now + believedMs) return known.caller;
    this.believed.delete(key);
    const caller = await this.look(secret);
    if (!caller) return undefined;
    if (this.believed.size >= mostBelieved) this.believed.clear();
    this.believed.set(key, { caller, until: now + believedMs });
    return caller;
  }

  private async look(secret: ReadSecret): Promise<Caller | undefined> {
    const reader = forStudio(this.dataSource, secret.studioId);
    const now = this.clock.now();
    const [row] =
      secret.kind === 'session'
        ? await reader.query<CallerRow>(CALLER_BY_SESSION, [secret.hash, now])
        : await reader.query<CallerRow>(CALLER_BY_TOKEN, [secret.hash]);
    if (!row) return undefined;
    const { usedAt, personId, benchId, ...known } = row;
    if (!usedAt || usedAt.getTime() < millisOf(now) - usedNotedEveryMs) {
      await reader.query(TOKEN_USED, [row.tokenId, now]);
    }
    return {
      ...known,
      studioId: secret.studioId,
      personId: personId ?? undefined,
      benchId: benchId ?? undefined,
    };
  }
}

function secretOf(text: string | undefined, kind: ReadSecret['kind']): ReadSecret | undefined {
  const secret = text === undefined ? undefined : readSecret(text);
  return secret?.kind === kind ? secret : undefined;
}

function bearer(request: IncomingRequest): string | undefined {
  const { authorization } = request.headers;
  if (typeof authorization !== 'string') return undefined;
  return /^Bearer +(\S+)$/i.exec(authorization)?.[1];
}
