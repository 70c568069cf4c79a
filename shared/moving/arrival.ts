/** One line of a delivery or opening: how much arrived, at what price, and who said the price. */
import { lineOfPacks } from '../costing.js';
import { canonical, count, zero, type Decimal } from '../decimal.js';
import { Problem } from '../problems/problem.js';

/** How a product is bought; quantity in its stock unit, price in currency. */
export interface KnownPack {
  readonly label: string;
  readonly quantity: Decimal;
  readonly listPrice: Decimal | null;
}

/** A line as it was entered: in packs, or as a quantity in the stock unit. */
export interface ArrivalEntry {
  readonly packs?: number | undefined;
  readonly packLabel?: string | undefined;
  readonly packPrice?: Decimal | undefined;
  readonly freePacks?: number | undefined;
  readonly quantity?: Decimal | undefined;
  /** Price of the whole line. */
  readonly cost?: Decimal | undefined;
}

/** What it comes to, before freight and the like are shared. */
export interface Arrival {
  readonly quantity: Decimal;
  readonly price: Decimal;
  readonly costFrom: 'given' | 'list price' | 'none';
  readonly pack: KnownPack | null;
}

/**
 * Packs times their content, or the quantity as it is. Price: as given, else the pack's list
 * price, else none, which is not zero. Free packs count and cost nothing of their own.
 * Example: 2 bottles of 1000 ml at 9.80 and one free -> 3000 ml for 19.60.
 * @throws Problem `packs_or_quantity`, `unknown_pack`, `quantity_not_positive`, `two_prices`
 */
export function arrivalOf(entry: ArrivalEntry, product: string, packs: readonly KnownPack[]) {
  const inPacks = entry.packs !== undefined || entry.freePacks !== undefined;
  if (inPacks === (entry.quantity !== undefined)) throw new Problem('packs_or_quantity', {});
  if (entry.cost !== undefined && entry.packPrice !== undefined) {
    throw new Problem('two_prices', {}, '/cost');
  }
  const arrival = inPacks ? fromPacks(entry, product, packs) : fromQuantity(entry, packs);
  if (arrival.quantity.greaterThan(zero)) return arrival;
  throw new Problem('quantity_not_positive', {
    what: `What arrived of ${product}`,
    quantity: canonical(arrival.quantity),
  });
}

function fromPacks(entry: ArrivalEntry, product: string, packs: readonly KnownPack[]): Arrival {
  const pack = packNamed(entry.packLabel, product, packs);
  const packPrice = entry.packPrice ?? (entry.cost === undefined ? pack.listPrice : null);
  const line = lineOfPacks({
    packs: count(entry.packs ?? 0),
    freePacks: count(entry.freePacks ?? 0),
    packPrice: packPrice ?? zero,
    packQuantity: pack.quantity,
  });
  const given = entry.packPrice !== undefined || entry.cost !== undefined;
  const price = entry.cost ?? line.price;
  const costFrom = given ? 'given' : packPrice === null ? 'none' : 'list price';
  return { quantity: line.quantity, price, costFrom, pack };
}

function fromQuantity(entry: ArrivalEntry, packs: readonly KnownPack[]): Arrival {
  const quantity = entry.quantity ?? zero;
  if (entry.cost !== undefined) {
    return { quantity, price: entry.cost, costFrom: 'given', pack: null };
  }
  const listed = packs.find((pack) => pack.listPrice !== null);
  if (!listed?.listPrice) return { quantity, price: zero, costFrom: 'none', pack: null };
  const price = listed.listPrice.times(quantity).dividedBy(listed.quantity);
  return { quantity, price, costFrom: 'list price', pack: null };
}

/**
 * The pack of that label, or the only one there is.
 * @throws Problem `unknown_pack` with the labels that there are
 */
export function packNamed<P extends { readonly label: string }>(
  label: string | undefined,
  product: string,
  packs: readonly P[],
): P {
  const named = label === undefined ? undefined : packs.find((pack) => pack.label === label);
  const only = label === undefined && packs.length === 1 ? packs[0] : undefined;
  const found = named ?? only;
  if (found) return found;
  throw new Problem(
    'unknown_pack',
    { product, label: label ?? '', known: packs.map((pack) => pack.label) },
    '/packLabel',
  );
}
