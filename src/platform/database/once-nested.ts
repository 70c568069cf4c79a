/** Parts of one request that carry ids of their own: each is answered once, like the whole. */
import { Problem } from '../../../shared/problems/problem.js';
import { contentHash } from './once.js';
import { prepared, type Transaction } from './transaction.js';

/** A part of a request: the call it would be by itself, and its content with its id. */
export interface NestedPart {
  readonly call: string;
  readonly request: { readonly id?: string | undefined };
}

const SEEN = prepared(`
  select id, call, content_hash from request_once where studio_id = $1 and id = any($2::uuid[])`);
const NOTE = prepared(`
  insert into request_once (studio_id, id, call, content_hash, answer, recorded_at)
  select $1, n.id, n.call, decode(n.hash, 'hex'), n.answer, $3
    from jsonb_to_recordset($2::jsonb) as n(id uuid, call text, hash text, answer jsonb)`);

/** Which parts were booked before, and the way to note the new ones. */
export class NestedOnce {
  private constructor(
    private readonly parts: readonly NestedPart[],
    /** Ids of the parts that were booked before with equal content. */
    readonly booked: ReadonlySet<string>,
  ) {}

  /**
   * Looks the parts up.
   * @throws Problem `id_needed` for a part without an id, `id_reused` for one whose id stands
   *   for other content or another call
   */
  static async look(tx: Transaction, parts: readonly NestedPart[]): Promise<NestedOnce> {
    const byId = new Map(parts.map((part) => [idOf(part), part]));
    if (byId.size < parts.length) throw new Problem('id_twice', {});
    const rows = await tx.query<{ id: string; call: string; content_hash: Buffer }>(SEEN, [
      tx.studioId,
      [...byId.keys()],
    ]);
    for (const { id, call, content_hash: hash } of rows) {
      const part = byId.get(id) as NestedPart;
      if (part.call !== call || !hash.equals(contentHash(part.request))) {
        throw new Problem('id_reused', { id });
      }
    }
    return new NestedOnce(parts, new Set(rows.map((row) => row.id)));
  }

  /** Notes the parts that were not booked before, each with its answer. */
  note(tx: Transaction, answers: ReadonlyMap<string, unknown>, recordedAt: string): void {
    const fresh = this.parts.filter((part) => !this.booked.has(idOf(part)));
    if (fresh.length === 0) return;
    const rows = fresh.map((part) => ({
      id: part.request.id,
      call: part.call,
      hash: contentHash(part.request).toString('hex'),
      answer: answers.get(idOf(part)) ?? null,
    }));
    tx.write(NOTE, [tx.studioId, JSON.stringify(rows), recordedAt]);
  }
}

function idOf(part: NestedPart): string {
  if (part.request.id === undefined) throw new Problem('id_needed', {});
  return part.request.id;
}
