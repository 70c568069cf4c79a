/** Strength of developer as the trade counts it: volume, per cent, blends, peroxide in a bowl. */
import { alligationMedial, type StrengthPart } from './alligation.js';
import { canonical, decimal, sum, zero, type Decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

/** Per cent of hydrogen peroxide to one volume: 10 vol = 3 %, 20 = 6 %, 30 = 9 %, 40 = 12 %. */
export const percentPerVolume = decimal('0.3');

/** Above this many volumes a strength is asked about before it is used. */
export const askAbove_vol = decimal('40');

/** Above this many volumes a strength is refused. */
export const refuseAbove_vol = decimal('100');

/** A strength both ways: volumes, and per cent of hydrogen peroxide. */
export interface Strength {
  readonly volume: Decimal;
  readonly percent: Decimal;
}

/** What a bottle says of its strength, one way or both. */
export interface LabelledStrength {
  readonly id: string;
  readonly name?: string | undefined;
  /** vol */
  readonly strength?: Decimal | undefined;
  /** per cent as printed on the bottle */
  readonly percent?: Decimal | undefined;
}

/**
 * Checks a strength in volumes: up to 40 it is `usual`, above 40 it is to be asked about.
 * @throws Problem `strength_out_of_range` below 0 or above 100 vol
 */
export function judgeStrength(volume: Decimal): 'usual' | 'ask' {
  if (volume.lessThan(0) || volume.greaterThan(refuseAbove_vol)) {
    throw new Problem('strength_out_of_range', {
      strength: canonical(volume),
      unit: 'vol',
      highest: canonical(refuseAbove_vol),
    });
  }
  return volume.greaterThan(askAbove_vol) ? 'ask' : 'usual';
}

/**
 * Per cent of a strength in volumes by the trade's equivalence, 0.3 x vol: 20 vol -> 6 %.
 * Source of the pairs: 3 % = 10 and 6 % = 20 vol on safety data sheets; 12 % = 40 vol in
 * Regulation (EC) 1223/2009, Annex III, entry 12. By chemistry it is another function.
 * @throws Problem `strength_out_of_range`
 */
export function percentOfVolume(volume: Decimal): Decimal {
  judgeStrength(volume);
  return volume.times(percentPerVolume);
}

/**
 * Volumes of a per cent by the trade's equivalence, unrounded: 6 % -> 20 vol.
 * @throws Problem `strength_out_of_range` below 0 or above 30 %
 */
export function volumeOfPercent(percent: Decimal): Decimal {
  const volume = percent.dividedBy(percentPerVolume);
  if (percent.lessThan(0) || volume.greaterThan(refuseAbove_vol)) {
    throw new Problem('strength_out_of_range', {
      strength: canonical(percent),
      unit: 'per cent',
      highest: canonical(refuseAbove_vol.times(percentPerVolume)),
    });
  }
  return volume;
}

/**
 * The strength of a bottle: what is printed on it, and what is not printed by 0.3.
 * @throws Problem `developer_without_strength`, `strength_out_of_range`
 */
export function strengthOfBottle(bottle: LabelledStrength): Strength {
  const known = strengthIfKnown(bottle);
  if (known) return known;
  throw new Problem('developer_without_strength', { product: bottle.name ?? bottle.id });
}

/**
 * The strength of a bottle, or undefined where it says neither volume nor per cent.
 * @throws Problem `strength_out_of_range`
 */
export function strengthIfKnown({ strength, percent }: LabelledStrength): Strength | undefined {
  if (strength) {
    const byTrade = percentOfVolume(strength);
    if (percent) volumeOfPercent(percent);
    return { volume: strength, percent: percent ?? byTrade };
  }
  return percent ? { volume: volumeOfPercent(percent), percent } : undefined;
}

/** A part of a developer side: so many millilitres at a strength; water is 0 vol and 0 %. */
export interface BlendPart {
  readonly millilitres: Decimal;
  readonly strength: Strength;
}

/** Water: no volumes, no per cent. */
export const waterStrength: Strength = { volume: zero, percent: zero };

/**
 * What these pours made: the mean strength by volume of any number of parts, unrounded.
 * Equal parts of 6 and 20 vol make 13 vol (common practice, no source), 3.9 %.
 * @throws Problem `no_parts` when there is nothing of anything
 */
export function strengthOfBlend(parts: readonly BlendPart[]): Strength {
  const of = (pick: (strength: Strength) => Decimal): StrengthPart[] =>
    parts.map((part) => ({ amount: part.millilitres, strength: pick(part.strength) }));
  return {
    volume: alligationMedial(of((strength) => strength.volume)),
    percent: alligationMedial(of((strength) => strength.percent)),
  };
}

/** A part of a whole bowl: so many grams at a per cent of peroxide; powder is 0 %. */
export interface PeroxidePart {
  readonly grams: Decimal;
  readonly percent: Decimal;
}

/**
 * Peroxide in the whole bowl, per cent by weight, unrounded: sum(g x %) / sum(g). 30 g of powder
 * with 60 g of 12 % developer -> 8 %. Peroxide that other salts set free is not in it.
 * @throws Problem `no_parts` when the bowl holds nothing
 */
export function peroxidePercentOfBowl(parts: readonly PeroxidePart[]): Decimal {
  return alligationMedial(
    parts.map(({ grams, percent }) => ({ amount: grams, strength: percent })),
  );
}

/** Grams of peroxide in a bowl, unrounded: sum(g x %) / 100. */
export function peroxideGramsOfBowl(parts: readonly PeroxidePart[]): Decimal {
  return sum(parts.map(({ grams, percent }) => grams.times(percent))).dividedBy(100);
}

/** True where a bowl's peroxide lies above a rule's most; the most itself does not. */
export function exceedsPeroxideLimit(percentOfBowl: Decimal, limitPercent: Decimal): boolean {
  return percentOfBowl.greaterThan(limitPercent);
}
