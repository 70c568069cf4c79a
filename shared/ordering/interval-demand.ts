/** How much may be used over a number of days: the month forecast's mean, the weeks' spread. */
import { demandFamily, type Demand } from '../forecasting/demand-distribution.js';
import { tsb } from '../forecasting/intermittent.js';
import { protectionDemand, type ProtectionPool } from '../forecasting/protection-demand.js';
import { gatherProtection, intermittentCumulative } from '../forecasting/protection-history.js';
import { spreadOver } from './days-ahead.js';
import { meanOverDays, type ProductForecast } from './studio-forecast.js';

/** Weeks below which the spread is taken from the months alone. */
const FEWEST_WEEKS = 9;
const SHORTEST_DAYS = 14;
const DAYS_OF_MONTH = 30.4;
/** A mean far from the past one scales the spread at most so much. */
const LARGEST_SCALE = 4;
/** Variance grows with the mean to this power, between counts (1) and proportional (2); over
 * intervals longer than a quarter of the weeks likewise with their length. */
const GROWTH = 1.5;
/** Origins that the studio's spread is calibrated on. */
const ORIGINS = 13;
const SMOOTHING = 0.1;

/** Demand over days from today on, of products by their index. */
export class IntervalDemand {
  private readonly pools = new Map<number, ProtectionPool>();

  constructor(
    private readonly forecasts: readonly ProductForecast[],
    private readonly today: string,
  ) {}

  /**
   * Use of one product over the next `days` days, as a distribution: mean of the months ahead,
   * variance of past sums over as many weeks shrunk to the studio's (see protectionDemand), with
   * use not entered and (mean/days)^2 x the lead time's variance in days^2 added.
   */
  over(index: number, days: number, leadVariance: number): Demand {
    const forecast = this.forecasts[index];
    if (!forecast || !(days > 0)) return { family: 'gamma', mean: 0, variance: 0 };
    const { history, unit } = forecast.of;
    const mean = this.mean(forecast, days);
    const more = history.notEntered.variancePerDay * days + (mean / days) ** 2 * leadVariance;
    const wholeUnits = unit === 'piece';
    const weeks = history.weeks;
    if (weeks.length < FEWEST_WEEKS || !weeks.some((use) => use > 0)) {
      const alone = forecast.series.demandOver(days / DAYS_OF_MONTH);
      const family = demandFamily(mean, wholeUnits);
      const own = alone.variance * scale(mean, alone.mean) * spreadOver(forecast.ahead, days);
      return { family, mean, variance: own + more };
    }
    const longest = Math.max(SHORTEST_DAYS, 7 * Math.floor(weeks.length / 4));
    if (days > longest) {
      const part = this.over(index, longest, 0);
      const longer = part.variance * (days / longest) ** GROWTH;
      return { family: demandFamily(mean, wholeUnits), mean, variance: longer + more };
    }
    const found = this.sample(forecast, days);
    const own = { ...found.own, variance: found.own.variance * scale(mean, found.mean) };
    const periods = days / 7;
    const demand = protectionDemand({ mean, periods, wholeUnits, own, pool: this.pool(days) });
    const variance = demand.variance * spreadOver(forecast.ahead, days) + more;
    return { family: demand.family, mean, variance };
  }

  /** A product that comes and goes keeps a part of its long-run use: it may come back. */
  private mean(forecast: ProductForecast, days: number): number {
    const ahead = meanOverDays(forecast, this.today, days);
    if (forecast.series.method !== 'intermittent') return ahead;
    const kept = forecast.series.demandOver(days / DAYS_OF_MONTH).mean;
    return Math.max(ahead, kept + forecast.of.history.notEntered.perDay * days);
  }

  private pool(days: number): ProtectionPool {
    const whole = Math.max(1, +days.toFixed(0));
    const known = this.pools.get(whole);
    if (known) return known;
    const able = this.forecasts.filter(({ of }) => of.history.weeks.length >= FEWEST_WEEKS);
    const pool = gatherProtection(able.map((forecast) => this.sample(forecast, whole)));
    this.pools.set(whole, pool);
    return pool;
  }

  /** One product's past weeks: their mean over the interval, errors of sums, a backtest. */
  private sample({ of }: ProductForecast, days: number) {
    const y = Float64Array.from(of.history.weeks);
    const periods = days / 7;
    const mean = (y.reduce((a, b) => a + b, 0) / y.length) * periods;
    const whole = Math.max(1, Math.ceil(periods));
    const levels = new Float64Array(y.length);
    tsb(y, SMOOTHING, SMOOTHING, levels);
    const first = Math.max(FEWEST_WEEKS, y.length - whole - ORIGINS);
    const origins = [];
    for (let origin = first; origin + whole <= y.length; origin++) {
      const forecast = new Array<number>(whole).fill(levels[origin] ?? 0);
      const actual = Array.from(y.subarray(origin, origin + whole));
      origins.push({ origin, forecast, naive: forecast, actual, scale: 1 });
    }
    const own = intermittentCumulative(y, periods);
    return { mean, periods, wholeUnits: of.unit === 'piece', own, origins };
  }
}

function scale(mean: number, past: number): number {
  if (!(mean > 0) || !(past > 0)) return 1;
  return Math.min(LARGEST_SCALE, Math.max(1 / LARGEST_SCALE, (mean / past) ** GROWTH));
}
