/** Everything that one product's forecast borrows from all the others of the studio. */
import { type ErrorPool, poolErrors, poolTable } from './error-pool.js';
import { meanOver, ownCumulative, type Projection } from './projection.js';
import type { ProtectionPool } from './protection-demand.js';
import { gatherProtection } from './protection-history.js';

/** Probabilities of the bands and of the upper quantiles, in this order in every answer. */
export const PROBABILITIES = [0.025, 0.1, 0.5, 0.8, 0.9, 0.95, 0.975] as const;

/** Pooled errors with their quantiles by lead, and what is pooled about sums of periods. */
export interface StudioPool {
  errors: ErrorPool;
  table: number[][];
  protection: ProtectionPool;
  protectionPeriods: number;
}

/**
 * Gathers the pool from the forecasts of all products of one studio and one period length.
 * `protectionPeriods` is the usual lead time plus review in periods.
 */
export function gatherStudio(
  projections: readonly Projection[],
  h: number,
  protectionPeriods: number,
): StudioPool {
  const errors = poolErrors(projections.map((p) => p.origins));
  return {
    errors,
    table: poolTable(errors, h, PROBABILITIES),
    protectionPeriods,
    protection: gatherProtection(
      projections.map((p) => ({
        mean: meanOver(p.mean, protectionPeriods),
        periods: protectionPeriods,
        wholeUnits: p.wholeUnits,
        own: ownCumulative(p, protectionPeriods),
        origins: p.origins,
      })),
    ),
  };
}
