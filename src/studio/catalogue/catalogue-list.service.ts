/** What suppliers, services, vessels and purposes have in common: add, list, change, retire. */
import type { DataSource, EntityTarget } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { Problem } from '../../../shared/problems/problem.js';
import type { Clock } from '../../platform/clock.js';
import type { Answered, Once, OnceRequest } from '../../platform/database/once.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { pageOf, type Page } from '../../platform/http/paging.js';
import type { Caller } from '../../platform/http/rights.js';
import type { CatalogueListRequest } from './catalogue.requests.js';
import { inWords } from './conflicts.js';
import type { RetirableRecord } from './record.entity.js';
import { insertRows, Records, type NewRow } from './records.queries.js';

/** What such a list stands on. */
export interface ListParts {
  readonly dataSource: DataSource;
  readonly once: Once;
  readonly clock: Clock;
}

/** A change that may bring a row back. */
interface Changes {
  readonly retired?: boolean | undefined;
}

/** One list of the catalogue; a capability's service says how its rows are made and shown. */
export abstract class CatalogueList<
  E extends RetirableRecord,
  New extends OnceRequest,
  Change extends Changes,
  View,
> {
  private readonly records: Records<E>;

  protected constructor(
    private readonly parts: ListParts,
    private readonly entity: EntityTarget<E>,
    private readonly what: string,
  ) {
    this.records = new Records(parts.dataSource, entity, what);
  }

  /** @throws Problem as the list's own rules say */
  protected abstract rowOf(request: New): Omit<NewRow<E>, 'id' | 'retiredAt'>;

  /** Only the fields that change. */
  protected abstract changesOf(request: Change): Partial<E>;

  protected abstract view(row: NewRow<E>, caller: Caller): View;

  /** What of the changes stands in the row itself; a list may keep the rest beside it. */
  protected inTheRow(
    _tx: Transaction,
    _id: string,
    changes: Partial<E>,
    _caller: Caller,
  ): Promise<Partial<E>> {
    return Promise.resolve(changes);
  }

  /** Rows with what is kept of them beside the table, as it is now. */
  protected asOfNow(_studioId: string, rows: E[]): Promise<E[]> {
    return Promise.resolve(rows);
  }

  /** Checks what a row refers to; called before anything is written. */
  protected check(_tx: Transaction, _row: Partial<NewRow<E>>): Promise<void> {
    return Promise.resolve();
  }

  /** Sentences for constraints of this list's table, besides its key. */
  protected refusals(_row: Partial<NewRow<E>>): Record<string, () => Problem> {
    return {};
  }

  add(caller: Caller, request: New): Promise<Answered<View>> {
    return this.parts.once.answer(caller.studioId, `POST /${this.what}`, request, async (tx) => {
      const row = this.newRow(request);
      await this.check(tx, row);
      await this.insert(tx, [row]);
      return this.view(row, caller);
    });
  }

  /** Adds many at once, in one statement; references are taken as checked. */
  async addAll(tx: Transaction, requests: readonly New[]): Promise<void> {
    await this.insert(
      tx,
      requests.map((request) => this.newRow(request)),
    );
  }

  async list(caller: Caller, request: CatalogueListRequest): Promise<Page<View>> {
    const found = await this.records.page(caller.studioId, request);
    const rows = await this.asOfNow(caller.studioId, found);
    return pageOf(
      rows,
      request.limit,
      ({ seq }) => [seq],
      (row) => this.view(row, caller),
    );
  }

  /** @throws Problem `not_found` */
  async show(caller: Caller, id: string): Promise<View> {
    return this.shown(await this.records.one(caller.studioId, id), caller);
  }

  /** @throws Problem `not_found`, `nothing_to_change` */
  async change(caller: Caller, id: string, request: Change): Promise<View> {
    if (Object.values(request).every((value) => value === undefined)) {
      throw new Problem('nothing_to_change', {});
    }
    const changes: Partial<E> = { ...this.changesOf(request), ...this.retirement(request.retired) };
    const row = await this.records.inOne(caller.studioId, async (tx) => {
      await this.check(tx, changes);
      const own = await this.inTheRow(tx, id, changes, caller);
      return inWords(
        this.records.changeIn(tx, id, () => own),
        this.refusals(changes),
      );
    });
    return this.shown(row, caller);
  }

  /** It leaves the lists and stays in history. @throws Problem `not_found` */
  async retire(caller: Caller, id: string): Promise<View> {
    const row = await this.records.inOne(caller.studioId, (tx) =>
      this.records.changeIn(tx, id, (found) => (found.retiredAt ? {} : this.retirement(true))),
    );
    return this.shown(row, caller);
  }

  private async shown(row: E, caller: Caller): Promise<View> {
    const [now = row] = await this.asOfNow(caller.studioId, [row]);
    return this.view(now, caller);
  }

  private retirement(retired: boolean | undefined): Partial<E> {
    if (retired === undefined) return {};
    return { retiredAt: retired ? this.parts.clock.now() : null } as Partial<E>;
  }

  private newRow(request: New): NewRow<E> {
    const id = request.id ?? uuidv7();
    return { ...this.rowOf(request), id, retiredAt: null } as unknown as NewRow<E>;
  }

  private insert(tx: Transaction, rows: readonly NewRow<E>[]): Promise<void> {
    const [first] = rows as readonly (Partial<NewRow<E>> & { id: string })[];
    return inWords(insertRows(tx, this.entity, rows), {
      ...(first && this.refusals(first)),
      [`${this.records.table}_pkey`]: () => new Problem('id_reused', { id: first?.id ?? '' }),
    });
  }
}
