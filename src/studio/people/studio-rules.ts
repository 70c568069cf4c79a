/** Rules of price by day: which hold when. */
import { dayIn } from '../../../shared/calendar.js';
import type { RulesVersionView } from '../../../shared/contract/people.js';
import type { PricingSettings } from '../../../shared/contract/pricing.js';
import { pricingInForce } from '../../../shared/pricing-settings.js';

/** A version as it is read, the one that starts last first; of two for a day the later first. */
export interface RulesRow {
  readonly id: string;
  readonly startsOn: string;
  readonly rules: PricingSettings;
  readonly madeAt: string;
  readonly madeBy: string | null;
  readonly withdrawn: boolean;
}

/** The studio's rules: those of today, and of any day. */
export interface RulesOfPrice {
  readonly settings: PricingSettings;
  readonly currency: string;
  readonly rulesOn: (day: string) => PricingSettings;
  /** The studio's day of an instant. */
  readonly dayOf: (instant: string) => string;
}

/** What holds on a day: the version that started last before it, else what was at first. */
export function rulesOn(
  first: Partial<PricingSettings> | null,
  rows: readonly RulesRow[],
  day: string,
): PricingSettings {
  const row = rows.find(({ startsOn, withdrawn }) => !withdrawn && startsOn <= day);
  return pricingInForce(row?.rules ?? first);
}

/** The rules by day. @param now an instant */
export function rulesOfPrice(
  studio: {
    readonly currency: string;
    readonly timeZone: string;
    readonly first: Partial<PricingSettings> | null;
    readonly versions: readonly RulesRow[];
  },
  now: string,
): RulesOfPrice {
  const { currency, timeZone, first, versions } = studio;
  const on = (day: string) => rulesOn(first, versions, day);
  const dayOf = (instant: string) => dayIn(timeZone, instant);
  return { settings: on(dayOf(now)), currency, rulesOn: on, dayOf };
}

/** All versions as they travel, the one that starts last first. */
export function rulesViews(
  first: Partial<PricingSettings> | null,
  rows: readonly RulesRow[],
  today: string,
): RulesVersionView[] {
  const inForce = rows.find(({ startsOn, withdrawn }) => !withdrawn && startsOn <= today);
  const stateOf = (row: RulesRow): RulesVersionView['state'] => {
    if (row.startsOn > today) return 'planned';
    return row === inForce ? 'in force' : 'over';
  };
  const later = rows.map((row): RulesVersionView => {
    const { withdrawn, rules, ...version } = row;
    const state = withdrawn ? 'withdrawn' : stateOf(row);
    return { ...version, rules: pricingInForce(rules), state };
  });
  const rules = pricingInForce(first);
  const state = inForce ? ('over' as const) : ('in force' as const);
  return [...later, { id: null, startsOn: null, state, rules, madeAt: null, madeBy: null }];
}
