/** A bowl's day: opened, poured into, weighed in between, settled; looked at. */
import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type {
  BowlView,
  MixPlanView,
  PourAnswer,
  SettlementAnswer,
  WeighingAnswer,
} from '../../../shared/contract/bowls.js';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Reader, Transaction } from '../../platform/database/transaction.js';
import { LedgerService, type Entry, type Posting } from '../stock/ledger.service.js';
import { StockFlagsService } from '../stock/stock-flags.service.js';
import type { BowlInHand, Drawn } from './bowl-in-hand.js';
import { BowlReadingService } from './bowl-reading.service.js';
import { newBowl, netWeight, pourDraft, settlementDraft, type Backing } from './bowl-steps.js';
import { putBack, readRows } from './bowl-store.js';
import { READ_FORMULA, READ_PERSON, READ_VESSEL, READ_VISIT } from './bowls.queries.js';
import type {
  OpenBowlRequest,
  PourRequest,
  SettlementRequest,
  WeighingRequest,
} from './bowls.requests.js';
import { gramsIn, planView, settlementAnswer, weighingAnswer } from './bowls.views.js';
import { MixPlanningService } from './mix-planning.service.js';
import type { MixPlanRequest } from './mix-plan.requests.js';
import { readPlanRequest } from './stored-request.js';
import { pourAnswer } from './pour-answers.js';
import { readyPlan, type ReadyPlan } from './ready-plan.js';

/** Who acts, when the service heard of it, and whether they may see money. */
export interface Acting extends Entry {
  readonly money: boolean;
  /** Undoes only what is their own, on the same day. */
  readonly ownOnly: boolean;
}

@Injectable()
export class BowlsService {
  constructor(
    private readonly ledger: LedgerService,
    private readonly planning: MixPlanningService,
    private readonly stockFlags: StockFlagsService,
    private readonly reading: BowlReadingService,
  ) {}

  /** The plan of a mix; nothing is stored. */
  async plan(tx: Transaction, request: MixPlanRequest, by: Acting): Promise<MixPlanView> {
    return planView(await this.planning.plan(tx, request, by.recordedAt), by.money);
  }

  /** Opens a bowl that nothing is in yet. */
  async open(
    tx: Transaction,
    request: OpenBowlRequest,
    plannedAt: string,
    by: Acting,
  ): Promise<BowlView> {
    const bowl = await this.opened(tx, request, by, plannedAt);
    if (await this.isAfterClosing(tx, bowl, plannedAt)) {
      throw new Problem('visit_is_closed', { what: 'A new bowl' }, '/visitId');
    }
    putBack(tx, [bowl], by);
    return this.reading.view(tx, bowl.head.id);
  }

  /** Plans an open or planned bowl anew: resized, or a bit more; earlier pours stay as they are. */
  async replan(
    tx: Transaction,
    id: string,
    request: MixPlanRequest,
    plannedAt: string,
    by: Acting,
  ): Promise<BowlView> {
    await this.ledger.hold(tx, { bowlIds: [id], productIds: [] }, by.recordedAt);
    const bowl = await this.reading.inHand(tx, id);
    if (bowl.head.stage === 'settled' || bowl.head.stage === 'void') throw closed(bowl);
    if (await this.isAfterClosing(tx, bowl, plannedAt)) {
      throw new Problem('visit_is_closed', { what: 'Planning' });
    }
    const since = bowl.weighings.length > 0 ? plannedAt : null;
    const { plan, asked } = await this.planning.plan(tx, request, by.recordedAt);
    bowl.head.plan = readyPlan(plan, asked, request, since);
    bowl.head.contact = request.contact ?? bowl.head.contact;
    putBack(tx, [bowl], by);
    return this.reading.view(tx, id);
  }

  /** One ingredient goes in: deducted, priced, flagged; what to pour next. */
  async pour(
    tx: Transaction,
    id: string,
    request: PourRequest,
    pouredAt: string,
    by: Acting,
  ): Promise<PourAnswer> {
    const { bowl, posting } = await this.held(tx, id, by, [request.productId], pouredAt);
    if (bowl.head.stage === 'void') throw closed(bowl);
    if (bowl.settlement && bowl.settlement.at < pouredAt) throw closed(bowl);
    const later = await bowl.unwind(tx, this.ledger, posting, pouredAt);
    const drawn = bowl.pour(posting, pourDraft(posting, bowl, request, pouredAt));
    bowl.redo(posting, later);
    this.write(tx, [bowl], posting, by);
    return this.answerPour(bowl, drawn, posting, request, by);
  }

  /** Weighs what a bowl holds now; the part that is gone was applied. */
  async weigh(
    tx: Transaction,
    id: string,
    request: WeighingRequest,
    at: string,
    by: Acting,
  ): Promise<WeighingAnswer> {
    const { bowl, posting } = await this.held(tx, id, by, [], at);
    if (bowl.head.stage === 'void') throw closed(bowl);
    if (bowl.settlement && bowl.settlement.at < at) throw closed(bowl);
    const later = await bowl.unwind(tx, this.ledger, posting, at);
    const net = netWeight(bowl, {
      net: gramsIn(request.net),
      gross: gramsIn(request.gross),
      tare: gramsIn(request.tare),
    });
    const { weighing, split } = within('/net', () =>
      bowl.weigh(posting, { id: request.id ?? uuidv7(), net, at }),
    );
    bowl.redo(posting, later);
    this.write(tx, [bowl], posting, by);
    return weighingAnswer(bowl, weighing, split);
  }

