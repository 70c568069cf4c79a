/** Units a scale can show, and their exact grams; a unit without one fixed size has none. */
import { decimal, type Decimal } from '../decimal.js';

/** Units that a scale may show; not all of them are a mass. */
export const scaleUnits = [
  'mg',
  'g',
  'kg',
  'carat',
  'tael',
  'momme',
  'grain',
  'pennyweight',
  'tonne',
  'avoirdupois_ton',
  'troy_ounce',
  'ounce',
  'pound',
  'newton',
  'piece',
  'percent',
] as const;
export type ScaleUnit = (typeof scaleUnits)[number];

/** True for the house's own name of a unit: "kg", "troy_ounce". */
export function isScaleUnit(text: string): text is ScaleUnit {
  return (scaleUnits as readonly string[]).includes(text);
}

/**
 * Grams in one unit. Source: UCUM 2.2 ([gr], [lb_av], [oz_av], [oz_tr], [pwt_tr], [car_m], g, t);
 * Weights and Measures Act 1985 (UK) Sch. 1 (pound, ounce, troy ounce).
 * The tael and the momme differ by country and the avoirdupois ton may be short or long, so they
 * have none here; newton, piece and per cent are no masses.
 */
const gramsPerUnit: Readonly<Partial<Record<ScaleUnit, Decimal>>> = {
  mg: decimal('0.001'),
  g: decimal('1'),
  kg: decimal('1000'),
  carat: decimal('0.2'),
  grain: decimal('0.06479891'),
  pennyweight: decimal('1.55517384'),
  tonne: decimal('1000000'),
  troy_ounce: decimal('31.1034768'),
  ounce: decimal('28.349523125'),
  pound: decimal('453.59237'),
};

/** How scales write their units in text; compared without blanks and case. */
const unitsByText: Readonly<Record<string, ScaleUnit>> = {
  mg: 'mg',
  g: 'g',
  kg: 'kg',
  ct: 'carat',
  tl: 'tael',
  mom: 'momme',
  gn: 'grain',
  gr: 'grain',
  dwt: 'pennyweight',
  t: 'tonne',
  ozt: 'troy_ounce',
  oz: 'ounce',
  lb: 'pound',
  n: 'newton',
  pc: 'piece',
  pcs: 'piece',
  '%': 'percent',
};

/** Grams of `value` in `unit`, exact: (1, ounce) -> 28.349523125; undefined without one size. */
export function toGrams(value: Decimal, unit: ScaleUnit): Decimal | undefined {
  const factor = gramsPerUnit[unit];
  return factor && value.times(factor);
}

/** The unit a scale's text means: " kg" -> kg, "PC" -> piece; undefined when unknown. */
export function unitOfText(text: string): ScaleUnit | undefined {
  const key = text.trim().toLowerCase();
  return Object.hasOwn(unitsByText, key) ? unitsByText[key] : undefined;
}
