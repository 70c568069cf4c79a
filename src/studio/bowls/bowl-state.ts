/** A bowl as the service holds it in memory: its row, its lines, what is to be written back. */
import type { StockUnit } from '../../../shared/amount.js';
import { decimal, zero, type Decimal } from '../../../shared/decimal.js';
import type { Contact, Side } from '../../../shared/mix.js';
import type { ReadyPlan } from './ready-plan.js';

export type BowlStage = 'planned' | 'open' | 'settled' | 'void';
export type LeftoverReason = 'left over' | 'spilled' | 'mixed wrong' | 'stopped';
export type Bearer = 'visit' | 'studio';

/** How a reading was come by; interval in g. */
export interface ScaleNote {
  readonly interval?: string;
  readonly stable?: boolean;
  readonly windowMs?: number;
  readonly source?: string;
}

/** One ingredient that went into a bowl; instants are RFC 3339 in UTC. */
export interface PourLine {
  readonly id: string;
  readonly productId: string;
  readonly kind: 'poured' | 'received';
  readonly measuredQuantity: Decimal;
  readonly measuredUnit: StockUnit;
  readonly quantity: Decimal;
  readonly unit: StockUnit;
  readonly grams: Decimal;
  readonly assumedDensity: boolean;
  readonly side: Side | null;
  readonly pouredAt: string;
  readonly estimated: boolean;
  readonly scale: ScaleNote | null;
  readonly fromBowlId: string | null;
  journalId: string;
  reversed: boolean;
}

export interface WeighingLine {
  readonly id: string;
  readonly net: Decimal;
  readonly at: string;
  journalId: string;
  reversed: boolean;
}

export interface SettlementLine {
  readonly id: string;
  readonly leftover: Decimal;
  readonly at: string;
  readonly why: LeftoverReason;
  readonly borneBy: Bearer;
  readonly estimated: boolean;
  journalId: string;
  reversed: boolean;
}

/** The bowl's own row. */
export interface BowlHead {
  readonly id: string;
  visitId: string | null;
  readonly purpose: string;
  contact: Contact | null;
  plan: ReadyPlan | null;
  readonly formulaId: string | null;
  readonly vesselId: string | null;
  /** The vessel's own weight, g, where no tare was told. */
  readonly vesselTare: Decimal | null;
  readonly tare: Decimal | null;
  maxTotal: Decimal | null;
  readonly mark: string | null;
  stage: BowlStage;
  readonly sizedBy: string | null;
  readonly mixedBy: string | null;
  readonly appliedBy: string | null;
  readonly benchId: string | null;
  readonly plannedAt: string;
  firstContactAt: string | null;
  lastPourAt: string | null;
  settledAt: string | null;
  estimated: boolean;
  late: boolean;
  mixed: Decimal;
  held: Decimal;
  wasted: Decimal;
  why: LeftoverReason | null;
  borneBy: Bearer | null;
  visitClosed: boolean;
}

export interface NotedCaution {
  readonly code: string;
  readonly answer: string;
  readonly at: string;
}

/** A row of READ_BOWLS. */
export interface BowlRow {
  id: string;
  visit_id: string | null;
  purpose: string;
  contact: Contact | null;
  plan: ReadyPlan | null;
  formula_id: string | null;
  vessel_id: string | null;
  tare_g: string | null;
  max_total_g: string | null;
  mark: string | null;
  state: BowlStage;
  sized_by: string | null;
  mixed_by: string | null;
  applied_by: string | null;
  bench_id: string | null;
  planned_at: string;
  first_contact_at: string | null;
  last_pour_at: string | null;
  settled_at: string | null;
  estimated: boolean;
  late: boolean;
  mixed_g: string;
  held_g: string;
  wasted_g: string;
  why: LeftoverReason | null;
  borne_by: Bearer | null;
  vessel_tare_g: string | null;
  visit_closed: boolean;
  pours: {
    id: string;
    productId: string;
    kind: 'poured' | 'received';
    measuredQuantity: string;
    measuredUnit: StockUnit;
    quantity: string;
    unit: StockUnit;
    grams: string;
    assumedDensity: boolean;
    pouredAt: string;
    estimated: boolean;
    scale: ScaleNote | null;
    side: Side | null;
    fromBowlId: string | null;
    journalId: string;
    reversed: boolean;
  }[];
  weighings: { id: string; net: string; at: string; journalId: string }[];
  settlement: {
    id: string;
    leftover: string;
    at: string;
    why: LeftoverReason;
    borneBy: Bearer;
    estimated: boolean;
    journalId: string;
  } | null;
  noted: NotedCaution[];
}

const maybe = (text: string | null): Decimal | null => (text === null ? null : decimal(text));

export function headOf(row: BowlRow): BowlHead {
  return {
    id: row.id,
    visitId: row.visit_id,
    purpose: row.purpose,
    contact: row.contact,
    plan: row.plan,
    formulaId: row.formula_id,
    vesselId: row.vessel_id,
    vesselTare: maybe(row.vessel_tare_g),
    tare: maybe(row.tare_g),
    maxTotal: maybe(row.max_total_g),
    mark: row.mark,
    stage: row.state,
    sizedBy: row.sized_by,
    mixedBy: row.mixed_by,
    appliedBy: row.applied_by,
    benchId: row.bench_id,
    plannedAt: row.planned_at,
    firstContactAt: row.first_contact_at,
    lastPourAt: row.last_pour_at,
    settledAt: row.settled_at,
    estimated: row.estimated,
    late: row.late,
    mixed: decimal(row.mixed_g),
    held: decimal(row.held_g),
    wasted: decimal(row.wasted_g),
    why: row.why,
    borneBy: row.borne_by,
    visitClosed: row.visit_closed,
  };
}

/** The lines of a row, their numbers made exact. */
export function linesOf(row: BowlRow): {
  pours: PourLine[];
  weighings: WeighingLine[];
  settlement: SettlementLine | null;
} {
  return {
    pours: row.pours.map((pour) => ({
      ...pour,
      measuredQuantity: decimal(pour.measuredQuantity),
      quantity: decimal(pour.quantity),
      grams: decimal(pour.grams),
    })),
    weighings: row.weighings.map((weighing) => ({
      ...weighing,
      net: decimal(weighing.net),
      reversed: false,
    })),
    settlement: row.settlement
      ? { ...row.settlement, leftover: decimal(row.settlement.leftover), reversed: false }
      : null,
  };
}

/** What a new bowl starts with. */
export function emptyHead(
  head: Omit<
    BowlHead,
    | 'stage'
    | 'firstContactAt'
    | 'lastPourAt'
    | 'settledAt'
    | 'estimated'
    | 'late'
    | 'mixed'
    | 'held'
    | 'wasted'
    | 'why'
    | 'borneBy'
  >,
): BowlHead {
  return {
    ...head,
    stage: 'planned',
    firstContactAt: null,
    lastPourAt: null,
    settledAt: null,
    estimated: false,
    late: false,
    mixed: zero,
    held: zero,
    wasted: zero,
    why: null,
    borneBy: null,
  };
}
