/** A visit's rows as the arithmetic of a price sheet takes them. */
import { canonical, count, decimal, sum, zero, type Decimal } from '../../../shared/decimal.js';
import type {
  BorneBy,
  Commission,
  HandsOnTime,
  ProductUse,
  SheetInput,
  StartedBowl,
  SundryUse,
} from '../../../shared/pricing-input.js';
import {
  cardFeeOf,
  moneyRuleOf,
  onTopRulesOf,
  overheadPerHourOf,
} from '../../../shared/pricing-settings.js';
import { minutesOf, usualMinutes, type VisitRow } from '../visits/visits.service.js';
import type { Terms } from './terms.js';

/** A row of READ_VISIT_FLOWS. */
export interface FlowRow {
  bowl_id: string | null;
  product_id: string;
  name: string;
  kind: string;
  unit: string;
  purpose: string | null;
  borne_by: BorneBy | null;
  head_quantity: string;
  head_value: string;
  head_grams: string;
  bin_quantity: string;
  bin_value: string;
  bin_grams: string;
  bowl_quantity: string;
  bowl_value: string;
  bowl_grams: string;
  zero: string;
  seq: string;
}

/** A row of READ_FOUND_COSTS. */
export interface FoundRow {
  bowl_id: string | null;
  product_id: string;
  place: 'head' | 'bin';
  quantity: string;
  value: string;
  seq: string;
}

/** A row of READ_STARTED_BOWLS. */
export interface StartedRow {
  id: string;
  kind: string;
  borne_by: BorneBy | null;
}

/** All that was read of a visit for its sheet. */
export interface SheetRows {
  readonly visit: VisitRow;
  readonly terms: Terms;
  readonly currency: string;
  readonly flows: readonly FlowRow[];
  readonly found: readonly FoundRow[];
  readonly started: readonly StartedRow[];
  /** What one stock unit would cost now; null where nobody knows. */
  readonly unitCosts: ReadonlyMap<string, Decimal | null>;
}

/** Kinds that go beside the product when they are used without a bowl. */
const sundryKinds: ReadonlySet<string> = new Set(['sundry', 'care']);

/** The input of a visit's price sheet; money in the studio's currency. */
export function sheetInputOf(rows: SheetRows): SheetInput {
  const { visit, terms, currency } = rows;
  const { pricing } = terms;
  const cardFee = cardFeeOf(pricing);
  return {
    money: moneyRuleOf(pricing, currency),
    services: visit.services.map(({ serviceId, name, price }) => ({
      id: serviceId,
      label: name,
      price: decimal(price),
      inThePrice: inThePriceOf(terms, serviceId),
    })),
    discounts: discountsOf(visit),
    products: rows.flows.flatMap((flow) => productUses(flow, rows)),
    bowls: rows.started.map(startedBowl),
    // only a client is charged beyond the menu
    onTop: visit.kind === 'client' ? onTopRulesOf(pricing, terms.services) : [],
    measuredOn: pricing.measuredOn,
    sundries: rows.flows.filter(isSundry).map((flow) => sundryUse(flow, rows)),
    time: timeOf(visit, terms),
    chairMinutes: count(visit.chair_minutes ?? usualMinutes(visit, 'chairMinutes')),
    overheadPerHour: overheadPerHourOf(pricing),
    commissions: commissionsOf(visit, terms),
    ...(cardFee ? { cardFee } : {}),
    ...paidOf(visit),
  };
}

function inThePriceOf({ services }: Terms, serviceId: string) {
  const service = services.find((each) => each.serviceId === serviceId);
  return (service?.inThePrice ?? []).map(({ kind, grams, bowls }) => ({
    kind,
    ...(grams === undefined ? {} : { grams: decimal(grams) }),
    ...(bowls === undefined ? {} : { bowls: decimal(bowls) }),
  }));
}

function discountsOf({ discount }: VisitRow) {
  if (!discount) return [];
  const { label, of, share, amount } = discount;
  return [
    {
      ...{ label, of },
      ...(share === undefined ? {} : { share: decimal(share) }),
      ...(amount === undefined ? {} : { amount: decimal(amount) }),
    },
  ];
}

function isSundry(flow: FlowRow): boolean {
  return flow.bowl_id === null && sundryKinds.has(flow.kind);
}

interface Part {
  readonly quantity: Decimal;
  readonly value: Decimal;
  readonly grams: Decimal;
}

/**
 * One product of one bowl: all to head and bin, and what is still in the bowl. Where the studio
 * bears what went to the bin, that part is a use of its own.
 */
function productUses(flow: FlowRow, rows: SheetRows): ProductUse[] {
  if (isSundry(flow)) return [];
  const head = partOf(flow, 'head', rows);
  const bin = partOf(flow, 'bin', rows);
  const held = partOf(flow, 'bowl', rows);
  const studio = flow.borne_by === 'studio';
  const applied = add(head, held);
  const visits = useOf(flow, studio ? applied : add(applied, bin), applied, rows);
  const uses = visits.quantity.isZero() && visits.value.isZero() ? [] : [visits];
  if (!studio || bin.quantity.isZero()) return uses;
  const none = { quantity: zero, value: zero, grams: zero };
  return [...uses, { ...useOf(flow, bin, none, rows), borneBy: 'studio' }];
}

