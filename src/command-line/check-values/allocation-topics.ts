/** Published allocations, against shared/allocation.ts and shared/apportionment.ts. */
import { shareEvenly, shareOut } from '../../../shared/allocation.js';
import { apportion, apportionByDivisor } from '../../../shared/apportionment.js';
import { minorDigits } from '../../../shared/currency.js';
import { round, sum, type Decimal, type Rounding } from '../../../shared/decimal.js';
import { figure, figures, text, whole } from './inputs.js';
import { NotYetSupported, type Answer, type Topic } from './topic.js';
import { isFields, type Fields, type ValueRow } from './value-row.js';

/** Places of the amount shared: none for minor units and seats, the currency's for an amount. */
function placesOf(inputs: Fields): number {
  const stated = whole(inputs, 'decimals', 'places');
  if (stated !== undefined) return stated;
  const currency = text(inputs, 'currency');
  return 'amount' in inputs && currency !== undefined ? minorDigits(currency) : 0;
}

function weightsOf(inputs: Fields): Decimal[] | undefined {
  const named = [inputs['ratios'], inputs['weights']].find(isFields);
  const listed = named ? { list: Object.values(named) } : inputs;
  return figures(listed, 'ratios', 'weights', 'shares', 'populations', 'list');
}

/** Every share rounded by itself: what the largest remainder is there to avoid. */
function naive(total: Decimal, weights: readonly Decimal[], rounding: Rounding): Decimal[] {
  const all = sum(weights);
  return weights.map((weight) => round(total.times(weight).dividedBy(all), 0, rounding));
}

function allocation(row: ValueRow): Answer {
  const { inputs } = row;
  const total = figure(inputs, 'minor_units', 'seats', 'amount', 'total', 'units');
  if (!total) throw new NotYetSupported('nothing to share');
  const places = placesOf(inputs);
  const targets = whole(inputs, 'targets', 'parts', 'n');
  if (targets !== undefined) {
    const even = shareEvenly(total, targets, places);
    return { shares: even, sum: sum(even) };
  }
  const weights = weightsOf(inputs);
  if (!weights) throw new NotYetSupported('no ratios');
  const minimum = figure(inputs, 'minimum_each', 'minimum');
  const shares = minimum ? apportion(total, weights, minimum) : shareOut(total, weights, places);
  const counted = naive(total, weights, 'half_up');
  return {
    shares,
    hamilton: shares,
    sum: sum(shares),
    naive_half_up: counted,
    naive_sum: sum(counted),
    ...divisors(row, total, weights, minimum),
  };
}

/** The divisor methods, where a row asks for them: they go unit by unit. */
function divisors(
  row: ValueRow,
  total: Decimal,
  weights: readonly Decimal[],
  minimum: Decimal | undefined,
): Answer {
  const methods = (['jefferson', 'adams', 'webster'] as const).filter(
    (method) => method in row.expected,
  );
  return Object.fromEntries(
    methods.map((method) => [method, apportionByDivisor(total, weights, method, minimum)]),
  );
}

export const allocationTopics: readonly Topic[] = [{ name: 'allocation', answer: allocation }];
