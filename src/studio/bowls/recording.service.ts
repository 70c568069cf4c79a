/** A whole bowl at once, as a bench that was offline sends it: all of it or nothing. */
import { Injectable } from '@nestjs/common';
import type { PourAnswer, RecordedBowl, WeighingAnswer } from '../../../shared/contract/bowls.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { NestedOnce } from '../../platform/database/once-nested.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { LedgerService, type Posting } from '../stock/ledger.service.js';
import type { BowlInHand, Drawn } from './bowl-in-hand.js';
import { netWeight, newBowl, pourDraft, settlementDraft, type Corrected } from './bowl-steps.js';
import { readRows, takeInHand } from './bowl-store.js';
import { BowlsService, closed, type Acting } from './bowls.service.js';
import type { PourRequest, RecordRequest, SettlementRequest } from './bowls.requests.js';
import type { WeighingRequest } from './bowls.requests.js';
import { bowlView, gramsIn, settlementAnswer, weighingAnswer } from './bowls.views.js';
import { candidatesFor, MixPlanningService, productIdsOf } from './mix-planning.service.js';
import { mixRequestOf } from './mix-plan.requests.js';
import { bowlCautions } from './pour-answers.js';
import { readyPlan } from './ready-plan.js';

/** One thing that happened to the bowl, with its place in the request. */
type Event =
  | { readonly at: string; readonly order: 0; index: number; readonly pour: PourRequest }
  | { readonly at: string; readonly order: 1; index: number; readonly weighing: WeighingRequest }
  | { readonly at: string; readonly order: 2; index: 0; readonly settlement: SettlementRequest };

/** What is answered once by its own id, though it came inside a recorded bowl. */
export interface Nested {
  readonly call: string;
  readonly request: { readonly id?: string | undefined };
}

@Injectable()
export class RecordingService {
  constructor(
    private readonly bowls: BowlsService,
    private readonly planning: MixPlanningService,
    private readonly ledger: LedgerService,
  ) {}

  /**
   * Records a bowl with its pours, weighings and settlement. What was booked before with equal
   * content is skipped; what is new is entered where it happened.
   * @param looked the look at what was booked before, on its way together with the rest
   */
  async record(
    tx: Transaction,
    request: RecordRequest,
    corrected: Corrected,
    by: Acting,
    looked: Promise<NestedOnce>,
  ): Promise<RecordedBowl> {
    looked.catch(() => undefined); // said below, where it is waited for
    const id = request.bowl.id as string;
    const all = eventsOf(request, corrected);
    const plan = request.bowl.plan ? mixRequestOf(request.bowl.plan) : undefined;
    const candidates = plan ? await candidatesFor(tx, plan) : [];
    const poured = request.pours.map((pour) => pour.productId);
    const hold = (more: readonly string[]) =>
      this.ledger.hold(
        tx,
        {
          bowlIds: [id],
          productIds: [...poured, ...more],
          alsoRead: [...(plan ? productIdsOf(plan) : []), ...candidates],
          since: all[0]?.at ?? by.recordedAt,
        },
        by.recordedAt,
      );
    const [{ booked }, held, rows, backing] = await Promise.all([
      looked,
      hold([]),
      readRows(tx, [id]),
      within('/bowl', () => this.bowls.backing(tx, request.bowl)),
    ]);
    // a bowl that is new here must not stand for another one
    if (rows.length > 0 && !booked.has(id)) throw new Problem('id_reused', { id }, '/bowl/id');
    const inside = rows.flatMap((row) => row.pours.map((pour) => pour.productId));
    const posting = inside.some((each) => !poured.includes(each)) ? await hold(inside) : held;
    const there = rows.length > 0 ? (await takeInHand(tx, [id])).get(id) : undefined;
    const plannedAt = corrected(request.bowl.plannedAt ?? firstInstant(request, by)).at;
    const ready = there
      ? null
      : !plan
        ? await within('/bowl', () => this.bowls.planFor(tx, request.bowl, by))
        : within('/bowl/plan', () => {
            const made = this.planning.planned(posting, plan, candidates, by.recordedAt);
            return readyPlan(made.plan, plan, request.bowl.plan, null);
          });
    const bowl = there ?? newBowl(request.bowl, by, backing, ready, plannedAt);
    const events = all.filter((event) => !isBooked(event, booked));
    if (bowl.head.stage === 'void' && events.length > 0) throw closed(bowl);
    return this.enter(tx, bowl, events, posting, by);
  }

