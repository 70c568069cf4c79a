/** Products of the shelf as they travel: packs sealed and started, cover, flags; by strength. */
import type { ShelfItemView, ShelfStrengthView } from '../../../shared/contract/stock.js';
import { canonical, fixed, round, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { onHand, type ProductStock } from '../../../shared/moving/stock.js';
import { daysOfCover, type ShelfFlag } from '../../../shared/reordering.js';
import { stockQuantityOf } from '../../../shared/units.js';
import { weighable } from './entries.js';
import type { ProductFacts } from './product-facts.js';
import { ruleOf } from './stock-flags.service.js';

/** A product with all that the shelf says of it; `day` is the studio's. */
export interface ShelfProduct {
  readonly facts: ProductFacts;
  readonly stock: ProductStock;
  readonly flags: readonly ShelfFlag[];
  readonly point: Decimal | null;
  readonly day: string;
  readonly namedLater: boolean;
  /** Something of it arrived, or it was counted. */
  readonly entered: boolean;
}

/** @param money whether the caller may see values */
export function shelfItem(product: ShelfProduct, money: boolean): ShelfItemView {
  const { facts, stock, flags, point, day } = product;
  const held = onHand(stock);
  const cover = daysOfCover(held, ruleOf(facts, day).use);
  const expiries = stock.lots.flatMap((lot) => lot.expiresOn ?? []).sort();
  const of = (quantity: Decimal) => ({
    quantity: canonical(round(quantity, 3, 'ceiling')),
    unit: facts.unit,
  });
  return {
    productId: facts.id,
    name: facts.name,
    kind: facts.kind,
    line: facts.line,
    strength: facts.strength_vol === null ? null : canonical(facts.strength_vol),
    onHand: of(held),
    ...packsOf(held, facts),
    ...(money ? { value: fixed(stock.value, 6) } : {}),
    reorderPoint: point === null ? null : of(point),
    ...(cover === null ? {} : { daysOfCover: canonical(round(cover, 0, 'floor')) }),
    nextExpiry: expiries[0] ?? null,
    lastCountedAt: stock.lastCountedAt,
    entered: product.entered,
    namedLater: product.namedLater,
    flags: [...flags],
  };
}

/** Whole packs of the usual size are taken as sealed, the rest as one started pack. */
function packsOf(held: Decimal, facts: ProductFacts) {
  const pack = facts.packs[0]?.quantity;
  if (!pack) return { sealed: null, started: null, startedHolds: null };
  const sealed = round(held.dividedBy(pack), 0, 'floor');
  const rest = held.minus(sealed.times(pack));
  return {
    sealed: Number.parseInt(canonical(sealed), 10),
    started: rest.isZero() ? 0 : 1,
    startedHolds: rest.isZero() ? null : { quantity: canonical(rest), unit: facts.unit },
  };
}

/** Developers by the strength of the bottle, in millilitres, weakest first. */
export function byStrength(products: readonly ShelfProduct[], money: boolean): ShelfStrengthView[] {
  const strengths = new Map<string, ShelfProduct[]>();
  for (const product of products) {
    const { kind, strength_vol } = product.facts;
    if (kind !== 'developer' || strength_vol === null) continue;
    const key = canonical(strength_vol);
    strengths.set(key, [...(strengths.get(key) ?? []), product]);
  }
  return [...strengths]
    .map(([strength, members]) => ({
      strength,
      onHand: millilitres(sum(members.map(heldInMillilitres))),
      ...(money ? { value: fixed(sum(members.map(({ stock }) => stock.value)), 6) } : {}),
      products: members.map((product) => ({
        productId: product.facts.id,
        onHand: millilitres(heldInMillilitres(product)),
      })),
    }))
    .sort((a, b) => strengthOf(strengths, a).comparedTo(strengthOf(strengths, b)));
}

function strengthOf(
  strengths: ReadonlyMap<string, ShelfProduct[]>,
  { strength }: { readonly strength: string },
): Decimal {
  return strengths.get(strength)?.[0]?.facts.strength_vol ?? zero;
}

function heldInMillilitres({ facts, stock }: ShelfProduct): Decimal {
  const held = onHand(stock);
  return facts.unit === 'g' ? stockQuantityOf(held, { ...weighable(facts), unit: 'ml' }) : held;
}

const millilitres = (quantity: Decimal) => ({
  quantity: canonical(quantity),
  unit: 'ml' as const,
});
