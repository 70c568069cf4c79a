/** The studio's rules of price as they are typed, and the settings that they make. */
import type {
  CommissionOn,
  OnTopSetting,
  PricingSettings,
} from '../../../shared/contract/pricing.js';
import { canonical, count, decimal, round, zero, type Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';

export const chargedKinds = [
  'lightener',
  'developer',
  'toner',
  'permanent',
  'direct',
  'additive',
  'care',
] as const satisfies readonly ProductKind[];

export interface TypedTax {
  readonly label: string;
  readonly rate: string;
}

export interface TypedOnTop {
  readonly by: OnTopSetting['by'] | 'not';
  readonly rate: string;
  readonly label: string | undefined;
}

/** Figures are as they were typed; shares in per cent. */
export interface Rules {
  readonly priceMode: PricingSettings['priceMode'];
  readonly taxKnown: 'none' | 'some' | 'unsaid';
  readonly taxes: readonly TypedTax[];
  readonly taxBasis: PricingSettings['taxBasis'];
  readonly rounding: PricingSettings['rounding'];
  readonly priceStep: string;
  readonly overhead: string;
  readonly hourRate: string;
  readonly card: 'none' | 'some';
  readonly cardShare: string;
  readonly cardFixed: string;
  readonly onTip: 'studio' | 'person';
  readonly commission: 'none' | CommissionOn;
  readonly commissionShare: string;
  readonly measuredOn: PricingSettings['measuredOn'];
  readonly onTop: Readonly<Record<(typeof chargedKinds)[number], TypedOnTop>>;
}

/** What each part of the page is given. */
export interface RulesPart {
  readonly rules: Rules;
  readonly currency: string;
  readonly change: (part: Partial<Rules>) => void;
}

const perCent = (share: string) => canonical(decimal(share).times(100));

/** The rules that are in force, ready to be changed. */
export function typedRules(settings: PricingSettings): Rules {
  const { taxes, cardFee, commission } = settings;
  return {
    priceMode: settings.priceMode,
    taxKnown: taxes === null ? 'unsaid' : taxes.length === 0 ? 'none' : 'some',
    taxes: (taxes ?? []).map(({ label, rate }) => ({ label, rate: perCent(rate) })),
    taxBasis: settings.taxBasis,
    rounding: settings.rounding,
    priceStep: settings.priceStep ?? '',
    overhead: settings.overheadPerChairMinute,
    hourRate: settings.hourRate ?? '',
    card: cardFee ? 'some' : 'none',
    cardShare: cardFee ? perCent(cardFee.share) : '',
    cardFixed: cardFee?.fixed ?? '',
    onTip: cardFee?.onTip ?? 'studio',
    commission: commission?.on ?? 'none',
    commissionShare: commission ? perCent(commission.share) : '',
    measuredOn: settings.measuredOn,
    onTop: typedOnTop(settings.onTop),
  };
}

function typedOnTop(rules: readonly OnTopSetting[]): Rules['onTop'] {
  const typed = chargedKinds.map((kind) => {
    const rule = rules.find((each) => each.kind === kind);
    if (!rule) return [kind, { by: 'not', rate: '', label: undefined }] as const;
    const rate = rule.by === 'cost' ? perCent(rule.rate) : rule.rate;
    return [kind, { by: rule.by, rate, label: rule.label }] as const;
  });
  return Object.fromEntries(typed) as Rules['onTop'];
}

/** Reads a figure that may be a fine rate: at most 6 digits and 6 decimals; undefined for none. */
export function readRate(text: string): Decimal | undefined {
  const plain = text.trim().replace(',', '.').replace(/\.$/, '');
  return /^\d{1,6}(\.\d{1,6})?$/.test(plain) ? decimal(plain.replace(/^0+(?=\d)/, '')) : undefined;
}

const rateOf = (text: string) => canonical(readRate(text) ?? zero);
const shareOf = (text: string) => canonical((readRate(text) ?? zero).dividedBy(100));
const orNull = (text: string) => (text.trim() === '' ? null : rateOf(text));

/** True while every figure that is needed can be read: none is taken for 0 by mistake. */
export function isWhole(rules: Rules): boolean {
  const { taxKnown, taxes, card, commission } = rules;
  const needed = [
    rules.overhead,
    ...(taxKnown === 'some' ? taxes.map(({ rate }) => rate) : []),
    ...(card === 'some' ? [rules.cardShare] : []),
    ...(commission === 'none' ? [] : [rules.commissionShare]),
    ...Object.values(rules.onTop).flatMap(({ by, rate }) => (by === 'not' ? [] : [rate])),
  ];
  const given = [rules.priceStep, rules.hourRate, card === 'some' ? rules.cardFixed : ''];
  return [...needed, ...given.filter((text) => text.trim() !== '')].every(
    (text) => readRate(text) !== undefined,
  );
}

/** The settings as they are sent; only of rules that are whole. */
export function settingsOf(rules: Rules): PricingSettings {
  const { taxKnown, card, commission } = rules;
  const taxes = rules.taxes.map(({ label, rate }) => ({ label, rate: shareOf(rate) }));
  return {
    priceMode: rules.priceMode,
    taxes: taxKnown === 'unsaid' ? null : taxKnown === 'none' ? [] : taxes,
    taxBasis: rules.taxBasis,
    rounding: rules.rounding,
    priceStep: orNull(rules.priceStep),
    overheadPerChairMinute: rateOf(rules.overhead),
    hourRate: orNull(rules.hourRate),
    cardFee:
      card === 'none'
        ? null
        : { share: shareOf(rules.cardShare), fixed: rateOf(rules.cardFixed), onTip: rules.onTip },
    commission:
      commission === 'none' ? null : { share: shareOf(rules.commissionShare), on: commission },
    measuredOn: rules.measuredOn,
    onTop: chargedKinds.flatMap((kind): OnTopSetting[] => {
      const { by, rate, label } = rules.onTop[kind];
      if (by === 'not') return [];
      const named = label === undefined ? {} : { label };
      return [{ kind, by, rate: by === 'cost' ? shareOf(rate) : rateOf(rate), ...named }];
    }),
  };
}

/**
 * What a minute of a chair costs, to three decimals half-even; undefined while a figure is missing:
 * costs of a month x 12 / 52 / (chairs x open hours of a week x 60 x share in use).
 * Example: (4680, 3, 40, 50 %) -> 4680 x 12 / 52 / 3600 = 0.3
 */
export function chairMinute(typed: {
  readonly costs: string;
  readonly chairs: string;
  readonly hours: string;
  readonly inUse: string;
}): string | undefined {
  const [costs, chairs, hours, inUse] = [typed.costs, typed.chairs, typed.hours, typed.inUse].map(
    readRate,
  );
  if (!costs || !chairs || !hours || !inUse) return undefined;
  const minutes = chairs.times(hours).times(60).times(inUse).dividedBy(100);
  if (minutes.isZero()) return undefined;
  const week = costs.times(12).dividedBy(count(52));
  return canonical(round(week.dividedBy(minutes), 3, 'half_even'));
}
