/** Visits: begun, changed while open, looked at, closed, reopened. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { VisitMinutes, VisitMoney, VisitView } from '../../../shared/contract/visits.js';
import { canonical, decimal, fixed } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import {
  inTransaction,
  type Reader,
  type Transaction,
} from '../../platform/database/transaction.js';
import { cursorValues, pageOf, type Page } from '../../platform/http/paging.js';
import { mayAct, whoMay, type Caller } from '../../platform/http/rights.js';
import { checkNamed, checkPeople, fieldsOf, pricesOf, type TakenService } from './visit-checks.js';
import type { VisitRow } from './visit-row.js';
import {
  CHANGE_VISIT,
  CLEAR_MINUTES,
  CLEAR_SERVICES,
  CLOSE_VISIT,
  LIST_VISITS,
  LOCK_VISIT,
  PUT_MINUTES,
  PUT_SERVICES,
  READ_VISITS,
  REOPEN_VISIT,
  START_VISIT,
} from './visits.queries.js';
import type { NewVisitRequest, VisitChangesRequest, VisitListRequest } from './visits.requests.js';
import { isOwn, seesMoney, visitView } from './visits.views.js';

export type { VisitRow, VisitServiceRow } from './visit-row.js';
export { minutesOf, seesMoney, usualMinutes, visitView } from './visits.views.js';

/** What a closing writes of the visit itself. */
export interface Closing extends VisitMoney {
  readonly closedAt: string;
  readonly minutes: readonly VisitMinutes[];
  readonly chairMinutes: number;
  /** The studio's rules and rates that its price sheet works by from now on. */
  readonly terms: object;
}

