/** Reads bowls into the hand, and writes back what the steps changed. */
import { canonical, decimal, fixed, type Decimal } from '../../../shared/decimal.js';
import type { Place } from '../../../shared/moving/movement.js';
import { prepared, type Reader, type Transaction } from '../../platform/database/transaction.js';
import type { Entry } from '../stock/ledger.service.js';
import { BowlFlows } from './bowl-flows.js';
import { BowlInHand } from './bowl-in-hand.js';
import {
  headOf,
  linesOf,
  type BowlRow,
  type PourLine,
  type SettlementLine,
  type WeighingLine,
} from './bowl-state.js';
import { READ_BOWLS, READ_FLOWS, WRITE_BOWLS } from './bowls.queries.js';

interface FlowRow {
  product_id: string;
  lot_id: string;
  from_place: Place;
  to_place: Place;
  from_bowl_id: string | null;
  from_pour_id: string | null;
  to_bowl_id: string | null;
  to_pour_id: string | null;
  reversal: boolean;
  quantity: string;
  value: string;
}

const readBowls = prepared(READ_BOWLS);
const readFlows = prepared(READ_FLOWS);
const writeBowls = prepared(WRITE_BOWLS);

/** Bowls by id, as their rows are now; unknown ids are left out. */
export async function readRows(tx: Reader, ids: readonly string[]): Promise<BowlRow[]> {
  return tx.query<BowlRow & Record<string, unknown>>(readBowls, [ids]);
}

/** Bowls by id with all that went into and out of them; lock them first. */
export async function takeInHand(
  tx: Reader,
  ids: readonly string[],
): Promise<Map<string, BowlInHand>> {
  const [rows, flows] = await Promise.all([
    readRows(tx, ids),
    tx.query<FlowRow & Record<string, unknown>>(readFlows, [ids]),
  ]);
  return new Map(
    rows.map((row) => {
      const kept = new BowlFlows(row.id);
      kept.book(flows.map(movementOf));
      const { pours, weighings, settlement } = linesOf(row);
      return [row.id, new BowlInHand(headOf(row), pours, weighings, settlement, kept)];
    }),
  );
}

/** Writes the bowls' rows and every line that a step touched, in one statement. */
export function putBack(tx: Transaction, bowls: readonly BowlInHand[], entry: Entry): void {
  const rows = new BowlRows();
  for (const bowl of bowls) rows.add(bowl, entry);
  tx.write(writeBowls, rows.parameters);
}

/** The same for bowls of several entries, none of them twice. */
export function putBackRows(tx: Transaction, rows: BowlRows): void {
  tx.write(writeBowls, rows.parameters);
}

/** Bowls with their touched lines as WRITE_BOWLS reads them: text as soon as they are added. */
export class BowlRows {
  private readonly bowls: string[] = [];
  private readonly pours: string[] = [];
  private readonly weighings: string[] = [];
  private readonly settlements: string[] = [];

  add(bowl: BowlInHand, entry: Entry): void {
    this.bowls.push(JSON.stringify(bowlRow(bowl, entry)));
    for (const line of bowl.touchedPours) {
      this.pours.push(JSON.stringify(pourRow(bowl, line, entry)));
    }
    for (const line of bowl.touchedWeighings) {
      this.weighings.push(JSON.stringify(weighingRow(bowl, line, entry)));
    }
    for (const line of bowl.touchedSettlements) {
      this.settlements.push(JSON.stringify(settlementRow(bowl, line, entry)));
    }
  }

  get parameters(): string[] {
    return [this.bowls, this.pours, this.weighings, this.settlements].map(
      (rows) => `[${rows.join()}]`,
    );
  }
}

function movementOf(row: FlowRow) {
  const pour = (bowlId: string | null, pourId: string | null) =>
    bowlId !== null && pourId !== null ? { bowlId, pourId } : null;
  const fromPour = pour(row.from_bowl_id, row.from_pour_id);
  const toPour = pour(row.to_bowl_id, row.to_pour_id);
  return {
    productId: row.product_id,
    lotId: row.lot_id,
    from: row.from_place,
    to: row.to_place,
    ...(fromPour ? { fromPour } : {}),
    ...(toPour ? { toPour } : {}),
    quantity: decimal(row.quantity),
    value: decimal(row.value),
    ...(row.reversal ? { reverses: 'some' } : {}),
  };
}

const grams = (value: Decimal | null) => (value === null ? null : fixed(value, 3));

function bowlRow({ head }: BowlInHand, entry: Entry) {
  return {
    id: head.id,
    visit_id: head.visitId,
    purpose: head.purpose,
    contact: head.contact,
    plan: head.plan,
    formula_id: head.formulaId,
    vessel_id: head.vesselId,
    tare_g: grams(head.tare),
    max_total_g: grams(head.maxTotal),
    mark: head.mark,
    state: head.stage,
    sized_by: head.sizedBy,
    mixed_by: head.mixedBy,
    applied_by: head.appliedBy,
    bench_id: head.benchId,
    planned_at: head.plannedAt,
    recorded_at: entry.recordedAt,
    first_contact_at: head.firstContactAt,
    last_pour_at: head.lastPourAt,
    settled_at: head.settledAt,
    estimated: head.estimated,
    late: head.late,
    mixed_g: grams(head.mixed),
    held_g: grams(head.held),
    wasted_g: grams(head.wasted),
    why: head.why,
    borne_by: head.borneBy,
  };
}

function pourRow(bowl: BowlInHand, pour: PourLine, entry: Entry) {
  return {
    id: pour.id,
    bowl_id: bowl.head.id,
    product_id: pour.productId,
    kind: pour.kind,
    measured_quantity: canonical(pour.measuredQuantity),
    measured_unit: pour.measuredUnit,
    quantity: canonical(pour.quantity),
    unit: pour.unit,
    grams: grams(pour.grams),
    assumed_density: pour.assumedDensity,
    side: pour.side,
    poured_at: pour.pouredAt,
    recorded_at: entry.recordedAt,
    person_id: entry.personId,
    bench_id: entry.benchId,
    estimated: pour.estimated,
    scale: pour.scale,
    from_bowl_id: pour.fromBowlId,
    journal_id: pour.journalId,
    reversed_at: pour.reversed ? entry.recordedAt : null,
  };
}

function weighingRow(bowl: BowlInHand, weighing: WeighingLine, entry: Entry) {
  return {
    id: weighing.id,
    bowl_id: bowl.head.id,
    net_g: grams(weighing.net),
    weighed_at: weighing.at,
    recorded_at: entry.recordedAt,
    person_id: entry.personId,
    journal_id: weighing.journalId,
    reversed_at: weighing.reversed ? entry.recordedAt : null,
  };
}

function settlementRow(bowl: BowlInHand, settlement: SettlementLine, entry: Entry) {
  return {
    id: settlement.id,
    bowl_id: bowl.head.id,
    leftover_g: grams(settlement.leftover),
    settled_at: settlement.at,
    recorded_at: entry.recordedAt,
    person_id: entry.personId,
    why: settlement.why,
    borne_by: settlement.borneBy,
    estimated: settlement.estimated,
    journal_id: settlement.journalId,
    reversed_at: settlement.reversed ? entry.recordedAt : null,
  };
}
