/** Additives of a mix: how much of each goes with so much powder, and what they leave of a size. */
import { canonical, one, round, sum, zero, type Decimal } from './decimal.js';
import { nameOf, type Additive, type MixProduct } from './mix.js';
import { Problem } from './problems/problem.js';
import { gramsOf, stockPlaces } from './units.js';

/**
 * An additive ready to be reckoned: its grams are fixed + perPowder x powder side, and one dose
 * for each started step of powder.
 */
export interface AdditiveRule {
  readonly product: MixProduct;
  readonly counted: boolean;
  readonly fixed_g: Decimal;
  readonly perPowder: Decimal;
  readonly doses?: { readonly step_g: Decimal; readonly dose_g: Decimal };
}

/**
 * Reads one additive. `developerPerPowder` is grams of developer to one gram of powder side;
 * a per cent of the developer side or of both follows the powder through it.
 * @throws Problem `wrong_kind`, `percent_out_of_range`, `quantity_not_positive`, `dose_unknown`,
 *   `pieces_against_weight`
 */
export function additiveRule(
  additive: Additive,
  product: MixProduct,
  developerPerPowder: Decimal,
): AdditiveRule {
  const name = nameOf(product);
  if (product.kind === 'developer' || product.kind === 'sundry') {
    throw new Problem('wrong_kind', { product: name, kind: product.kind, place: 'additives' });
  }
  const rule = { product, counted: additive.counted ?? false, fixed_g: zero, perPowder: zero };
  if ('percent' in additive) {
    const { of, percent } = additive;
    if (!percent.greaterThan(0) || percent.greaterThan(100)) {
      throw new Problem('percent_out_of_range', { what: name, percent: canonical(percent) });
    }
    const side = {
      powder: one,
      developer: developerPerPowder,
      total: one.plus(developerPerPowder),
    };
    return { ...rule, perPowder: side[of].times(percent).dividedBy(100) };
  }
  if ('grams' in additive) return { ...rule, fixed_g: positive(additive.grams, name) };
  const dose = product.dose;
  const dose_g = dose
    ? gramsOf(dose.value, dose.unit, product).grams
    : product.unit === 'piece'
      ? gramsOf(one, 'piece', product).grams
      : undefined;
  if (!dose_g?.greaterThan(0)) throw new Problem('dose_unknown', { product: name });
  return { ...rule, doses: { step_g: positive(additive.dosesPer, name), dose_g } };
}

/** Grams of an additive with `powder_g` on the powder side, and `doses` where it goes by doses. */
export function additiveGrams(rule: AdditiveRule, powder_g: Decimal, doses: Decimal): Decimal {
  const byDose = rule.doses ? rule.doses.dose_g.times(doses) : zero;
  return rule.fixed_g.plus(rule.perPowder.times(powder_g)).plus(byDose);
}

/**
 * Doses for so much powder: one for each started step. 30 g at 30 g a dose -> 1; 31 g -> 2. A step
 * counts as started from 0.001 g on, so that 90 g / 3 never starts a second one.
 */
export function dosesFor(rule: AdditiveRule, powder_g: Decimal): Decimal {
  if (!rule.doses) return zero;
  return round(powder_g, stockPlaces, 'half_even').dividedBy(rule.doses.step_g).ceil();
}

/** The powder side that makes up a bowl, and the doses of each additive that go with it. */
export interface PowderAndDoses {
  readonly powder_g: Decimal;
  readonly doses: readonly Decimal[];
}

/**
 * The powder side, unrounded, of a bowl whose two sides and counted additives weigh `total_g`.
 * Doses come in steps: where no powder fits its own doses exactly, there is one dose more.
 * @throws Problem `additives_fill_the_bowl`
 */
export function powderForTotal(
  total_g: Decimal,
  developerPerPowder: Decimal,
  rules: readonly AdditiveRule[],
): PowderAndDoses {
  const counted = rules.filter((rule) => rule.counted);
  const perPowder = one.plus(developerPerPowder).plus(sum(counted.map((rule) => rule.perPowder)));
  let doses = rules.map((rule) => (rule.doses ? one : zero));
  for (;;) {
    const taken = sum(
      rules.map((rule, index) =>
        rule.counted ? additiveGrams(rule, zero, doses[index] ?? zero) : zero,
      ),
    );
    if (taken.greaterThanOrEqualTo(total_g)) {
      throw new Problem('additives_fill_the_bowl', {
        additives: canonical(taken),
        total: canonical(total_g),
      });
    }
    const powder_g = total_g.minus(taken).dividedBy(perPowder);
    const needed = rules.map((rule) => dosesFor(rule, powder_g));
    if (needed.every((each, index) => each.lessThanOrEqualTo(doses[index] ?? zero))) {
      return { powder_g, doses };
    }
    doses = needed.map((each, index) => {
      const before = doses[index] ?? zero;
      return each.greaterThan(before) ? each : before;
    });
  }
}

function positive(quantity: Decimal, what: string): Decimal {
  if (!quantity.greaterThan(0)) {
    throw new Problem('quantity_not_positive', { what, quantity: canonical(quantity) });
  }
  return quantity;
}
