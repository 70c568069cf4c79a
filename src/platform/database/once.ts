/** Answers a request once: the same id with the same content gets the stored first answer. */
import { createHash } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Amount } from '../../../shared/amount.js';
import { canonical, Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../clock.js';
import { inTransaction, prepared, type Transaction } from './transaction.js';

/** What a creating call carries: its id, where the caller made one, and its content. */
export interface OnceRequest {
  readonly id?: string | undefined;
  readonly sentAt?: string | undefined;
}

/** An answer, and whether it is the stored one of an earlier, equal request. */
export class Answered<T> {
  constructor(
    readonly body: T,
    readonly replayed: boolean,
  ) {}
}

const SEEN = prepared(
  'select call, content_hash, answer from request_once where studio_id = $1 and id = $2',
);
const NOTE = prepared(`
  insert into request_once (studio_id, id, call, content_hash, answer, recorded_at)
  values ($1, $2, $3, $4, $5, $6)`);

interface SeenRow {
  readonly call: string;
  readonly content_hash: Buffer;
  readonly answer: unknown;
}

@Injectable()
export class Once {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  /**
   * Runs `work` in a transaction (see `inTransaction`) and keeps its answer with the request's id
   * in the same transaction. `work` must not use `tx.finish`; it may be run and undone when the
   * request turns out to be a repeated one.
   * @param call name of the call; one id on two calls is refused
   * @throws Problem `id_reused` when the id stands for other content or another call
   */
  async answer<T>(
    studioId: string,
    call: string,
    request: OnceRequest,
    work: (tx: Transaction) => Promise<T>,
    options: { readonly dry?: boolean } = {},
  ): Promise<Answered<T>> {
    const dry = options.dry ?? false;
    const { id } = request;
    if (id === undefined) {
      const body = await inTransaction(this.dataSource, studioId, work, { dry });
      return new Answered(dry ? { ...body, dry } : body, false);
    }
    const hash = contentHash(request);
    try {
      return await inTransaction(
        this.dataSource,
        studioId,
        (tx) => this.firstOrStored(tx, { id, call, hash }, work),
        { dry },
      );
    } catch (error) {
      if (error instanceof Repeated) return error.answered as Answered<T>;
      // a copy of this request may have been first, and what it booked be the reason
      const stored = await inTransaction(this.dataSource, studioId, (tx) =>
        this.stored<T>(tx, { id, call, hash }),
      );
      if (stored) return stored;
      throw error;
    }
  }

  private async firstOrStored<T>(
    tx: Transaction,
    what: { id: string; call: string; hash: Buffer },
    work: (tx: Transaction) => Promise<T>,
  ): Promise<Answered<T>> {
    // sent together with the first statement of the work, so that it costs no journey
    const [stored, done] = await Promise.allSettled([this.stored<T>(tx, what), work(tx)]);
    if (stored.status === 'rejected') throw stored.reason;
    if (stored.value) throw new Repeated(stored.value);
    if (done.status === 'rejected') throw done.reason;
    const body = done.value;
    if (tx.dry) return new Answered({ ...body, dry: true }, false);
    const { id, call, hash } = what;
    const answer = JSON.stringify(body ?? null);
    await tx.finish(NOTE, [tx.studioId, id, call, hash, answer, this.clock.now()]);
    return new Answered(body, false);
  }

  private async stored<T>(
    tx: Transaction,
    { id, call, hash }: { id: string; call: string; hash: Buffer },
  ): Promise<Answered<T> | undefined> {
    const [row] = await tx.query<SeenRow>(SEEN, [tx.studioId, id]);
    if (!row) return undefined;
    if (row.call !== call || !row.content_hash.equals(hash)) throw new Problem('id_reused', { id });
    return new Answered(row.answer as T, true);
  }
}

/** Leaves the transaction of a repeated request, undoing what it did. */
class Repeated extends Error {
  constructor(readonly answered: Answered<unknown>) {
    super('This request was answered before.');
  }
}

/** SHA-256 of a request's content without `sentAt`: fields sorted, numbers in one spelling. */
export function contentHash(request: object): Buffer {
  const content = { ...request, sentAt: undefined };
  return createHash('sha256')
    .update(JSON.stringify(plain(content)))
    .digest();
}

function plain(value: unknown): unknown {
  if (value instanceof Decimal) return canonical(value);
  if (value instanceof Amount) {
    const { value: quantity, unit } = value as Amount;
    return { quantity: canonical(quantity), unit };
  }
  if (Array.isArray(value)) return (value as unknown[]).map(plain);
  if (typeof value !== 'object' || value === null) return value;
  const fields = Object.entries(value as Record<string, unknown>).filter(
    ([, field]) => field !== undefined,
  );
  return Object.fromEntries(
    fields.sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, field]) => [name, plain(field)]),
  );
}
