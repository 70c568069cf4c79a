/** A product's forecast with what is booked and the days on which the studio is closed. */
import { dayAfter } from '../calendar.js';
import type { ServiceOutlook } from './booked-visits.js';
import { outlookOf } from './booking-outlook.js';
import { DAYS_KNOWN, daysAhead, openDaysUse, type DaysAhead } from './days-ahead.js';
import { meanOverDays, type MonthAhead, type ProductForecast } from './studio-forecast.js';
import { daysOfMonth } from './studio-periods.js';
import type { VisitUse } from './use-per-visit.js';

/** What is known of the days to come, the same for all products. */
export interface DiaryAhead {
  readonly today: string;
  readonly services: ReadonlyMap<string, ServiceOutlook>;
  readonly isClosed: (day: string) => boolean;
}

/** What a product's past visits used. */
export interface ProductVisits {
  readonly visits: readonly VisitUse[];
  /** Part of all its use that went into visits, 0 to 1. */
  readonly share: number;
}

/** Fewer weeks do not tell how much a week's use varies. */
const FEWEST_WEEKS = 9;
const WEEKS = 26;
const DAYS_OF_MONTH = 30.4;
/** 10 % and 90 % of a normal distribution are so many deviations apart. */
const BETWEEN = 2.563;
const GROWTH = 1.5;

/** The forecast with its days ahead and its months changed by them. */
export function withBookings(
  forecast: ProductForecast,
  diary: DiaryAhead,
  of: ProductVisits,
): ProductForecast {
  const { today, services, isClosed } = diary;
  const upTo = Array.from({ length: DAYS_KNOWN + 1 }, (_, day) =>
    meanOverDays(forecast, today, day),
  );
  const usual = upTo.slice(1).map((total, day) => total - (upTo[day] ?? 0));
  const open = openDaysUse(usual, today, isClosed);
  const weeks = open.flatMap((_, day) => {
    if (day % 7 !== 0) return [];
    const mean = open.slice(day, day + 7).reduce((a, b) => a + b, 0);
    return [{ mean, variance: weekVariance(forecast, mean) }];
  });
  const isBooked = [...services.values()].some(({ booked }) => booked.some((many) => many > 0));
  const known =
    isBooked && of.share > 0 ? outlookOf({ weeks }, services, of.visits, of.share, today) : [];
  const ahead = daysAhead(usual, open, known);
  const months = forecast.months.map((month) => withDays(month, ahead, today));
  return { ...forecast, months, ahead };
}

/** Variance of a week's use, from past weeks, scaled to the mean of the week ahead. */
function weekVariance({ of, months }: ProductForecast, mean: number): number {
  const weeks = of.history.weeks.slice(-WEEKS);
  if (weeks.length >= FEWEST_WEEKS) {
    const past = weeks.reduce((a, b) => a + b, 0) / weeks.length;
    const squares = weeks.reduce((a, b) => a + (b - past) ** 2, 0);
    const scale = past > 0 && mean > 0 ? (mean / past) ** GROWTH : 1;
    return (squares / (weeks.length - 1)) * scale;
  }
  const first = months[0];
  const band = (first?.quantiles[4] ?? 0) - (first?.quantiles[1] ?? 0);
  return ((band / BETWEEN) ** 2 * 7) / DAYS_OF_MONTH;
}

function withDays(month: MonthAhead, ahead: DaysAhead, today: string): MonthAhead {
  if (ahead.weeks.length === 0) return month;
  const days = daysOfMonth(month.month);
  const booked = { visits: 0, use: 0, more: 0 };
  let spread = days;
  ahead.byDiary.forEach((more, day) => {
    if (dayAfter(today, day).slice(0, 7) !== month.month) return;
    const week = ahead.weeks[Math.floor(day / 7)];
    booked.more += more;
    booked.use += (week?.bookedUse ?? 0) / 7;
    booked.visits += (week?.bookings ?? 0) / 7;
    spread += (ahead.spread[day] ?? 1) - 1;
  });
  const mean = Math.max(0, month.mean + booked.more);
  const wider = Math.sqrt(spread / days);
  return {
    ...month,
    mean,
    booked: { ...booked, more: mean - month.mean },
    quantiles: month.quantiles.map((each) => Math.max(0, mean + (each - month.mean) * wider)),
  };
}
