/** Units of weight and volume, their exact factors, and the way between grams and stock. */
import type { StockUnit } from './amount.js';
import { canonical, decimal, one, round, roundSignificant, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

export type Dimension = 'mass' | 'volume' | 'length' | 'number';

/** A unit by its UCUM code, as an exact multiple of its dimension's base: g, mL, cm, 1. */
export interface Unit {
  readonly code: string;
  readonly dimension: Dimension;
  readonly factor: Decimal;
}

const pound_g = decimal('453.59237');
const usGallon_ml = decimal('2.54').pow(3).times(231);
const imperialGallon_ml = decimal('4546.09');

/** Codes and factors of UCUM 2.2; the pound also in the Weights and Measures Act 1985 (UK). */
const factors: Readonly<Record<Dimension, Readonly<Record<string, Decimal>>>> = {
  mass: {
    g: one,
    kg: decimal('1000'),
    mg: decimal('0.001'),
    t: decimal('1000000'),
    '[lb_av]': pound_g,
    '[oz_av]': pound_g.dividedBy(16),
    '[dr_av]': pound_g.dividedBy(256),
    '[gr]': pound_g.dividedBy(7000),
    '[oz_tr]': pound_g.dividedBy(7000).times(480),
    '[pwt_tr]': pound_g.dividedBy(7000).times(24),
    '[car_m]': decimal('0.2'),
  },
  volume: {
    mL: one,
    ml: one,
    L: decimal('1000'),
    l: decimal('1000'),
    cL: decimal('10'),
    dL: decimal('100'),
    '[gal_us]': usGallon_ml,
    '[qt_us]': usGallon_ml.dividedBy(4),
    '[pt_us]': usGallon_ml.dividedBy(8),
    '[gil_us]': usGallon_ml.dividedBy(32),
    '[foz_us]': usGallon_ml.dividedBy(128),
    '[tbs_us]': usGallon_ml.dividedBy(256),
    '[tsp_us]': usGallon_ml.dividedBy(768),
    '[gal_br]': imperialGallon_ml,
    '[qt_br]': imperialGallon_ml.dividedBy(4),
    '[pt_br]': imperialGallon_ml.dividedBy(8),
    '[gil_br]': imperialGallon_ml.dividedBy(32),
    '[foz_br]': imperialGallon_ml.dividedBy(160),
    '[foz_m]': decimal('30'),
    '[cup_m]': decimal('240'),
    '[tbs_m]': decimal('15'),
    '[tsp_m]': decimal('5'),
  },
  length: { cm: one, mm: decimal('0.1'), m: decimal('100'), '[in_i]': decimal('2.54') },
  number: { '1': one, '%': decimal('0.01'), '[ppth]': decimal('0.001') },
};

const dimensions: readonly Dimension[] = ['mass', 'volume', 'length', 'number'];

/** Every unit known here, in the order mass, volume, length, number. */
export const units: readonly Unit[] = dimensions.flatMap((dimension) =>
  Object.entries(factors[dimension]).map(([code, factor]) => ({ code, dimension, factor })),
);

const byCode = new Map(units.map((each) => [each.code, each]));

/**
 * The unit of a UCUM code: unit("[oz_av]").factor is 28.349523125, in grams.
 * @throws Problem `unknown_unit` (the tael among them: it has no single value)
 */
export function unit(code: string): Unit {
  const found = byCode.get(code);
  if (!found) throw new Problem('unknown_unit', { unit: code, known: units.map((u) => u.code) });
  return found;
}

/**
 * Turns a value of one unit into another of the same dimension, without rounding:
 * convert(2, "[foz_us]", "mL") -> 59.147059125.
 * @throws Problem `unknown_unit`, `units_measure_different_things`
 */
export function convert(value: Decimal, from: string, to: string): Decimal {
  const source = unit(from);
  const target = unit(to);
  if (source.dimension !== target.dimension) {
    throw new Problem('units_measure_different_things', { from, to });
  }
  return value.times(source.factor).dividedBy(target.factor);
}

/**
 * A unit's factor to `significantDigits` (half-even), as tables of factors print it:
 * ("[gal_us]", "L", 7) -> 3.785412. Source: NIST SP 811 B.8 prints seven digits.
 * @throws Problem `unknown_unit`, `units_measure_different_things`
 */
export function roundedFactor(from: string, to: string, significantDigits: number): Decimal {
  return roundSignificant(convert(one, from, to), significantDigits, 'half_even');
}

/**
 * Reads "1.5 [oz_av]" into a value and a unit's code; blanks between them do not matter.
 * @throws Problem `not_a_quantity`, `not_a_decimal`, `unknown_unit`
 */
export function parseMeasure(text: string): { value: Decimal; unit: Unit } {
  const parts = /^\s*(-?\d+(?:\.\d+)?)\s*([^\s\d.]\S*)\s*$/.exec(text);
  const [, number, code] = parts ?? [];
  if (number === undefined || code === undefined) throw new Problem('not_a_quantity', { text });
  return { value: decimal(number), unit: unit(code) };
}

/** What it takes to go between grams and the unit a product is kept in. */
export interface Weighable {
  readonly id: string;
  readonly name?: string | undefined;
  readonly unit: StockUnit;
  /** g/ml */
  readonly density?: Decimal | undefined;
  /** g of one piece */
  readonly gramsPerPiece?: Decimal | undefined;
}

/** Stock is kept to 0.001 of its unit. */
export const stockPlaces = 3;

const lowestDensity = decimal('0.1');
const highestDensity = decimal('5');

/**
 * A product's density in g/ml; 1 where none is known, and then `assumedDensity` says so.
 * @throws Problem `density_out_of_range` below 0.1 or above 5 g/ml
 */
export function densityOf(product: Weighable): { density: Decimal; assumedDensity: boolean } {
  const { density } = product;
  if (!density) return { density: one, assumedDensity: true };
  if (density.lessThan(lowestDensity) || density.greaterThan(highestDensity)) {
    throw new Problem('density_out_of_range', {
      density: canonical(density),
      lowest: canonical(lowestDensity),
      highest: canonical(highestDensity),
    });
  }
  return { density, assumedDensity: false };
}

/** Grams of a quantity, unrounded, and whether a density of 1 had to be assumed for it. */
export interface WeighedQuantity {
  readonly grams: Decimal;
  readonly assumedDensity: boolean;
}

/**
 * Grams of a quantity in any stock unit, unrounded: 60 ml at 1.02 g/ml -> 61.2 g.
 * @throws Problem `pieces_against_weight`, `density_out_of_range`
 */
export function gramsOf(quantity: Decimal, given: StockUnit, product: Weighable): WeighedQuantity {
  switch (given) {
    case 'g':
      return { grams: quantity, assumedDensity: false };
    case 'ml': {
      if (product.unit === 'piece') throw piecesAgainstWeight(product, given);
      const { density, assumedDensity } = densityOf(product);
      return { grams: quantity.times(density), assumedDensity };
    }
    case 'piece': {
      const { gramsPerPiece } = product;
      if (!gramsPerPiece?.greaterThan(0)) throw piecesAgainstWeight(product, given);
      return { grams: quantity.times(gramsPerPiece), assumedDensity: false };
    }
  }
}

/**
 * The quantity of stock that weighs `grams`, in the unit the product is kept in, half-even to
 * 0.001: 61.2 g at 1.02 g/ml -> 60 ml.
 * @throws Problem `pieces_against_weight`, `density_out_of_range`
 */
export function stockQuantityOf(grams: Decimal, product: Weighable): Decimal {
  switch (product.unit) {
    case 'g':
      return round(grams, stockPlaces, 'half_even');
    case 'ml':
      return millilitresOf(grams, product);
    case 'piece': {
      const { gramsPerPiece } = product;
      if (!gramsPerPiece?.greaterThan(0)) throw piecesAgainstWeight(product, 'g');
      return round(grams.dividedBy(gramsPerPiece), stockPlaces, 'half_even');
    }
  }
}

/**
 * A quantity given in any stock unit, in the unit the product is kept in; the same unit passes
 * unchanged but for half-even rounding to 0.001.
 * @throws Problem `pieces_against_weight`, `density_out_of_range`
 */
export function inStockUnit(quantity: Decimal, given: StockUnit, product: Weighable): Decimal {
  if (given === product.unit) return round(quantity, stockPlaces, 'half_even');
  return stockQuantityOf(gramsOf(quantity, given, product).grams, product);
}

/** Millilitres of `grams` by density (1 g/ml where none is known), half-even to 0.001. */
export function millilitresOf(grams: Decimal, product: Weighable): Decimal {
  return round(grams.dividedBy(densityOf(product).density), stockPlaces, 'half_even');
}

function piecesAgainstWeight(product: Weighable, given: StockUnit): Problem {
  return new Problem('pieces_against_weight', {
    product: product.name ?? product.id,
    given,
    kept: product.unit,
  });
}
