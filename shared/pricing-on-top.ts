/** Product beyond what is in the menu price, and what is charged for it. */
import { count, larger, one, sum, zero, type Decimal } from './decimal.js';
import { taxRatesOf, type OnTopRule, type ProductUse, type SheetInput } from './pricing-input.js';
import { given, type LineInput, type UnsetLine } from './pricing-lines.js';

/**
 * What is charged on top, one line for each kind that goes beyond: excess = max(0, used - in the
 * price), pooled over the services of the visit. By bowl: started bowls above the number x rate.
 * By gram: excess grams x rate. By cost: what the excess cost, pro rata, x (1 + markup). Always
 * net; x (1 + taxes) where prices include them. What the studio bears is not counted.
 * Example: 72 g applied, 60 g in the price, 0.20 a gram, 20 % tax included -> 2.88.
 */
export function onTopLines(input: SheetInput): UnsetLine[] {
  return (input.onTop ?? []).flatMap((rule) => {
    const charge = rule.by === 'bowl' ? byBowl(input, rule) : byWeight(input, rule);
    return charge.net.isZero() ? [] : [lineOf(input, rule, charge)];
  });
}

interface Charge {
  readonly net: Decimal;
  readonly inputs: readonly LineInput[];
  readonly formula: string;
}

function lineOf(input: SheetInput, rule: OnTopRule, charge: Charge): UnsetLine {
  const rates = sum(taxRatesOf(input.money).map(({ rate }) => rate));
  const inclusive = input.money.priceMode === 'inclusive' && !rates.isZero();
  return {
    kind: 'on_top',
    label: rule.label ?? `On top: ${rule.kind}`,
    inputs: inclusive ? [...charge.inputs, given('taxes', rates, 'share')] : charge.inputs,
    formula: inclusive ? `(${charge.formula}) x (1 + taxes)` : charge.formula,
    exact: inclusive ? charge.net.times(one.plus(rates)) : charge.net,
  };
}

/** Pooled over the visit's services. */
function pooled(input: SheetInput, kind: string, what: 'grams' | 'bowls'): Decimal {
  const parts = input.services.flatMap((service) => service.inThePrice ?? []);
  return sum(parts.filter((part) => part.kind === kind).map((part) => part[what] ?? zero));
}

function byBowl(input: SheetInput, rule: Extract<OnTopRule, { by: 'bowl' }>): Charge {
  const started = (input.bowls ?? []).filter(
    (bowl) => bowl.kind === rule.kind && bowl.borneBy !== 'studio',
  );
  const used = count(started.length);
  const free = pooled(input, rule.kind, 'bowls');
  return {
    net: larger(zero, used.minus(free)).times(rule.ratePerBowl),
    inputs: [
      given('started', used, 'bowl'),
      given('in the price', free, 'bowl'),
      given('rate', rule.ratePerBowl, `${input.money.currency}/bowl`),
    ],
    formula: '(started - in the price) x rate',
  };
}

function byWeight(input: SheetInput, rule: Exclude<OnTopRule, { by: 'bowl' }>): Charge {
  const uses = (input.products ?? []).filter(
    (use) => use.kind === rule.kind && use.borneBy !== 'studio',
  );
  const measuredOn = input.measuredOn ?? 'applied';
  const used = sum(uses.map((use) => measuredGrams(use, measuredOn)));
  const free = pooled(input, rule.kind, 'grams');
  const excess = larger(zero, used.minus(free));
  const weighed = [given(measuredOn, used, 'g'), given('in the price', free, 'g')];
  if (rule.by === 'gram') {
    return {
      net: excess.times(rule.ratePerGram),
      inputs: [...weighed, given('rate', rule.ratePerGram, `${input.money.currency}/g`)],
      formula: `(${measuredOn} - in the price) x rate`,
    };
  }
  const cost = sum(uses.map((use) => measuredValue(use, measuredOn)));
  return {
    net: used.isZero() ? zero : cost.times(excess).dividedBy(used).times(one.plus(rule.markup)),
    inputs: [
      ...weighed,
      given('cost', cost, input.money.currency),
      given('markup', rule.markup, 'share'),
    ],
    formula: `cost x (${measuredOn} - in the price) / ${measuredOn} x (1 + markup)`,
  };
}

function measuredGrams(use: ProductUse, measuredOn: 'applied' | 'mixed'): Decimal {
  const mixed = use.grams ?? zero;
  return measuredOn === 'mixed' ? mixed : (use.appliedGrams ?? mixed);
}

/** Value of what was applied: as booked, else pro rata of the grams. */
function measuredValue(use: ProductUse, measuredOn: 'applied' | 'mixed'): Decimal {
  if (measuredOn === 'mixed') return use.value;
  if (use.appliedValue) return use.appliedValue;
  const mixed = use.grams ?? zero;
  return mixed.isZero() ? zero : use.value.times(use.appliedGrams ?? mixed).dividedBy(mixed);
}