function useOf(flow: FlowRow, all: Part, applied: Part, rows: SheetRows): ProductUse {
  return {
    productId: flow.product_id,
    label: flow.purpose === null ? flow.name : `${flow.name}, ${flow.purpose}`,
    kind: flow.kind,
    bowlId: flow.bowl_id,
    quantity: all.quantity,
    unit: flow.unit,
    value: all.value,
    replacementValue: replacementOf(flow, all.quantity, rows),
    grams: all.grams,
    appliedGrams: applied.grams,
    appliedValue: applied.value,
    noCost: hasNoCost(flow, rows),
  };
}

function sundryUse(flow: FlowRow, rows: SheetRows): SundryUse {
  const used = partOf(flow, 'head', rows);
  return {
    productId: flow.product_id,
    label: flow.name,
    quantity: used.quantity,
    unit: flow.unit,
    value: used.value,
    replacementValue: replacementOf(flow, used.quantity, rows),
    noCost: hasNoCost(flow, rows),
  };
}

function partOf(flow: FlowRow, place: 'head' | 'bin' | 'bowl', rows: SheetRows): Part {
  const found = foundFor(flow, rows).filter((each) => each.place === place);
  return {
    quantity: decimal(flow[`${place}_quantity`]),
    value: decimal(flow[`${place}_value`]).plus(sum(found.map((each) => decimal(each.value)))),
    grams: decimal(flow[`${place}_grams`]),
  };
}

function add(a: Part, b: Part): Part {
  return {
    quantity: a.quantity.plus(b.quantity),
    value: a.value.plus(b.value),
    grams: a.grams.plus(b.grams),
  };
}

function foundFor(flow: FlowRow, { found }: SheetRows): readonly FoundRow[] {
  return found.filter(
    (each) => each.bowl_id === flow.bowl_id && each.product_id === flow.product_id,
  );
}

/** Some of it is valued at nothing, and no cost was found for it since. */
function hasNoCost(flow: FlowRow, rows: SheetRows): boolean {
  if (flow.kind === 'water') return false;
  const found = sum(foundFor(flow, rows).map((each) => decimal(each.quantity)));
  return decimal(flow.zero).greaterThan(found);
}

function replacementOf(flow: FlowRow, quantity: Decimal, { unitCosts }: SheetRows) {
  const unit = unitCosts.get(flow.product_id) ?? null;
  return unit === null ? null : unit.times(quantity);
}

function startedBowl({ id, kind, borne_by }: StartedRow): StartedBowl {
  return { id, kind, ...(borne_by === null ? {} : { borneBy: borne_by }) };
}

function timeOf(visit: VisitRow, { people, pricing }: Terms): HandsOnTime[] {
  const usual = pricing.hourRate === null ? zero : decimal(pricing.hourRate);
  const minutes = minutesOf(visit);
  const unnamed = visit.person_id === null ? usualMinutes(visit, 'handsOnMinutes') : 0;
  if (minutes.length === 0) {
    return unnamed === 0
      ? []
      : [{ label: 'Hands-on', minutes: count(unnamed), ratePerHour: usual }];
  }
  return minutes.map((each) => {
    const person = people.find(({ id }) => id === each.personId);
    const own = person?.hourRate ?? null;
    const rate = own === null ? (person?.kind === 'rents' ? zero : usual) : decimal(own);
    return { label: person?.name ?? 'Hands-on', minutes: count(each.minutes), ratePerHour: rate };
  });
}

/** Of the person who serves: her own, else the studio's; none of those who rent their chair. */
function commissionsOf(visit: VisitRow, { people, pricing }: Terms): Commission[] {
  const person = people.find(({ id }) => id === visit.person_id);
  const commission = person?.commission ?? pricing.commission;
  if (!person || !commission || person.kind === 'rents') return [];
  const { share, on } = commission;
  return [{ label: `Commission, ${person.name}`, rate: decimal(share), base: on }];
}

function paidOf(visit: VisitRow): Pick<SheetInput, 'payments' | 'deposits' | 'tip'> {
  const { payments, deposits, tip, tip_method: method } = visit;
  return {
    // none told: all of it is taken to be paid by card
    ...(payments.length === 0 ? {} : { payments: payments.map(exact) }),
    deposits: deposits.map(exact),
    ...(tip === null || method === null ? {} : { tip: { method, amount: decimal(tip) } }),
  };
}

function exact<T extends { readonly amount: string }>(
  paid: T,
): Omit<T, 'amount'> & { amount: Decimal } {
  return { ...paid, amount: decimal(paid.amount) };
}

/**
 * What a sheet rests on, as text: names and what things would cost today leave it the same.
 */
export function basisText(input: SheetInput): string {
  return JSON.stringify(input, (key, value: unknown) => {
    if (key === 'label' || key === 'replacementValue') return undefined;
    return isDecimalText(value) ? canonical(decimal(value)) : value;
  });
}

function isDecimalText(value: unknown): value is string {
  return typeof value === 'string' && /^-?\d+(\.\d+)?$/.test(value);
}
