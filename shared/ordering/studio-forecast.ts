/** Forecasts of all products of a studio: each by itself first, then with what they share. */
import { forecastSeries, type SeriesForecast } from '../forecasting/forecast-series.js';
import type { EnsembleMemory } from '../forecasting/ensemble.js';
import { meanOver, projectionQuantiles } from '../forecasting/projection.js';
import { gatherStudio, PROBABILITIES, type StudioPool } from '../forecasting/studio-pool.js';
import type { FamilyPrior } from '../forecasting/cold-start.js';
import { extraOver, type DaysAhead } from './days-ahead.js';
import type { DemandHistory } from './demand-history.js';
import { daysOfMonth, monthAfter } from './studio-periods.js';

/** A product, or all developers of one strength. */
export interface Forecastable {
  readonly id: string;
  readonly unit: string;
  /** Products of one family are used alike: kind and unit. */
  readonly family: string;
  readonly history: DemandHistory;
}

/** Months ahead that are always forecast; a request shows the first of them. */
export const FORECAST_MONTHS = 12;
/** Protection interval that the pool is gathered for, in months: lead time and review. */
const USUAL_PROTECTION = 0.4;
/** A family speaks for a new product from so many members on. */
const SMALLEST_FAMILY = 2;
const MONTHS_TO_TEACH = 6;

/** A product forecast by itself; recorded use only. */
export interface OwnForecast {
  readonly of: Forecastable;
  readonly series: SeriesForecast;
}

/** One month ahead, use not entered included; quantities in the stock unit. */
export interface MonthAhead {
  readonly month: string;
  readonly mean: number;
  readonly notEntered: number;
  /** In the order of PROBABILITIES, never falling. */
  readonly quantiles: readonly number[];
  /** Visits in the diary that use it, what they use, and by how much `mean` is changed by them. */
  readonly booked?: { readonly visits: number; readonly use: number; readonly more: number };
}

/** The forecast of one product beside all others of the studio. */
export interface ProductForecast extends OwnForecast {
  readonly months: readonly MonthAhead[];
  /** What is known of single days: bookings and closed days; left out where nothing is. */
  readonly ahead?: DaysAhead;
}

/** Forecasts one product alone. `prior` is asked for only where its own history is short. */
export function ownForecast(
  of: Forecastable,
  prior: FamilyPrior | null = null,
  memory: EnsembleMemory | null = null,
): OwnForecast {
  const { months, openShare, outOfStockShare } = of.history;
  const series = forecastSeries({
    use: months,
    ...{ openShare, outOfStockShare },
    season: 12,
    horizon: FORECAST_MONTHS,
    periodName: 'month',
    unit: of.unit,
    wholeUnits: of.unit === 'piece',
    ...(prior ? { prior } : {}),
    ...(memory ? { memory } : {}),
  });
  return { of, series };
}

/** True where the history is too short and a family would help. */
export function wantsPrior({ series }: OwnForecast): boolean {
  return series.method === 'cold start' || series.method === 'no use';
}

/**
 * What products of a family use a month: the median of their means and the variance between
 * them, from members with six months and some use; null with fewer than two.
 */
export function familyPrior(family: string, all: readonly OwnForecast[]): FamilyPrior | null {
  const means = all
    .filter(({ of, series }) => of.family === family && series.periodsUsed >= MONTHS_TO_TEACH)
    .map(({ of }) => of.history.months.reduce((a, b) => a + b, 0) / of.history.months.length)
    .filter((mean) => mean > 0)
    .sort((a, b) => a - b);
  if (means.length < SMALLEST_FAMILY) return null;
  const average = means.reduce((a, b) => a + b, 0) / means.length;
  const variance = means.reduce((a, m) => a + (m - average) ** 2, 0) / (means.length - 1);
  return { mean: means[Math.floor((means.length - 1) / 2)] ?? 0, variance };
}

/** What all products of the studio teach each other about errors; null without any. */
export function studioPool(all: readonly OwnForecast[]): StudioPool | null {
  const projections = all.flatMap(({ series }) => (series.projection ? [series.projection] : []));
  return projections.length === 0
    ? null
    : gatherStudio(projections, FORECAST_MONTHS, USUAL_PROTECTION);
}

/** The forecast with the studio's pooled errors and with use not entered. */
export function productForecast(own: OwnForecast, pool: StudioPool | null): ProductForecast {
  const { series, of } = own;
  const quantiles =
    series.projection && pool
      ? projectionQuantiles(
          series.projection,
          PROBABILITIES,
          pool.errors,
          pool.table,
          pool.protection,
        )
      : series.quantiles;
  return {
    ...own,
    months: series.mean.map((mean, ahead) =>
      monthAhead(of.history, ahead, mean, quantiles[ahead] ?? []),
    ),
  };
}

function monthAhead(
  { nextMonth, notEntered, openAhead }: DemandHistory,
  ahead: number,
  usual: number,
  ofUsual: readonly number[],
): MonthAhead {
  const open = openAhead[ahead] ?? 1;
  const mean = usual * open;
  const quantiles = ofUsual.map((quantile) => quantile * open);
  const month = monthAfter(nextMonth, ahead);
  const days = daysOfMonth(month);
  const more = notEntered.perDay * days;
  const low = quantiles[1] ?? mean;
  const high = quantiles[4] ?? mean;
  // 10 % and 90 % of a normal distribution are 2.563 deviations apart.
  const own = ((high - low) / 2.563) ** 2;
  const wider = own > 0 ? Math.sqrt(1 + (notEntered.variancePerDay * days) / own) : 1;
  return {
    month,
    mean: mean + more,
    notEntered: more,
    quantiles: quantiles.map((q) => Math.max(0, mean + more + (q - mean) * wider)),
  };
}

/** Mean use over the next `days` days from `today` on, month by month, in the stock unit. */
export function meanOverDays(forecast: ProductForecast, today: string, days: number): number {
  const { nextMonth } = forecast.of.history;
  const daily = forecast.months.map(({ month, mean, booked }) => {
    return (mean - (booked?.more ?? 0)) / daysOfMonth(month);
  });
  const last = daily.at(-1) ?? 0;
  const gone = Number.parseInt(today.slice(8, 10), 10) - 1;
  let total = 0;
  let left = days;
  for (let ahead = 0; left > 0; ahead++) {
    const inMonth = daysOfMonth(monthAfter(nextMonth, ahead)) - (ahead === 0 ? gone : 0);
    const taken = Math.min(left, inMonth);
    total += taken * (daily[ahead] ?? last);
    left -= taken;
  }
  return Math.max(0, total + extraOver(forecast.ahead, days));
}

/** Mean use of the first `months` months, use not entered included. */
export function meanOfMonths(forecast: ProductForecast, months: number): number {
  return meanOver(
    forecast.months.map(({ mean }) => mean),
    months,
  );
}
