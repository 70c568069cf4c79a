/** Reorder points and order-up-to levels from demand and lead time that both vary. */
import { type Demand, type DemandFamily, demandQuantile } from './demand-distribution.js';

/** Demand per period (mean, deviation) and lead time in periods (mean, deviation). */
export interface LeadTimeDemand {
  mean: number;
  sd: number;
  leadTime: number;
  leadTimeSd?: number;
  /** Review period added to the lead time, in periods. */
  review?: number;
}

/**
 * Demand over lead time and review: mean d(L+R), deviation sqrt((L+R) sd^2 + d^2 sL^2)
 * (Silver, Pyke & Thomas 2017).
 */
export function leadTimeDemand(of: LeadTimeDemand, family: DemandFamily): Demand {
  const periods = of.leadTime + (of.review ?? 0);
  const fromLead = of.mean ** 2 * (of.leadTimeSd ?? 0) ** 2;
  return { family, mean: of.mean * periods, variance: periods * of.sd ** 2 + fromLead };
}

/** A level and how much of it is safety: level - mean demand until the goods are there. */
export interface StockLevel {
  level: number;
  safetyStock: number;
}

/**
 * Level that covers demand until the goods are there with probability `service`. Service 0 asks
 * for nothing; service 1 cannot be reached by any stock and gives Infinity where demand has no
 * upper end.
 */
export function serviceLevelStock(service: number, demand: Demand): StockLevel {
  const level = service > 0 ? demandQuantile(service, demand) : 0;
  return { level, safetyStock: level - demand.mean };
}
