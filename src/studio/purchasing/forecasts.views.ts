/** Forecasts as they travel: float64 ends here, text of three decimals begins. */
import { canonical, decimal } from '../../../shared/decimal.js';
import type { StockUnit } from '../../../shared/amount.js';
import type { ForecastMonthView, ForecastView } from '../../../shared/contract/purchasing.js';
import { PROBABILITIES } from '../../../shared/forecasting/studio-pool.js';
import type { MonthAhead } from '../../../shared/ordering/studio-forecast.js';
import { monthAfter } from '../../../shared/ordering/studio-periods.js';
import type { ItemForecast } from './forecasts.service.js';

/** A worked-out figure with at most three decimals (the nearest; ties as float64 has them). */
export function figure(value: number, places = 3): string {
  return canonical(decimal(Math.max(0, value).toFixed(places)));
}

/** One product's forecast of the first `horizon` months. */
export function forecastView(forecast: ItemForecast, horizon: number): ForecastView {
  const { of, series, months } = forecast;
  const { backtest } = series;
  const history = of.history.months.map((quantity, index) => ({
    month: monthAfter(of.history.firstMonth, index),
    quantity: figure(quantity),
  }));
  return {
    ...(of.id === of.strength ? {} : { productId: of.id }),
    name: of.name,
    kind: of.kind,
    strength: of.strength === null ? null : canonical(decimal(of.strength)),
    unit: of.unit as StockUnit,
    method: series.method,
    demandClass: series.demandClass,
    monthsUsed: series.periodsUsed,
    usedThisMonth: figure(of.history.usedThisMonth),
    months: months.slice(0, horizon).map((month, ahead) => monthView(month, ahead === 0)),
    backtest: backtest && {
      kind: backtest.kind,
      error: figure(backtest.error),
      naive: figure(backtest.naive),
      forecasts: backtest.forecasts,
    },
    sentence: sentenceOf(forecast),
    history,
  };
}

function monthView(month: MonthAhead, running: boolean): ForecastMonthView {
  const at = (index: number) => figure(month.quantiles[index] ?? month.mean);
  return {
    month: month.month,
    running,
    mean: figure(month.mean),
    notEntered: figure(month.notEntered),
    ...(month.booked
      ? { booked: { visits: figure(month.booked.visits, 0), use: figure(month.booked.use) } }
      : {}),
    low80: at(1),
    high80: at(4),
    low95: at(0),
    high95: at(6),
    quantiles: PROBABILITIES.map((p, index) => ({ p: `${p}`, quantity: at(index) })),
  };
}

/** The method's own sentence, and what counts, replaced products and the diary add to it. */
function sentenceOf(forecast: ItemForecast): string {
  return [
    forecast.series.sentence,
    notEnteredWords(forecast),
    replacedWords(forecast),
    bookedWords(forecast),
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

function notEnteredWords({ of }: ItemForecast): string {
  const { perDay, counts } = of.history.notEntered;
  if (perDay <= 0) return '';
  const many = counts === 1 ? 'One count' : `${counts} counts`;
  const month = figure(perDay * 30.4, perDay * 30.4 < 10 ? 1 : 0);
  return (
    `${many} of the last six months found less than was entered: about ` +
    `${month} ${of.unit} a month are added for it.`
  );
}

function replacedWords({ of }: ItemForecast): string {
  if (of.id === of.strength) return '';
  const replaced = of.parts.slice(1).map(({ row, factor }) => {
    return factor === 1 ? row.name : `${row.name} (times ${figure(factor)})`;
  });
  return replaced.length === 0 ? '' : `Use of ${replaced.join(', ')}, which it replaced, counts.`;
}

function bookedWords({ of, ahead }: ItemForecast): string {
  const weeks = ahead?.weeks ?? [];
  const visits = weeks.reduce((sum, { bookings }) => sum + bookings, 0);
  if (visits === 0) return '';
  const use = figure(
    weeks.reduce((sum, { bookedUse }) => sum + bookedUse, 0),
    0,
  );
  const many = visits === 1 ? 'One booked visit' : `${visits} booked visits`;
  const share = figure(100 * (weeks[0]?.weight ?? 0), 0);
  return (
    `${many} of the next ${weeks.length} weeks ${visits === 1 ? 'uses' : 'use'} it, about ` +
    `${use} ${of.unit}; the diary decides ${share} % of the next seven days.`
  );
}