  /** Weighs what is left and closes the bowl: applied on the head, the rest in the bin. */
  async settle(
    tx: Transaction,
    id: string,
    request: SettlementRequest,
    settledAt: string,
    by: Acting,
  ): Promise<SettlementAnswer> {
    const { bowl, posting } = await this.held(tx, id, by, [], settledAt);
    if (bowl.settlement || bowl.head.stage === 'void') throw closed(bowl);
    within('/leftover', () => bowl.settle(posting, settlementDraft(bowl, request, settledAt)));
    this.write(tx, [bowl], posting, by);
    return settlementAnswer(bowl, by.money);
  }

  /** A new bowl in the hand, its plan worked out, its visit and vessel looked up. */
  async opened(
    tx: Transaction,
    request: OpenBowlRequest,
    by: Acting,
    plannedAt: string,
  ): Promise<BowlInHand> {
    const backing = await this.backing(tx, request);
    const plan = await this.planFor(tx, request, by);
    return newBowl(request, by, backing, plan, plannedAt);
  }

  /** A bowl with its products locked; all of them where something may have to be undone. */
  async held(
    tx: Transaction,
    id: string,
    by: Acting,
    more: readonly string[],
    at: string,
  ): Promise<{ bowl: BowlInHand; posting: Posting }> {
    const [before] = await readRows(tx, [id]);
    if (!before) throw new Problem('not_found', { what: 'bowl', id });
    const inside = before.pours.map((pour) => pour.productId);
    const late =
      (before.settlement && before.settlement.at >= at) ||
      before.weighings.some((weighing) => weighing.at > at);
    const planned = before.plan?.pours.map((pour) => pour.productId) ?? [];
    const posting = await this.ledger.hold(
      tx,
      {
        bowlIds: [id],
        productIds: late ? [...more, ...inside] : more,
        alsoRead: [...inside, ...planned],
        since: at,
      },
      by.recordedAt,
    );
    return { bowl: await this.reading.inHand(tx, id), posting };
  }

  /** Writes bowls first: the movements' pours must be there. */
  write(tx: Transaction, bowls: readonly BowlInHand[], posting: Posting, by: Acting): void {
    putBack(tx, bowls, by);
    this.ledger.append(tx, posting, by);
  }

  /** Writes bowls that nothing was moved of. */
  put(tx: Transaction, bowls: readonly BowlInHand[], by: Acting): void {
    putBack(tx, bowls, by);
  }

  /** A pour's answer: value and flags of this posting, what to pour next, cautions. */
  answerPour(
    bowl: BowlInHand,
    drawn: Drawn,
    posting: Posting,
    request: PourRequest,
    by: Acting,
  ): PourAnswer {
    return pourAnswer(bowl, drawn, posting, {
      flags: this.stockFlags.raised(posting, by.recordedAt),
      money: by.money,
      progress: {
        finished: request.finished ? [request.productId] : [],
        ranOut: request.ranOut ? [request.productId] : [],
      },
    });
  }

  /** The visit and the vessel that a bowl names. @throws Problem `not_found` */
  async backing(
    tx: Reader,
    request: Pick<OpenBowlRequest, 'visitId' | 'vesselId'>,
  ): Promise<Backing> {
    const [visits, vessels] = await Promise.all([
      request.visitId
        ? tx.query<{ person_id: string | null; closed: boolean }>(READ_VISIT, [request.visitId])
        : [],
      request.vesselId ? tx.query<{ tare_g: string }>(READ_VESSEL, [request.vesselId]) : [],
    ]);
    const [visit, vessel] = [visits[0], vessels[0]];
    if (request.visitId && !visit) {
      throw new Problem('not_found', { what: 'visit', id: request.visitId }, '/visitId');
    }
    if (request.vesselId && !vessel) {
      throw new Problem('not_found', { what: 'vessel', id: request.vesselId }, '/vesselId');
    }
    const vesselTare: Decimal | null = vessel ? decimal(vessel.tare_g) : null;
    return { visit: visit ?? null, vesselTare };
  }

  /** The plan that a new bowl starts with: stated, from its formula, or none. */
  async planFor(tx: Transaction, request: OpenBowlRequest, by: Acting): Promise<ReadyPlan | null> {
    const asked = request.plan ?? (await this.formula(tx, request.formulaId));
    if (!asked) return null;
    const { plan, asked: mix } = await within('/plan', () =>
      this.planning.plan(tx, asked, by.recordedAt),
    );
    return readyPlan(plan, mix, asked, null);
  }

  /** @throws Problem `not_found` for a person who is not of the studio */
  async checkPerson(tx: Reader, id: string, pointer: string): Promise<void> {
    const [person] = await tx.query(READ_PERSON, [id]);
    if (!person) throw new Problem('not_found', { what: 'person', id }, pointer);
  }

  /** Planned in a visit that was closed by then; what was planned before only arrives late. */
  private async isAfterClosing(tx: Reader, bowl: BowlInHand, at: string): Promise<boolean> {
    if (!bowl.head.visitClosed) return false;
    const [visit] = await tx.query<{ closed_at: string }>(READ_VISIT, [bowl.head.visitId]);
    return visit !== undefined && visit.closed_at <= at;
  }

  private async formula(tx: Reader, id: string | undefined): Promise<MixPlanRequest | null> {
    if (id === undefined) return null;
    const [row] = await tx.query<{ plan: unknown }>(READ_FORMULA, [id]);
    if (!row) throw new Problem('not_found', { what: 'formula', id }, '/formulaId');
    return readPlanRequest(row.plan);
  }
}

/** Why a bowl takes nothing more. */
export function closed(bowl: BowlInHand): Problem {
  return bowl.settlement
    ? new Problem('bowl_is_settled', { settledAt: bowl.settlement.at })
    : new Problem('bowl_is_void', {});
}