  private async enter(
    tx: Transaction,
    bowl: BowlInHand,
    events: readonly Event[],
    posting: Posting,
    by: Acting,
  ): Promise<RecordedBowl> {
    const drawn: { request: PourRequest; drawn: Drawn }[] = [];
    const weighings: WeighingAnswer[] = [];
    for (const event of events) {
      if ('settlement' in event) {
        if (bowl.settlement) throw closed(bowl);
        within('/settlement/leftover', () =>
          bowl.settle(posting, settlementDraft(bowl, event.settlement, event.at)),
        );
        continue;
      }
      if (bowl.settlement && bowl.settlement.at < event.at) throw closed(bowl);
      const later = await bowl.unwind(tx, this.ledger, posting, event.at);
      if ('pour' in event) {
        const { pour } = event;
        const draft = within(`/pours/${event.index}`, () =>
          pourDraft(posting, bowl, pour, event.at),
        );
        drawn.push({ request: pour, drawn: bowl.pour(posting, draft) });
      } else {
        weighings.push(weighed(bowl, posting, event));
      }
      bowl.redo(posting, later);
    }
    this.bowls.write(tx, [bowl], posting, by);
    const cautions = bowl.head.stage === 'open' ? bowlCautions(bowl, posting) : [];
    const pours: PourAnswer[] = drawn.map((each) =>
      this.bowls.answerPour(bowl, each.drawn, posting, each.request, by),
    );
    return {
      bowl: bowlView(bowl, cautions, []),
      pours,
      weighings,
      ...(bowl.settlement ? { settlement: settlementAnswer(bowl, by.money) } : {}),
    };
  }
}

/** The nested requests of a recorded bowl with the calls they stand for. */
export function nestedOf(request: RecordRequest): Nested[] {
  const id = request.bowl.id ?? '';
  return [
    { call: 'POST /bowls', request: request.bowl },
    ...request.pours.map((pour) => ({ call: `POST /bowls/${id}/pours`, request: pour })),
    ...request.weighings.map((each) => ({ call: `POST /bowls/${id}/weighings`, request: each })),
    ...(request.settlement
      ? [{ call: `POST /bowls/${id}/settlement`, request: request.settlement }]
      : []),
  ];
}

function eventsOf(request: RecordRequest, corrected: Corrected): Event[] {
  const events: Event[] = [
    ...request.pours.map((pour, index) => ({
      at: corrected(pour.pouredAt).at,
      order: 0 as const,
      index,
      pour,
    })),
    ...request.weighings.map((weighing, index) => ({
      at: corrected(weighing.at).at,
      order: 1 as const,
      index,
      weighing,
    })),
    ...(request.settlement
      ? [
          {
            at: corrected(request.settlement.settledAt).at,
            order: 2 as const,
            index: 0 as const,
            settlement: request.settlement,
          },
        ]
      : []),
  ];
  return events.sort((a, b) =>
    a.at === b.at ? a.order - b.order || a.index - b.index : a.at < b.at ? -1 : 1,
  );
}

function isBooked(event: Event, booked: ReadonlySet<string>): boolean {
  const request =
    'pour' in event ? event.pour : 'weighing' in event ? event.weighing : event.settlement;
  return request.id !== undefined && booked.has(request.id);
}

function weighed(
  bowl: BowlInHand,
  posting: Posting,
  event: Extract<Event, { order: 1 }>,
): WeighingAnswer {
  const { weighing: request, at, index } = event;
  return within(`/weighings/${index}`, () => {
    const net = netWeight(bowl, {
      net: gramsIn(request.net),
      gross: gramsIn(request.gross),
      tare: gramsIn(request.tare),
    });
    if (request.id === undefined) throw new Problem('id_needed', {}, '/id');
    const { weighing, split } = bowl.weigh(posting, { id: request.id, net, at });
    return weighingAnswer(bowl, weighing, split);
  });
}

function firstInstant(request: RecordRequest, by: Acting): string {
  return request.pours.map((pour) => pour.pouredAt).sort()[0] ?? by.recordedAt;
}

/** Every part's own answer by its id, as its single call would have given it. */
export function answersById(recorded: RecordedBowl): Map<string, unknown> {
  return new Map<string, unknown>([
    [recorded.bowl.id, recorded.bowl],
    ...recorded.pours.map((pour) => [pour.id, pour] as const),
    ...recorded.weighings.map((weighing) => [weighing.id, weighing] as const),
    ...(recorded.settlement ? [[recorded.settlement.id, recorded.settlement] as const] : []),
  ]);
}
