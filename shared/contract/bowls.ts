/** Bowls as they travel: plans, pours, weighings, settlements. Decimals are text. */
import type { Q } from './quantity.js';

type Unit = 'g' | 'ml' | 'piece';

export interface CautionView {
  code: string;
  text: string;
  manner: 'interrupts' | 'asks' | 'line';
}

export interface PlannedPourView {
  productId: string;
  side: 'powder' | 'developer' | 'additive';
  quantity: string;
  unit: Unit;
  grams: string;
  millilitres?: string;
}

export interface StrengthView {
  volume: string;
  percent: string;
}

export interface MixPlanView {
  pours: PlannedPourView[];
  total: Q<'g'>;
  contents: Q<'g'>;
  strength?: StrengthView;
  peroxidePercent: string;
  /** What these grams would draw now; managers and owners only. */
  cost?: string;
  noCost?: string[];
  cautions: CautionView[];
  assumed: { code: string; productId: string; text: string }[];
}

export interface ToPourView {
  productId: string;
  quantity: string;
  unit: Unit;
  grams: string;
}

export interface OfferView {
  kind: string;
  text: string;
  toPour: ToPourView[];
  contents: Q<'g'>;
  ratio?: string;
  strength?: StrengthView;
  shades?: string;
}

export interface PourView {
  id: string;
  productId: string;
  kind: 'poured' | 'received';
  measured: Q;
  quantity: string;
  unit: Unit;
  grams: string;
  assumedDensity: boolean;
  pouredAt: string;
  estimated: boolean;
  reversed: boolean;
}

export interface PourAnswer extends PourView {
  bowlId: string;
  /** Ledger value of the pour; managers and owners only. */
  value?: string;
  lots?: { lotId: string; quantity: string; value: string }[];
  toPour: ToPourView[];
  offers: OfferView[];
  strength?: StrengthView;
  flags: { productId: string; flag: string }[];
  cautions: CautionView[];
  late?: boolean;
}

export interface WeighingAnswer {
  id: string;
  bowlId: string;
  net: Q<'g'>;
  applied: Q<'g'>;
  at: string;
}

export interface SettlementAnswer {
  id: string;
  bowlId: string;
  settledAt: string;
  why: string;
  borneBy: string;
  estimated: boolean;
  mixed: Q<'g'>;
  applied: Q<'g'>;
  wasted: Q<'g'>;
  wasteShare: string;
  value?: { mixed: string; applied: string; wasted: string };
  pours: {
    pourId: string;
    productId: string;
    applied: Q;
    wasted: Q;
    value?: { applied: string; wasted: string };
  }[];
  questions: { code: string; text: string }[];
}

export interface BowlView {
  id: string;
  visitId: string | null;
  purpose: string;
  contact: 'scalp' | 'off-scalp' | null;
  state: 'planned' | 'open' | 'settled' | 'void';
  mark: string | null;
  vesselId: string | null;
  formulaId: string | null;
  tare: Q<'g'> | null;
  maxTotal: Q<'g'> | null;
  sizedBy: string | null;
  mixedBy: string | null;
  appliedBy: string | null;
  plannedAt: string;
  firstContactAt: string | null;
  lastPourAt: string | null;
  settledAt: string | null;
  estimated: boolean;
  late: boolean;
  planned: PlannedPourView[];
  strength?: StrengthView;
  pours: PourView[];
  mixed: Q<'g'>;
  holds: Q<'g'>;
  wasted: Q<'g'>;
  why: string | null;
  borneBy: string | null;
  cautions: CautionView[];
  noted: { code: string; answer: string; at: string }[];
}

export interface RecordedBowl {
  bowl: BowlView;
  pours: PourAnswer[];
  weighings: WeighingAnswer[];
  settlement?: SettlementAnswer;
}
