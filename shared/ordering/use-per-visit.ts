/** What a visit for a service uses of a product, learned from visits and what went into them. */
import { shrunkUse, type ShrunkUse, type UsePerVisit } from '../forecasting/bookings.js';

/** A visit that was done, with what it used of one product (0: nothing), in its stock unit. */
export interface VisitUse {
  readonly day: string;
  readonly serviceIds: readonly string[];
  readonly use: number;
}

/**
 * Use per visit of every service. A visit for several services is shared out among them by what
 * visits for one of them alone use; evenly where nothing is known of any. Services are then
 * shrunk to what the studio's services use on the whole (see `shrunkUse`); a service that was
 * never done uses that.
 */
export function usePerVisit(
  visits: readonly VisitUse[],
  serviceIds: Iterable<string>,
): Map<string, ShrunkUse> {
  const alone = new Map(
    [...grouped(visits.filter((visit) => visit.serviceIds.length === 1))].map(([id, uses]) => [
      id,
      meanOf(uses),
    ]),
  );
  const own = grouped(visits, (visit, id) => shareOf(visit, id, alone));
  const known = new Map([...own].map(([id, uses]) => [id, summary(uses)]));
  const means = [...known.values()].map(({ mean }) => mean);
  const family = { mean: meanOf([...own.values()].flat()), variance: varianceOf(means) };
  const within = pooled([...known.values()]);
  return new Map(
    [...serviceIds].map((id) => {
      const of = known.get(id) ?? { visits: 0, mean: 0, variance: 0 };
      return [id, shrunkUse(of, family, within)];
    }),
  );
}

/** Part of a visit's use that one of its services has. */
function shareOf(visit: VisitUse, id: string, alone: ReadonlyMap<string, number>): number {
  const weights = visit.serviceIds.map((each) => alone.get(each) ?? null);
  const known = weights.flatMap((weight) => (weight === null ? [] : [weight]));
  const usual = known.length > 0 ? meanOf(known) : 1;
  const total = weights.reduce<number>((sum, weight) => sum + (weight ?? usual), 0);
  const mine = weights[visit.serviceIds.indexOf(id)] ?? usual;
  return total > 0 ? (visit.use * mine) / total : visit.use / visit.serviceIds.length;
}

function grouped(
  visits: readonly VisitUse[],
  useOf: (visit: VisitUse, id: string) => number = ({ use }) => use,
): Map<string, number[]> {
  const found = new Map<string, number[]>();
  for (const visit of visits) {
    for (const id of visit.serviceIds) {
      const uses = found.get(id);
      if (uses) uses.push(useOf(visit, id));
      else found.set(id, [useOf(visit, id)]);
    }
  }
  return found;
}

function summary(uses: readonly number[]): UsePerVisit {
  return { visits: uses.length, mean: meanOf(uses), variance: varianceOf(uses) };
}

/** Variance within services, each with the weight of its visits. */
function pooled(services: readonly UsePerVisit[]): number {
  const able = services.filter(({ visits }) => visits > 1);
  const degrees = able.reduce((sum, { visits }) => sum + visits - 1, 0);
  if (degrees === 0) return 0;
  return able.reduce((sum, { visits, variance }) => sum + (visits - 1) * variance, 0) / degrees;
}

function meanOf(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((a, b) => a + b, 0) / values.length;
}

function varianceOf(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = meanOf(values);
  return values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1);
}
