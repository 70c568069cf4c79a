/** What is said of one product on the shelf, packs and price, and what it comes to. */
import type { PackView, ProductView } from '../../../shared/contract/catalogue.js';
import { ledgerPlaces } from '../../../shared/costing.js';
import {
  canonical,
  count,
  decimal,
  round,
  sum,
  zero,
  type Decimal,
} from '../../../shared/decimal.js';
import { countedPacks } from '../../../shared/moving/shelf-count.js';
import { Problem } from '../../../shared/problems/problem.js';
import { costOfTyped, type SupplierPrices } from '../../../shared/supplier-prices.js';
import { readFigure } from '../shell/figures.js';
import { readMoney } from './read-words.js';
import { words } from './texts.js';

export const startedWays = ['none', 'about half', 'weighed', 'loose'] as const;

/** As it is typed; figures are text. */
export interface ShelfEntry {
  readonly sealed: string;
  readonly started: (typeof startedWays)[number];
  readonly gross: string;
  readonly empty: string;
  readonly loose: string;
  /** Of one pack, as supplier prices are typed in this studio. */
  readonly price: string;
}

export const freshEntry: ShelfEntry = {
  ...{ sealed: '', started: 'none', gross: '', empty: '', loose: '', price: '' },
};

/** What it comes to: in stock unit, its cost, and what the pack's card learns from it. */
export interface ShelfFound {
  readonly quantity: Decimal;
  /** Undefined where no price was typed: then the list price, or none. */
  readonly cost: Decimal | undefined;
  readonly listPrice: Decimal | undefined;
  readonly emptyGrams: Decimal | undefined;
}

const half = decimal('0.5');
const stockPlaces = 3;

/** Which ways a started pack of a product can be told. */
export function waysOf(product: ProductView): readonly ShelfEntry['started'][] {
  if (product.packs.length === 0) return ['loose'];
  if (product.unit === 'piece') return ['none', 'about half', 'loose'];
  return ['none', 'about half', 'weighed'];
}

/**
 * What an entry comes to, or a sentence that says what cannot be read in it. Packs times their
 * content, a started one as half of one or as its weight less the empty pack; the cost of it all
 * in proportion to one pack's, half-even to 6 decimals.
 */
export function foundOn(
  entry: ShelfEntry,
  product: ProductView,
  prices: SupplierPrices,
): ShelfFound | string {
  const { shelf } = words;
  const [pack] = product.packs;
  if (!pack) return looseOnly(entry);
  const sealed = entry.sealed.trim() === '' ? 0 : readCount(entry.sealed);
  if (sealed === undefined) return shelf.sealedWrong(entry.sealed);
  const price = entry.price.trim() === '' ? undefined : readMoney(entry.price);
  if (entry.price.trim() !== '' && !price) return shelf.priceWrong(entry.price);
  const empty = entry.empty.trim() === '' ? undefined : readFigure(entry.empty);
  if (entry.empty.trim() !== '' && !empty) return shelf.emptyWrong(entry.empty);
  const started = startedOf(entry, product, pack, empty);
  if (typeof started === 'string') return started;
  const packQuantity = decimal(pack.quantity);
  const quantity = sum([packQuantity.times(count(sealed)), started]);
  const listPrice = price && costOfTyped(price, prices);
  const cost = listPrice?.times(quantity).dividedBy(packQuantity);
  return {
    quantity,
    cost: cost && round(cost, ledgerPlaces, 'half_even'),
    listPrice,
    emptyGrams: entry.started === 'weighed' ? empty : undefined,
  };
}

function looseOnly(entry: ShelfEntry): ShelfFound | string {
  const loose = readFigure(entry.loose === '' ? '0' : entry.loose);
  if (!loose) return words.shelf.looseWrong(entry.loose);
  return { quantity: loose, cost: undefined, listPrice: undefined, emptyGrams: undefined };
}

function startedOf(
  entry: ShelfEntry,
  product: ProductView,
  pack: PackView,
  empty: Decimal | undefined,
): Decimal | string {
  const { shelf } = words;
  switch (entry.started) {
    case 'none':
      return zero;
    case 'about half':
      return round(decimal(pack.quantity).times(half), stockPlaces, 'half_even');
    case 'loose':
      return readFigure(entry.loose) ?? shelf.looseWrong(entry.loose);
    case 'weighed': {
      const gross = readFigure(entry.gross);
      if (!gross) return shelf.grossWrong(entry.gross);
      return weighed(gross, empty, product, pack);
    }
  }
}

function weighed(
  gross: Decimal,
  empty: Decimal | undefined,
  product: ProductView,
  pack: PackView,
): Decimal | string {
  const emptyWeight_g = empty ?? (pack.emptyWeight ? decimal(pack.emptyWeight.quantity) : null);
  const { density, gramsPerPiece } = product;
  try {
    return countedPacks(
      { fullPacks: 0, packLabel: pack.label, open: [{ gross }] },
      {
        ...{ id: product.id, name: product.name, unit: product.unit },
        density: density === null ? undefined : decimal(density),
        gramsPerPiece: gramsPerPiece === null ? undefined : decimal(gramsPerPiece),
      },
      [{ label: pack.label, quantity: decimal(pack.quantity), emptyWeight_g }],
    ).quantity;
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
}

function readCount(text: string): number | undefined {
  return /^\d{1,4}$/.test(text.trim()) ? Number.parseInt(text, 10) : undefined;
}

/** The packs of a product with what was learned of the first, as `PATCH /products/{id}` takes. */
export function packsLearned(product: ProductView, { listPrice, emptyGrams }: ShelfFound) {
  return product.packs.map(({ id, label, quantity, ...pack }, at) => {
    const first = at === 0;
    const price = first && listPrice ? canonical(listPrice) : pack.listPrice;
    const empty =
      first && emptyGrams ? { quantity: canonical(emptyGrams), unit: 'g' } : pack.emptyWeight;
    const { gtin, orderCode } = pack;
    return { id, label, quantity, gtin, orderCode, emptyWeight: empty, listPrice: price ?? null };
  });
}
