/** A product as it is entered: its strength judged, its packs turned into the unit of stock. */
import type { Amount, StockUnit } from './amount.js';
import { canonical, decimal, round, type Decimal } from './decimal.js';
import { readGtin } from './gtin.js';
import type { ProductKind } from './mix.js';
import { Problem, within } from './problems/problem.js';
import {
  askAbove_vol,
  judgeStrength,
  percentOfVolume,
  strengthOfBottle,
  volumeOfPercent,
} from './strength.js';
import { convert, densityOf, inStockUnit, stockPlaces, unit, type Weighable } from './units.js';

/** All kinds of product, in the order in which a form offers them. */
export const productKinds: readonly ProductKind[] = [
  'lightener',
  'developer',
  'toner',
  'permanent',
  'direct',
  'additive',
  'care',
  'sundry',
  'water',
];

/** A quantity in any unit known here, by its UCUM code, or in pieces. */
export interface Measure {
  readonly quantity: Decimal;
  readonly unit: string;
}

/** How a product is bought, as entered. */
export interface PackEntry {
  readonly id?: string | undefined;
  readonly label: string;
  readonly quantity: Decimal;
  /** The product's own unit unless told. */
  readonly unit?: string | null | undefined;
  readonly gtin?: string | null | undefined;
  readonly orderCode?: string | null | undefined;
  /** The empty tub, tube or bottle, in a unit of weight. */
  readonly emptyWeight?: Measure | null | undefined;
  readonly listPrice?: Decimal | null | undefined;
}

/** A product as entered; strengths in vol, density in g/ml. */
export interface ProductEntry {
  readonly name: string;
  readonly kind: ProductKind;
  readonly unit: StockUnit;
  readonly line?: string | null | undefined;
  readonly strength?: Decimal | null | undefined;
  /** Per cent as printed on the bottle. */
  readonly percent?: Decimal | null | undefined;
  /** The person has read the bottle again and it says so. */
  readonly confirmStrength?: boolean | undefined;
  readonly density?: Decimal | null | undefined;
  readonly gramsPerPiece?: Decimal | null | undefined;
  readonly scalpCeiling?: Decimal | null | undefined;
  readonly offScalpCeiling?: Decimal | null | undefined;
  readonly dose?: Amount<StockUnit> | null | undefined;
  readonly packs?: readonly PackEntry[] | undefined;
}

/** A pack in the unit of stock; its quantity to 0.001, its empty weight in grams to 0.001. */
export interface PackCard {
  readonly id?: string | undefined;
  readonly label: string;
  readonly quantity: Decimal;
  readonly gtin: string | null;
  readonly orderCode: string | null;
  readonly emptyWeight_g: Decimal | null;
  readonly listPrice: Decimal | null;
}

/** What was worked out of an entry. */
export interface ProductCard {
  readonly strength_vol: Decimal | null;
  /** As printed; null where nothing is, and then it is 0.3 x vol. */
  readonly percent: Decimal | null;
  /** In the unit of stock. */
  readonly dose: Decimal | null;
  readonly packs: readonly PackCard[];
  /** True when a density of 1 g/ml had to be supposed for a pack or dose. */
  readonly assumedDensity: boolean;
}

const strengthPlaces = 3;
/** Per cent printed and 0.3 x vol may lie so far apart, as a share, before the person is asked. */
const usualDifference = decimal('0.2');

/**
 * Checks an entry and works out what is kept of it.
 * @throws Problem `developer_without_strength`, `strength_out_of_range`, `strength_above_usual`,
 *   `strength_and_percent_apart`, `strength_without_developer`, `density_out_of_range`,
 *   `label_twice`, `unknown_unit`, `units_measure_different_things`, `pieces_against_weight`,
 *   `quantity_not_positive`, `gtin_unreadable`, `gtin_check_digit`
 */
export function productCard(entry: ProductEntry): ProductCard {
  const weighable = weighableOf(entry);
  within('/density', () => densityOf(weighable));
  for (const field of ['scalpCeiling', 'offScalpCeiling'] as const) {
    const ceiling = entry[field];
    if (ceiling) within(`/${field}`, () => judgeStrength(ceiling));
  }
  const { dose, packs = [] } = entry;
  refuseSameLabels(packs);
  return {
    ...strengthsOf(entry),
    dose: dose ? within('/dose', () => inStockUnit(dose.value, dose.unit, weighable)) : null,
    packs: packs.map((pack, index) =>
      within(`/packs/${index}`, () => packCard(pack, entry, weighable)),
    ),
    assumedDensity:
      !entry.density &&
      [dose?.unit, ...packs.map((pack) => pack.unit ?? entry.unit)].some(
        (given) => given !== undefined && crossesDensity(given, entry.unit),
      ),
  };
}

