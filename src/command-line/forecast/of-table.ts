/** Forecasts every series of a table of dates and amounts, as figures and as lines to read. */
import {
  forecastSeries,
  type SeriesForecast,
} from '../../../shared/forecasting/forecast-series.js';
import { gatherStudio } from '../../../shared/forecasting/studio-pool.js';
import { projectionQuantiles } from '../../../shared/forecasting/projection.js';
import { columns } from '../terminal.js';
import type { DatedSeries, Every } from './dated-amounts.js';

/** One period ahead. */
interface AheadView {
  period: string;
  mean: number;
  low80: number;
  high80: number;
  low95: number;
  high95: number;
}

export interface TableForecast {
  series: string;
  method: string;
  demandClass: string;
  periods: number;
  ahead: AheadView[];
  backtest: SeriesForecast['backtest'];
  sentence: string;
}

const seasons: Record<Every, number> = { month: 12, week: 52, day: 7 };

/** Forecasts of all series; several of them teach each other how wide intervals are. */
export function forecastTable(
  all: readonly DatedSeries[],
  every: Every,
  horizon: number,
  unit: string,
): TableForecast[] {
  const alone = all.map(({ use, openShare }) =>
    forecastSeries({ use, openShare, season: seasons[every], horizon, periodName: every, unit }),
  );
  const projections = alone.flatMap(({ projection }) => (projection ? [projection] : []));
  const pool = projections.length > 1 ? gatherStudio(projections, horizon, 1) : null;
  return alone.map((series, index): TableForecast => {
    const { projection, probabilities, mean } = series;
    const quantiles =
      pool && projection
        ? projectionQuantiles(projection, probabilities, pool.errors, pool.table, pool.protection)
        : series.quantiles;
    const of = all[index];
    return {
      series: of?.name ?? '',
      method: series.method,
      demandClass: series.demandClass,
      periods: series.periodsUsed,
      backtest: series.backtest,
      sentence: series.sentence,
      ahead: mean.map((value, k) => {
        const at = (probability: number) => {
          const place = probabilities.findIndex((each) => each === probability);
          return plain(quantiles[k]?.[place] ?? value);
        };
        return {
          period: of?.next(k + 1) ?? '',
          ...{ mean: plain(value), low80: at(0.1), high80: at(0.9) },
          ...{ low95: at(0.025), high95: at(0.975) },
        };
      }),
    };
  });
}

/** Three decimals at the most. */
function plain(value: number): number {
  return +value.toFixed(3);
}

/** The same as lines for a person. */
export function forecastLines(forecasts: readonly TableForecast[], unit: string): string[] {
  return forecasts.flatMap(({ series, sentence, ahead }, index) => {
    const head = ['period', 'mean', '80 % from', 'to', '95 % from', 'to'];
    const rows = ahead.map((each) => [
      each.period,
      ...[each.mean, each.low80, each.high80, each.low95, each.high95].map((value) => `${value}`),
    ]);
    const title = series === '' ? sentence : `${series}: ${sentence}`;
    const inUnit = unit === '' ? [] : [`in ${unit}`];
    return [...(index > 0 ? [''] : []), title, ...inUnit, ...columns([head, ...rows])];
  });
}
