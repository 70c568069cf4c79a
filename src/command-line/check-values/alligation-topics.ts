/** Published alligation, alternate and medial, against shared/alligation.ts. */
import {
  alligationMedial,
  alligationParts,
  amountToAdd,
  smallestWholeParts,
  type StrengthPart,
} from '../../../shared/alligation.js';
import { decimal, one, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { asFigure, figure, figures } from './inputs.js';
import { NotYetSupported, type Answer, type Got, type Topic } from './topic.js';
import { isFields, type Fields, type ValueRow } from './value-row.js';

/** A strength as books write it: 20, "20 %", "1:200" (one part in 200, so 0.5 per cent). */
function strength(value: unknown): Decimal | undefined {
  const parts = typeof value === 'string' ? /^\s*([\d.]+)\s*:\s*([\d.]+)\s*$/.exec(value) : null;
  const [, part, whole] = parts ?? [];
  if (part !== undefined && whole !== undefined) {
    return decimal(part).times(100).dividedBy(decimal(whole));
  }
  return asFigure(typeof value === 'string' ? value.replace('%', '') : value);
}

/** The first field whose name matches and that holds a strength or an amount. */
function named(inputs: Fields, pattern: RegExp): Decimal | undefined {
  for (const [name, value] of Object.entries(inputs)) {
    const found = pattern.test(name) ? strength(value) : undefined;
    if (found) return found;
  }
  return undefined;
}

function alternate(row: ValueRow): Answer {
  const { inputs } = row;
  const target =
    named(inputs, /^target/) ?? named(inputs, /^(wanted|desired|final)_?(percent|ratio)?$/);
  if (!target) throw new NotYetSupported('no target');
  const list = inputs['strengths'] ?? inputs['percents'] ?? inputs['volumes'];
  const strengths = Array.isArray(list) ? list.map(strength) : pairOf(inputs);
  if (strengths.length > 0) {
    if (!strengths.every((each) => each !== undefined)) throw new NotYetSupported('strengths');
    return mixture(row, strengths, target);
  }
  return addition(row, target);
}

/** Two strengths told one by one: "high" and "low", "stronger" and "weaker". */
function pairOf(inputs: Fields): Decimal[] {
  const high = named(inputs, /^(high|higher|strong|stronger)(_percent|_vol|_strength)?$/);
  const low = named(inputs, /^(low|lower|weak|weaker)(_percent|_vol|_strength)?$/);
  return high && low ? [high, low] : [];
}

/** The amount that a mixture is to come to, whatever its unit. */
const totalName = /^(total|final|make|to_make|volume|amount|quantity)(_(g|mL|ml|L|oz|total))*$/;
const amountName = /^(mL|ml|g|L|amounts?|volumes?|grams|millilitres)(_mL|_g)?$/;

function mixture(row: ValueRow, strengths: readonly Decimal[], target: Decimal): Answer {
  const own = alligationParts(strengths, target);
  const parts = smallestWholeParts(own);
  const total = named(row.inputs, totalName) ?? one;
  const amounts = own.map((part) => total.times(part).dividedBy(sum(own)));
  const answers = Object.entries(row.expected).map(
    ([field, expected]): [string, Got] | undefined => {
      if (field === 'mean') return [field, meanOf(strengths, own)];
      if (/parts|ratio/.test(field)) return [field, proportion(strengths, target, parts, expected)];
      if (amountName.test(field)) return [field, amounts];
      const which = indexOf(field, strengths);
      return which === undefined ? undefined : [field, amounts[which] ?? zero];
    },
  );
  return Object.fromEntries(answers.filter((each) => each !== undefined));
}

/** Which strength a field such as "high_mL", "weaker_g" or "mL_75" speaks of. */
function indexOf(field: string, strengths: readonly Decimal[]): number | undefined {
  const sorted = [...strengths].sort((a, b) => a.comparedTo(b));
  if (/high|strong/.test(field)) return strengths.indexOf(sorted.at(-1) ?? zero);
  if (/low|weak|water|diluent|base/.test(field)) return strengths.indexOf(sorted[0] ?? zero);
  const figuresInName = field
    .split('_')
    .map((word) => asFigure(word.replace(/(percent|vol)$/, '')));
  const index = strengths.findIndex((each) => figuresInName.some((found) => found?.equals(each)));
  return index < 0 ? undefined : index;
}

function meanOf(strengths: readonly Decimal[], parts: readonly Decimal[]): Decimal {
  return alligationMedial(
    parts.map((amount, index) => ({ amount, strength: strengths[index] ?? zero })),
  );
}

/**
 * The proportion in the row's own form. With three or more strengths the parts are not unique:
 * published ones count when they make the target.
 */
function proportion(
  strengths: readonly Decimal[],
  target: Decimal,
  own: readonly Decimal[],
  expected: unknown,
): Got {
  const listed: unknown[] = typeof expected === 'string' ? expected.split(':') : asList(expected);
  const published = listed.map(asFigure);
  const known = published.filter((part) => part !== undefined);
  const reachesTarget =
    strengths.length > 2 &&
    known.length === strengths.length &&
    meanOf(strengths, known).equals(target);
  const parts = reachesTarget ? known : own;
  return typeof expected === 'string' ? parts.map((part) => part.toFixed()).join(':') : parts;
}

function asList(value: unknown): unknown[] {
  return Array.isArray(value) ? (value as unknown[]) : [];
}

/** Something is there (`have_g` or `to_g`) and something of another strength is added to it. */
export function addition(row: ValueRow, target: Decimal): Answer {
  const { inputs } = row;
  const have = named(inputs, /^(have|to|of|start)_(g|mL|ml|L|oz)$/);
  const now = named(inputs, /^(have|to|of|start)(_percent|_ratio|_vol|_strength)?$/);
  if (!have || !now) throw new NotYetSupported('what is there and how strong it is');
  const added =
    named(inputs, /^(add|added|base|diluent|water)(_percent|_ratio|_vol|_strength)?$/) ?? zero;
  const amount = amountToAdd(have, now, added, target);
  return Object.fromEntries(
    Object.keys(row.expected).map((field) => [
      field,
      /^(total|final|makes?)/.test(field) ? have.plus(amount) : amount,
    ]),
  );
}

/** Every field expected is the mean, unless it asks for what the parts add up to. */
function medial(row: ValueRow): Answer {
  const parts = partsOf(row.inputs);
  const mean = alligationMedial(parts);
  return Object.fromEntries(
    Object.keys(row.expected).map((field) => [
      field,
      /^(total|sum|amount)/.test(field) ? sum(parts.map((part) => part.amount)) : mean,
    ]),
  );
}

const strengthNames = ['strengths', 'percents', 'percent', 'volumes', 'vols', 'vol', 'ratios'];
const amountNames = ['amounts', 'parts', 'weights', 'quantities', 'g', 'grams', 'mL', 'ml'];

/** Parts as two lists side by side, or as a list of pairs or of fields; equal if not told. */
function partsOf(inputs: Fields): StrengthPart[] {
  const listed = strengthNames.map((name) => inputs[name]).find(Array.isArray) as unknown;
  if (Array.isArray(listed)) {
    const amounts = figures(inputs, ...amountNames);
    return listed.map((value, index) => ({
      strength: strength(value) ?? unreadable(),
      amount: amounts ? (amounts[index] ?? unreadable()) : one,
    }));
  }
  const pairs = Object.values(inputs).find(Array.isArray) as unknown;
  if (!Array.isArray(pairs)) return partsByPrefix(inputs);
  return pairs.map((each: unknown) => {
    if (Array.isArray(each)) {
      return {
        amount: asFigure(each[0]) ?? unreadable(),
        strength: strength(each[1]) ?? unreadable(),
      };
    }
    if (!isFields(each)) return unreadable();
    return {
      strength: named(each, /percent|strength|vol|ratio/) ?? unreadable(),
      amount: named(each, /^(amount|part|parts|weight|quantity|g|grams|mL|ml|L)$/) ?? one,
    };
  });
}

/** Parts told one by one: "a_mL" beside "a_percent". */
function partsByPrefix(inputs: Fields): StrengthPart[] {
  const prefixes = Object.keys(inputs).flatMap(
    (name) => /^(.+)_(percent|vol|strength)$/.exec(name)?.[1] ?? [],
  );
  if (prefixes.length === 0) throw new NotYetSupported('no list of parts');
  return prefixes.map((prefix) => ({
    strength: figure(inputs, `${prefix}_percent`, `${prefix}_vol`, `${prefix}_strength`) ?? zero,
    amount:
      figure(inputs, `${prefix}_mL`, `${prefix}_ml`, `${prefix}_g`, `${prefix}_parts`) ??
      unreadable(),
  }));
}

function unreadable(): never {
  throw new NotYetSupported('parts in another form');
}

export const alligationTopics: readonly Topic[] = [
  { name: 'alligation-alternate', answer: alternate },
  { name: 'alligation-medial', answer: medial },
];
