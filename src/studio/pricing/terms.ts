/** The rules and rates that a visit's sheet works by: those of its closing, else those of now. */
import type { InThePriceItem } from '../../../shared/contract/catalogue.js';
import type {
  CommissionOn,
  OnTopSetting,
  PricingSettings,
} from '../../../shared/contract/pricing.js';
import type { Reader } from '../../platform/database/transaction.js';
import type { StudioService } from '../people/studio.service.js';
import type { VisitRow } from '../visits/visits.service.js';
import { READ_RATES } from './price-sheets.queries.js';

/** What a person's time and commission are. */
export interface PersonTerms {
  readonly id: string;
  readonly name: string;
  readonly kind: 'employed' | 'rents';
  readonly hourRate: string | null;
  readonly commission: { readonly share: string; readonly on: CommissionOn } | null;
}

interface ServiceTerms {
  readonly serviceId: string;
  readonly inThePrice: readonly InThePriceItem[];
  /** In place of the studio's rules; none in terms that were kept before there were any. */
  readonly onTop?: readonly OnTopSetting[];
}

/** Kept with the visit at its closing, so that a later sheet of it counts the same way. */
export interface Terms {
  readonly pricing: PricingSettings;
  readonly services: readonly ServiceTerms[];
  readonly people: readonly PersonTerms[];
}

/**
 * The terms of a visit: those kept at its closing; what they lack is taken as it is now.
 * @param more people who are not named by the visit yet
 */
export async function termsOf(
  reader: Reader,
  studio: StudioService,
  visit: VisitRow,
  more: readonly string[] = [],
): Promise<{ terms: Terms; currency: string }> {
  const { termsFor, currency } = await presentTerms(reader, studio, [visit], more);
  return { terms: termsFor(visit), currency };
}

/** The terms of many visits in two statements. @param more people whom no visit names yet */
export async function presentTerms(
  reader: Reader,
  studio: StudioService,
  visits: readonly VisitRow[],
  more: readonly string[] = [],
): Promise<{ termsFor: (visit: VisitRow) => Terms; settings: PricingSettings; currency: string }> {
  const ids = [...new Set([...visits.flatMap(namedBy), ...more])];
  const [{ settings, currency, rulesOn, dayOf }, people] = await Promise.all([
    studio.pricing(reader),
    reader.query<PersonTerms & Record<string, unknown>>(READ_RATES, [ids]),
  ]);
  const own = (visit: VisitRow) => new Set([...namedBy(visit), ...more]);
  const termsFor = (visit: VisitRow) => {
    const named = own(visit);
    const known = people.filter(({ id }) => named.has(id));
    const closedOn = visit.closed_at === null ? null : dayOf(visit.closed_at);
    const rules = closedOn === null ? settings : rulesOn(closedOn);
    const terms = keptTerms(visit, rules, known);
    // a tax rule that nobody had told is the one thing that may still come
    const taxes = terms.pricing.taxes ?? settings.taxes;
    return { ...terms, pricing: { ...terms.pricing, taxes } };
  };
  return { termsFor, settings, currency };
}

function namedBy(visit: VisitRow): string[] {
  const ids = [visit.person_id, ...visit.minutes.map((each) => each.personId)];
  return ids.filter((id) => id !== null);
}

function keptTerms(
  visit: VisitRow,
  settings: PricingSettings,
  people: readonly PersonTerms[],
): Terms {
  const kept = visit.terms as Terms | null;
  const pricing = kept ? { ...settings, ...kept.pricing } : settings;
  const services = visit.services.map(({ serviceId, inThePrice, onTop }) => ({
    ...{ serviceId, inThePrice, onTop },
  }));
  return {
    pricing,
    services: services.map((service) => same(kept?.services, 'serviceId', service)),
    people: people.map((person) => same(kept?.people, 'id', person)),
  };
}

function same<T, K extends keyof T>(kept: readonly T[] | undefined, key: K, now: T): T {
  return kept?.find((each) => each[key] === now[key]) ?? now;
}
