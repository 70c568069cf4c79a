/** The rules and rates that a visit's sheet works by: the studio's now, or those of its closing. */
import type { InThePriceItem } from '../../../shared/contract/catalogue.js';
import type { CommissionOn, PricingSettings } from '../../../shared/contract/pricing.js';
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
  const [{ settings, currency }, people] = await Promise.all([
    studio.pricing(reader),
    reader.query<PersonTerms & Record<string, unknown>>(READ_RATES, [ids]),
  ]);
  const own = (visit: VisitRow) => new Set([...namedBy(visit), ...more]);
  const termsFor = (visit: VisitRow) => {
    const named = own(visit);
    const known = people.filter(({ id }) => named.has(id));
    return keptTerms(visit, settings, known);
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
  const services = visit.services.map(({ serviceId, inThePrice }) => ({ serviceId, inThePrice }));
  return {
    // a tax rule that nobody had told is the one thing that may still come
    pricing: { ...pricing, taxes: pricing.taxes ?? settings.taxes },
    services: services.map((service) => same(kept?.services, 'serviceId', service)),
    people: people.map((person) => same(kept?.people, 'id', person)),
  };
}

function same<T, K extends keyof T>(kept: readonly T[] | undefined, key: K, now: T): T {
  return kept?.find((each) => each[key] === now[key]) ?? now;
}
