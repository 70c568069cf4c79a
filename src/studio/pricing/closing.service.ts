/** Closing a visit: its bowls, what was used, what was paid, and the sheet that follows. */
import { Inject, Injectable } from '@nestjs/common';
import type { ClosedVisitView, TipTerms, VisitMinutes } from '../../../shared/contract/visits.js';
import { amount } from '../../../shared/amount.js';
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { Happened } from '../../platform/clock.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import { BowlsService } from '../bowls/bowls.service.js';
import { StudioService } from '../people/studio.service.js';
import { LedgerService } from '../stock/ledger.service.js';
import { TakingService } from '../stock/taking.service.js';
import {
  minutesOf,
  seesMoney,
  usualMinutes,
  VisitsService,
  visitView,
  type VisitRow,
} from '../visits/visits.service.js';
import { refuseClosing } from './closing-checks.js';
import { PriceSheetsService } from './price-sheets.service.js';
import { READ_HAS_USES } from './price-sheets.queries.js';
import { priceView } from './price-sheets.views.js';
import type { ClosingRequest } from './pricing.requests.js';
import { termsOf } from './terms.js';

/** Who closes, and when the service heard of it. */
export interface ClosingBy {
  readonly caller: Caller;
  readonly recordedAt: string;
  /** When something happened, by the device's clock set right. */
  readonly when: (written: string) => Happened;
}

interface UsedLine {
  readonly productId: string;
  readonly quantity: Decimal;
  readonly unit: 'g' | 'ml' | 'piece';
}

@Injectable()
export class ClosingService {
  constructor(
    @Inject(VisitsService) private readonly visits: VisitsService,
    @Inject(BowlsService) private readonly bowls: BowlsService,
    @Inject(LedgerService) private readonly ledger: LedgerService,
    @Inject(TakingService) private readonly taking: TakingService,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(PriceSheetsService) private readonly sheets: PriceSheetsService,
  ) {}

  /**
   * Closes a visit: open bowls first, then what was used, then the visit, then its sheet.
   * @throws Problem `visit_closed_already`, `closed_before_start`, `bowls_still_open`
   */
  async close(
    tx: Transaction,
    id: string,
    request: ClosingRequest,
    by: ClosingBy,
  ): Promise<ClosedVisitView> {
    const closedAt = by.when(request.closedAt).at;
    const visit = await this.visits.take(tx, id, by);
    const { currency } = await this.studio.pricing(tx);
    refuseClosing(visit, request, closedAt, currency);
    const open = visit.bowls.filter((bowl) => bowl.state === 'open');
    const lines = await this.linesOf(tx, visit, request);
    await this.hold(tx, open, lines, by);
    for (const bowl of open) await this.useUp(tx, bowl, closedAt, by);
    await this.use(tx, visit, lines, closedAt, by);
    const minutes = request.minutes ?? minutesOf(visit);
    const { terms } = await termsOf(
      tx,
      this.studio,
      { ...visit, closed_at: closedAt },
      minutes.map(personOf),
    );
    await this.visits.close(tx, visit, {
      closedAt,
      minutes,
      chairMinutes: request.chairMinutes ?? usualMinutes(visit, 'chairMinutes'),
      discount: discountOf(request),
      payments: request.payments.map(({ method, amount: paid }) => ({
        method,
        amount: canonical(paid),
      })),
      deposits: request.deposits.map(({ label, amount: paid }) => ({
        label,
        amount: canonical(paid),
      })),
      tip: tipOf(request, visit),
      terms,
    });
    const sheet = await this.sheets.final(tx, id);
    const closed = await this.visits.read(tx, id, by.recordedAt);
    const money = seesMoney(closed, by.caller);
    return {
      ...visitView(closed, { name: 'none', money }),
      settledBowls: open.map((bowl) => bowl.id),
      uses: lines.map(({ productId, quantity, unit }) => ({
        ...{ productId, quantity: canonical(quantity), unit },
      })),
      ...(money && sheet ? { price: priceView(sheet) } : {}),
    };
  }

  /** What was used: as told, else the kits of the services, unless something is booked already. */
  private async linesOf(
    tx: Transaction,
    visit: VisitRow,
    request: ClosingRequest,
  ): Promise<UsedLine[]> {
    if (request.uses) return request.uses;
    const kit = visit.services.flatMap((service) => service.kit);
    if (kit.length === 0) return [];
    const [row] = await tx.query<{ used: boolean }>(READ_HAS_USES, [visit.id]);
    if (row?.used) return [];
    const lines = new Map<string, UsedLine>();
    for (const { productId, quantity, unit } of kit) {
      const known = lines.get(`${productId} ${unit}`);
      const more = decimal(quantity);
      const all = known ? known.quantity.plus(more) : more;
      lines.set(`${productId} ${unit}`, { productId, quantity: all, unit });
    }
    return [...lines.values()];
  }

  /** All that will be booked is locked at once, in the ledger's order. */
  private async hold(
    tx: Transaction,
    open: VisitRow['bowls'],
    lines: readonly UsedLine[],
    by: ClosingBy,
  ): Promise<void> {
    if (open.length === 0) return;
    const bowlIds = open.map((bowl) => bowl.id);
    const inside = await this.ledger.heldIn(tx, bowlIds);
    const productIds = [...inside, ...lines].map((each) => each.productId);
    await this.ledger.hold(tx, { bowlIds, productIds }, by.recordedAt);
  }

  /** A bowl that nobody weighed is counted as applied, all of it. */
  private async useUp(
    tx: Transaction,
    bowl: VisitRow['bowls'][number],
    closedAt: string,
    by: ClosingBy,
  ): Promise<void> {
    const settledAt = bowl.lastAt !== null && bowl.lastAt > closedAt ? bowl.lastAt : closedAt;
    const left = {
      leftover: amount('0', 'g'),
      settledAt,
      why: 'left over',
      estimated: true,
    } as const;
    const acting = { ...actingOf(by), money: false, ownOnly: false };
    await this.bowls.settle(tx, bowl.id, left, settledAt, acting);
  }

  private async use(
    tx: Transaction,
    visit: VisitRow,
    lines: readonly UsedLine[],
    closedAt: string,
    by: ClosingBy,
  ): Promise<void> {
    if (lines.length === 0) return;
    const request = { visitId: visit.id, usedAt: closedAt, lines: [...lines] };
    const acting = {
      ...actingOf(by),
      money: false,
      ownOnly: !mayAct(by.caller, 'manager'),
      when: (at: string) => ({ at, flags: [] }),
    };
    try {
      await this.taking.use(tx, request, acting);
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      const pointer = (error.pointer ?? '').replace(/^\/lines/, '/uses');
      throw new Problem(error.code, error.facts, pointer);
    }
  }
}

function actingOf({ caller, recordedAt }: ClosingBy) {
  const { personId = null, benchId = null } = caller;
  return { personId, benchId, recordedAt };
}

function personOf({ personId }: VisitMinutes): string {
  return personId;
}

function discountOf({ discount }: ClosingRequest) {
  if (!discount) return null;
  const { label, of, share, amount: off } = discount;
  return {
    ...{ label, of },
    ...(share ? { share: canonical(share) } : {}),
    ...(off ? { amount: canonical(off) } : {}),
  };
}

/** A tip is paid as the rest is, and is of the person who serves, unless told. */
function tipOf({ tip, payments }: ClosingRequest, visit: VisitRow): TipTerms | null {
  if (!tip) return null;
  return {
    amount: canonical(tip.amount),
    method: tip.method ?? payments[0]?.method ?? 'card',
    personId: tip.personId ?? visit.person_id,
  };
}