/** The percentage of a developer: as printed, else 0.3 x vol; null for other kinds. */
export function percentOf(product: {
  strength_vol: Decimal | null;
  percent: Decimal | null;
}): Decimal | null {
  const { strength_vol, percent } = product;
  return percent ?? (strength_vol && percentOfVolume(strength_vol));
}

function weighableOf(entry: ProductEntry): Weighable {
  return {
    id: entry.name,
    name: entry.name,
    unit: entry.unit,
    density: entry.density ?? undefined,
    gramsPerPiece: entry.gramsPerPiece ?? undefined,
  };
}

function strengthsOf(entry: ProductEntry): Pick<ProductCard, 'strength_vol' | 'percent'> {
  const strength = entry.strength ?? undefined;
  const percent = entry.percent ?? undefined;
  if (entry.kind !== 'developer') {
    if (!strength && !percent) return { strength_vol: null, percent: null };
    const pointer = strength ? '/strength' : '/percent';
    throw new Problem('strength_without_developer', { kind: entry.kind }, pointer);
  }
  if (percent) within('/percent', () => volumeOfPercent(percent));
  const field = !strength && percent ? '/percent' : '/strength';
  const volume = within(field, () => {
    const bottle = strengthOfBottle({ id: entry.name, name: entry.name, strength, percent });
    const rounded = round(bottle.volume, strengthPlaces, 'half_even');
    const judged = judgeStrength(rounded);
    if (judged === 'ask' && !entry.confirmStrength) {
      throw new Problem('strength_above_usual', {
        strength: canonical(rounded),
        usual: canonical(askAbove_vol),
      });
    }
    return rounded;
  });
  if (strength && percent && !entry.confirmStrength) askWhereApart(strength, percent);
  return { strength_vol: volume, percent: percent ?? null };
}

function askWhereApart(strength: Decimal, percent: Decimal): void {
  const usual = percentOfVolume(strength);
  if (percent.minus(usual).abs().lessThanOrEqualTo(usual.times(usualDifference))) return;
  throw new Problem(
    'strength_and_percent_apart',
    { strength: canonical(strength), percent: canonical(percent), usual: canonical(usual) },
    '/percent',
  );
}

function refuseSameLabels(packs: readonly PackEntry[]): void {
  const seen = new Set<string>();
  packs.forEach(({ label }, index) => {
    const folded = label.toLocaleLowerCase();
    if (seen.has(folded)) throw new Problem('label_twice', { label }, `/packs/${index}/label`);
    seen.add(folded);
  });
}

function packCard(pack: PackEntry, entry: ProductEntry, weighable: Weighable): PackCard {
  const given = pack.unit ?? entry.unit;
  const quantity = within('/unit', () => quantityInStock(pack.quantity, given, weighable));
  if (!quantity.greaterThan(0)) {
    const what = `The quantity of ${pack.label}`;
    const facts = { what, quantity: canonical(quantity) };
    throw new Problem('quantity_not_positive', facts, '/quantity');
  }
  const { gtin, emptyWeight } = pack;
  return {
    id: pack.id,
    label: pack.label,
    quantity,
    gtin: gtin ? within('/gtin', () => readGtin(gtin)) : null,
    orderCode: pack.orderCode ?? null,
    emptyWeight_g: emptyWeight ? within('/emptyWeight', () => weightIn_g(emptyWeight)) : null,
    listPrice: pack.listPrice ?? null,
  };
}

/** "2 [foz_us]" of a product kept in ml -> 59.147; a unit of stock passes by the product's own. */
function quantityInStock(quantity: Decimal, given: string, weighable: Weighable): Decimal {
  if (given === 'piece' || given === 'g' || given === 'ml') {
    return inStockUnit(quantity, given, weighable);
  }
  const base = stockUnitOf(given, weighable.unit);
  return inStockUnit(convert(quantity, given, base), base, weighable);
}

function stockUnitOf(code: string, kept: StockUnit): 'g' | 'ml' {
  const { dimension } = unit(code);
  if (dimension === 'mass') return 'g';
  if (dimension === 'volume') return 'ml';
  throw new Problem('units_measure_different_things', { from: code, to: kept });
}

function weightIn_g({ quantity, unit: code }: Measure): Decimal {
  return round(convert(quantity, code, 'g'), stockPlaces, 'half_even');
}

function crossesDensity(given: string, kept: StockUnit): boolean {
  if (given === kept || given === 'piece' || kept === 'piece') return false;
  return given === 'g' || given === 'ml' || stockUnitOf(given, kept) !== kept;
}
