/** Signing in by name and PIN on a device of the studio, and out again. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { SessionView } from '../../../shared/contract/people.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock, instantFrom } from '../../platform/clock.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { CallersService } from './callers.service.js';
import { hashPin, isPin, oneMoreWrong, triesBeforeLock, type WrongPins } from './pin.js';
import { newSecret, readSecret } from './secret.js';
import * as sql from './sign-in.queries.js';

/** One shift: a PIN is asked for once in it. */
export const sessionMs = 12 * 3_600_000;
const keptMs = 30 * 86_400_000;

interface Tried {
  readonly secret?: string;
  readonly problem?: Problem;
}

@Injectable()
export class SignInService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(CallersService) private readonly callers: CallersService,
  ) {}

  /** Names to choose from on a device. */
  names(caller: Caller): Promise<{ id: string; name: string }[]> {
    return forStudio(this.dataSource, caller.studioId).query(sql.NAMES);
  }

  /**
   * Signs a person in on the caller's device.
   * @returns the session's secret, for a cookie
   * @throws Problem `wrong_pin`, `pin_locked`, `no_pin_yet`, `not_found`
   */
  async signIn(caller: Caller, personId: string, pin: string): Promise<string> {
    // a wrong PIN is written down, so it must not throw inside of the transaction
    const tried = await inTransaction(this.dataSource, caller.studioId, (tx) =>
      this.tryPin(tx, caller, personId, pin, (open) => this.open(open, caller, personId)),
    );
    if (tried.problem) throw tried.problem;
    return tried.secret ?? '';
  }

  /** Gives the signed-in person a new PIN. @throws as `signIn`, and `needs_a_person` */
  async changePin(caller: Caller, pin: string, newPin: string): Promise<void> {
    const { personId } = caller;
    if (personId === undefined) throw new Problem('needs_a_person', {});
    const pinHash = await hashPin(newPin);
    const tried = await inTransaction(this.dataSource, caller.studioId, (tx) =>
      this.tryPin(tx, caller, personId, pin, async (open) => {
        await open.execute(sql.PIN_SET, [personId, pinHash]);
        return '';
      }),
    );
    if (tried.problem) throw tried.problem;
  }

  /** Ends the session behind a cookie, if it is one. */
  async signOut(cookie: string | undefined): Promise<void> {
    const secret = cookie === undefined ? undefined : readSecret(cookie);
    if (secret?.kind !== 'session') return;
    const reader = forStudio(this.dataSource, secret.studioId);
    await reader.query(sql.SESSION_END, [secret.hash, this.clock.now()]);
    this.callers.forget();
  }

  /** Who is signed in where. */
  async view(caller: Caller, cookie: string | undefined): Promise<SessionView> {
    const { personId = null, benchId = null } = caller;
    const hash = personId && cookie ? (readSecret(cookie)?.hash ?? null) : null;
    const [row] = await forStudio(this.dataSource, caller.studioId).query<SessionRow>(
      sql.SESSION_VIEW,
      [personId, benchId, hash],
    );
    if (!row) throw new Problem('not_signed_in', {});
    const { studioId: id, name, currency, timeZone, demo } = row;
    return {
      studio: { id, name, currency, timeZone, demo },
      role: caller.role,
      person: personId === null ? null : { id: personId, name: row.personName ?? '' },
      bench: benchId === null ? null : { id: benchId, name: row.benchName ?? '' },
      expiresAt: row.expiresAt?.toISOString() ?? null,
    };
  }

  private async tryPin(
    tx: Transaction,
    caller: Caller,
    personId: string,
    pin: string,
    whenRight: (tx: Transaction) => Promise<string>,
  ): Promise<Tried> {
    const [person] = await tx.query<{ name: string; pinHash: string | null }>(
      sql.PERSON_TO_SIGN_IN,
      [personId],
    );
    if (!person) throw new Problem('not_found', { what: 'person', id: personId });
    const { pinHash, name } = person;
    if (pinHash === null) throw new Problem('no_pin_yet', { name });
    const wrong = await this.wrongPins(tx, personId, caller.tokenId);
    const now = this.clock.millis();
    if (wrong.lockedUntilMs > now) return { problem: lockedFor(wrong.lockedUntilMs - now) };
    if (await isPin(pinHash, pin)) {
      await tx.execute(sql.WRONG_PINS_NOTE, [personId, caller.tokenId, 0, 0, null]);
      return { secret: await whenRight(tx) };
    }
    const more = oneMoreWrong(wrong, now);
    const locked = more.lockedUntilMs > now;
    const until = locked ? instantFrom(more.lockedUntilMs) : null;
    await tx.execute(sql.WRONG_PINS_NOTE, [
      ...[personId, caller.tokenId, more.tries, more.locks, until],
    ]);
    if (locked) return { problem: lockedFor(more.lockedUntilMs - now) };
    return { problem: new Problem('wrong_pin', { triesLeft: triesBeforeLock - more.tries }) };
  }

  private async wrongPins(tx: Transaction, personId: string, tokenId: string) {
    const [row] = await tx.query<{ tries: number; locks: number; lockedUntil: Date | null }>(
      sql.WRONG_PINS_LOCK,
      [personId, tokenId],
    );
    const { tries = 0, locks = 0, lockedUntil = null } = row ?? {};
    return { tries, locks, lockedUntilMs: lockedUntil?.getTime() ?? 0 } satisfies WrongPins;
  }

  private async open(tx: Transaction, caller: Caller, personId: string): Promise<string> {
    const { text, hash } = newSecret('session', caller.studioId);
    const now = this.clock.millis();
    const times = [instantFrom(now), instantFrom(now + sessionMs)];
    await tx.execute(sql.SESSION_START, [uuidv7(), hash, personId, caller.tokenId, ...times]);
    await tx.execute(sql.SESSIONS_SWEEP, [instantFrom(now - keptMs)]);
    return text;
  }
}

interface SessionRow {
  readonly studioId: string;
  readonly name: string;
  readonly currency: string;
  readonly timeZone: string;
  readonly demo: boolean;
  readonly personName: string | null;
  readonly benchName: string | null;
  readonly expiresAt: Date | null;
}

function lockedFor(ms: number): Problem {
  return new Problem('pin_locked', { seconds: Math.ceil(ms / 1000) });
}