@Injectable()
export class VisitsService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** Begins a visit; the prices of its services stay as the menu has them now. */
  async start(
    tx: Transaction,
    request: NewVisitRequest,
    by: { caller: Caller; startedAt: string; recordedAt: string },
  ): Promise<VisitView> {
    const { caller, startedAt, recordedAt } = by;
    const id = request.id ?? uuidv7();
    const personId = request.personId ?? caller.personId ?? null;
    const visit = {
      clientId: request.clientId ?? null,
      personId,
      kind: request.kind,
      redoOf: request.redoOf ?? null,
    };
    await checkNamed(tx, visit);
    const prices = await pricesOf(tx, request.services, { kind: visit.kind, startedAt }, caller);
    await Promise.all([
      tx.query(START_VISIT, [id, ...fieldsOf(visit), startedAt, recordedAt]),
      this.putServices(tx, id, prices),
    ]);
    const row = await this.read(tx, id, recordedAt);
    return visitView(row, { name: 'none', money: seesMoney(row, caller) });
  }

  /** Other services, another person or client, another kind; while it is open. */
  async change(
    tx: Transaction,
    id: string,
    request: VisitChangesRequest,
    by: { caller: Caller; recordedAt: string },
  ): Promise<VisitView> {
    const { caller, recordedAt } = by;
    const before = await this.take(tx, id, by);
    if (before.closed_at !== null) throw closedAlready(before.closed_at);
    const { clientId, personId, kind = before.kind, redoOf } = request;
    const visit = {
      clientId: clientId === undefined ? before.client_id : clientId,
      personId: personId === undefined ? before.person_id : personId,
      kind,
      redoOf: redoOf === undefined ? before.redo_of : redoOf,
    };
    await checkNamed(tx, visit);
    await tx.query(CHANGE_VISIT, [id, ...fieldsOf(visit)]);
    const unpriced = before.services.map(({ serviceId }) => ({ serviceId }));
    const services = request.services ?? (kind === before.kind ? undefined : unpriced);
    if (services) {
      const { started_at: startedAt } = before;
      const prices = await pricesOf(tx, services, { kind, startedAt }, caller);
      await tx.query(CLEAR_SERVICES, [id]);
      await this.putServices(tx, id, prices);
    }
    const row = await this.read(tx, id, recordedAt);
    return visitView(row, { name: nameFor(caller), money: seesMoney(row, caller) });
  }

  /** @throws Problem `not_found`; a bench finds today's visits only */
  show(id: string, caller: Caller, now: string): Promise<VisitView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const row = await this.read(tx, id, now);
      if (!row.today && !isVisibleLater(row, caller)) throw missing(id);
      return visitView(row, { name: nameFor(caller), money: seesMoney(row, caller) });
    });
  }

  /** The latest first; at a bench today's only, a stylist finds her own too. */
  list(request: VisitListRequest, caller: Caller, now: string): Promise<Page<VisitView>> {
    const after = cursorValues(request, 2);
    const { from, to, clientId, personId, state, limit } = request;
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const keys = await tx.query<{ id: string; started_at: string }>(LIST_VISITS, [
        now,
        !mayAct(caller, 'manager'),
        mayAct(caller, 'stylist') ? (caller.personId ?? null) : null,
        from ?? null,
        to ?? null,
        clientId ?? null,
        personId ?? null,
        state === undefined ? null : state === 'closed',
        after?.[0] ?? null,
        after?.[1] ?? null,
        limit + 1,
      ]);
      const rows = await this.readMany(
        tx,
        keys.map((key) => key.id),
        now,
      );
      return pageOf(
        keys.flatMap(({ id }) => rows.get(id) ?? []),
        limit,
        (row) => [row.started_at, row.id],
        (row) => visitView(row, { name: nameFor(caller), money: seesMoney(row, caller) }),
      );
    });
  }

  /** Opens a closed visit again. @throws Problem `visit_is_open` */
  async reopen(tx: Transaction, id: string, newTerms: boolean, now: string): Promise<VisitView> {
    await tx.query(LOCK_VISIT, [id]);
    const before = await this.read(tx, id, now);
    if (before.closed_at === null) throw new Problem('visit_is_open', {});
    await tx.query(REOPEN_VISIT, [id, newTerms]);
    return visitView(await this.read(tx, id, now), { name: 'none', money: true });
  }

  /**
   * A visit that somebody is about to change, locked.
   * @throws Problem `not_found`, `not_your_right` for another's visit
   */
  async take(
    tx: Transaction,
    id: string,
    by: { caller: Caller; recordedAt: string },
  ): Promise<VisitRow> {
    const { caller, recordedAt } = by;
    await this.lock(tx, id);
    const row = await this.read(tx, id, recordedAt);
    const nobodys = row.person_id === null && row.bowls.every((bowl) => bowl.hands.length === 0);
    if (mayAct(caller, 'manager') || nobodys || isOwn(row, caller.personId)) return row;
    throw new Problem('not_your_right', { needs: whoMay('manager') });
  }

  /** Nobody else closes, reopens or prices it until the transaction ends. */
  async lock(tx: Transaction, id: string): Promise<void> {
    await tx.query(LOCK_VISIT, [id]);
  }

  /** @throws Problem `not_found` */
  async read(tx: Reader, id: string, now: string): Promise<VisitRow> {
    const row = (await this.readMany(tx, [id], now)).get(id);
    if (!row) throw missing(id);
    return row;
  }

  /**
   * Writes what a closing says; the visit must have been taken.
   * @throws Problem `visit_closed_already`, `closed_before_start`, `not_found` for a person
   */
  async close(tx: Transaction, visit: VisitRow, closing: Closing): Promise<void> {
    const { closedAt, minutes, chairMinutes, discount, payments, deposits, tip, terms } = closing;
    refuseClosing(visit, closedAt);
    const people = minutes.map((each) => each.personId);
    await checkPeople(tx, people, '/minutes');
    if (tip?.personId) await checkPeople(tx, [tip.personId], '/tip');
    await Promise.all([
      tx.query(CLOSE_VISIT, [
        visit.id,
        closedAt,
        chairMinutes,
        discount === null ? null : JSON.stringify(discount),
        JSON.stringify(payments),
        JSON.stringify(deposits),
        tip === null ? null : fixed(decimal(tip.amount), 6),
        tip?.method ?? null,
        tip?.personId ?? null,
        JSON.stringify(terms),
      ]),
      tx.query(CLEAR_MINUTES, [visit.id]),
      tx.query(PUT_MINUTES, [visit.id, people, minutes.map((each) => each.minutes)]),
    ]);
  }

  /** Those of the ids that there are, by id. */
  async readMany(tx: Reader, ids: readonly string[], now: string): Promise<Map<string, VisitRow>> {
    const rows = await tx.query<VisitRow & Record<string, unknown>>(READ_VISITS, [now, ids]);
    return new Map(rows.map((row) => [row.id, row]));
  }

  private async putServices(
    tx: Transaction,
    id: string,
    services: readonly TakenService[],
  ): Promise<void> {
    await tx.query(PUT_SERVICES, [
      id,
      services.map((service) => service.id),
      services.map((service) => canonical(service.price)),
      services.map((service) => service.versionId),
    ]);
  }
}

/**
 * Refuses a closing that cannot be.
 * @throws Problem `visit_closed_already`, `closed_before_start`
 */
function refuseClosing(visit: VisitRow, closedAt: string): void {
  if (visit.closed_at !== null) throw closedAlready(visit.closed_at);
  if (closedAt >= visit.started_at) return;
  const facts = { startedAt: visit.started_at, closedAt };
  throw new Problem('closed_before_start', facts, '/closedAt');
}

function closedAlready(closedAt: string): Problem {
  return new Problem('visit_closed_already', { closedAt });
}

function missing(id: string): Problem {
  return new Problem('not_found', { what: 'visit', id });
}

function isVisibleLater(row: VisitRow, caller: Caller): boolean {
  if (mayAct(caller, 'manager')) return true;
  return mayAct(caller, 'stylist') && isOwn(row, caller.personId);
}

function nameFor(caller: Caller): 'short' | 'whole' {
  return mayAct(caller, 'stylist') ? 'whole' : 'short';
}
