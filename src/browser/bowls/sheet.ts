/** A bowl as the bench keeps it: what was planned, what went in, what was chosen on the way. */
import type {
  BowlView,
  PlannedPourView,
  SettlementAnswer,
  StrengthView,
} from '../../../shared/contract/bowls.js';
import { canonical, decimal, sum, zero, type Decimal } from '../../../shared/decimal.js';
import type { Contact } from '../../../shared/mix.js';
import type { OfferKind } from '../../../shared/rebalancing.js';
import type { MixJson } from './mix-json.js';

/** A pour as the bench weighed it; decimals are text, so that a sheet can be kept. */
export interface SheetPour {
  readonly id: string;
  readonly productId: string;
  /** What is of it in the bowl: poured, less what was scooped back. */
  readonly grams: string;
  readonly pouredAt: string;
  /** What was due of its product in all when it ended; null where nothing was. */
  readonly due: string | null;
  /** It may still drip, and is not in the outbox yet: what will be told of it. */
  readonly pending?: PendingPour;
}

/** What the service is told of a pour beside its grams. */
export interface PendingPour {
  /** The product's name, for a person who looks at the outbox. */
  readonly name: string;
  readonly finished: boolean;
  readonly scale?: {
    readonly interval: string;
    readonly stable: boolean;
    readonly windowMs: number;
    readonly source: string;
  };
}

/** Something to pour beyond the plan: thinning, or a product nobody planned. */
export interface Extra {
  readonly productId: string;
  /** Null: as much as the person says. */
  readonly grams: string | null;
}

export interface Sheet {
  readonly id: string;
  readonly visitId: string | null;
  readonly purpose: string;
  readonly contact: Contact | null;
  readonly mark: string | null;
  readonly vesselId: string | null;
  readonly request: MixJson | null;
  readonly planned: readonly PlannedPourView[];
  readonly strength: StrengthView | null;
  readonly tareGrams: string | null;
  /** The service has heard of it. */
  readonly opened: boolean;
  readonly pours: readonly SheetPour[];
  /** Pours before this one were made for an earlier plan. */
  readonly planFrom: number;
  /** What it held when it was last weighed in between, and how many pours there were then. */
  readonly weighed: { readonly grams: string; readonly pours: number } | null;
  /** Part of it went into a second bowl, and nothing onto a head since. */
  readonly divided?: boolean;
  /** Products that the person said were all there is. */
  readonly finished: readonly string[];
  /** The offer that was chosen after too much. */
  readonly choice: OfferKind | null;
  readonly extra: Extra | null;
  readonly firstContactAt: string | null;
  readonly noted: readonly string[];
  readonly settled: SettlementAnswer | null;
  /** Product that is poured on the scale just now; still here if the page was cut off. */
  readonly underway?: string | null;
}

/** A bowl of the service as a sheet: after a reload, or one that another bench began. */
export function sheetOf(view: BowlView): Sheet {
  const pours = view.pours
    .filter((pour) => !pour.reversed)
    .map(({ id, productId, grams, pouredAt }) => ({ id, productId, grams, pouredAt, due: null }));
  const poured = sum(pours.map((pour) => decimal(pour.grams)));
  const held = decimal(view.holds.quantity);
  const weighed = poured.equals(held) ? null : { grams: view.holds.quantity, pours: pours.length };
  return {
    id: view.id,
    visitId: view.visitId,
    purpose: view.purpose,
    contact: view.contact,
    mark: view.mark,
    vesselId: view.vesselId,
    request: null,
    planned: view.planned,
    strength: view.strength ?? null,
    tareGrams: view.tare?.quantity ?? null,
    opened: true,
    pours,
    planFrom: 0,
    weighed,
    finished: [],
    choice: null,
    extra: null,
    firstContactAt: view.firstContactAt,
    noted: view.noted.map((each) => each.code),
    settled: null,
  };
}

/** Grams in the bowl now: weighed in between, and poured since. */
export function contentsGrams(sheet: Sheet): Decimal {
  const { weighed, pours } = sheet;
  const since = pours.slice(weighed?.pours ?? 0).map((pour) => decimal(pour.grams));
  return sum([weighed ? decimal(weighed.grams) : zero, ...since]);
}

/** What the bowl holds of each product; what was applied went in the bowl's proportion. */
export function contentsByProduct(sheet: Sheet): Map<string, Decimal> {
  const parts = new Map<string, Decimal>();
  const add = (pours: readonly SheetPour[]) => {
    for (const { productId, grams } of pours) {
      parts.set(productId, (parts.get(productId) ?? zero).plus(decimal(grams)));
    }
  };
  const { weighed } = sheet;
  add(sheet.pours.slice(0, weighed?.pours ?? 0));
  if (weighed) {
    const before = sum(parts.values());
    const left = before.isZero() ? zero : decimal(weighed.grams).dividedBy(before);
    for (const [id, grams] of parts) parts.set(id, grams.times(left));
  }
  add(sheet.pours.slice(weighed?.pours ?? 0));
  return parts;
}

/** A pour goes in, or is weighed anew with what dripped. */
export function withPour(sheet: Sheet, pour: SheetPour): Sheet {
  const others = sheet.pours.filter((each) => each.id !== pour.id);
  const at = sheet.pours.findIndex((each) => each.id === pour.id);
  const pours = [...others];
  pours.splice(at < 0 ? others.length : at, 0, pour);
  return { ...sheet, pours };
}

/** Another pour stands where a wrong one stood: same grams, same time. */
export function inItsPlace(
  sheet: Sheet,
  pourId: string,
  pour: Pick<SheetPour, 'id' | 'productId'>,
): Sheet {
  const pours = sheet.pours.map((each) => (each.id === pourId ? { ...each, ...pour } : each));
  return { ...sheet, pours };
}

/** A pour is in the outbox. */
export function booked(sheet: Sheet, pourId: string): Sheet {
  const pours = sheet.pours.map((pour) => {
    if (pour.id !== pourId || !pour.pending) return pour;
    const { id, productId, grams, pouredAt, due } = pour;
    return { id, productId, grams, pouredAt, due };
  });
  return { ...sheet, pours };
}

/** Some of a pour went back where it came from. */
export function scoopedBack(sheet: Sheet, pourId: string, grams: Decimal): Sheet {
  const pours = sheet.pours.map((pour) =>
    pour.id === pourId ? { ...pour, grams: canonical(decimal(pour.grams).minus(grams)) } : pour,
  );
  return { ...sheet, pours: pours.filter((pour) => decimal(pour.grams).greaterThan(zero)) };
}

/** It was weighed in between: what is gone went onto the head. */
export function weighedBetween(sheet: Sheet, net: Decimal): Sheet {
  return {
    ...sheet,
    weighed: { grams: canonical(net), pours: sheet.pours.length },
    divided: false,
    planFrom: sheet.pours.length,
    planned: [],
    finished: [],
    choice: null,
    extra: null,
  };
}
