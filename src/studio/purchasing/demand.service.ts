/** What the studio uses, from its ledger: histories of products and of developers by strength. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter } from '../../../shared/calendar.js';
import { demandHistory, type PeriodUse } from '../../../shared/ordering/demand-history.js';
import { mondayOf } from '../../../shared/ordering/studio-periods.js';
import type { Forecastable } from '../../../shared/ordering/studio-forecast.js';
import {
  unrecordedUse,
  type CountedShortage,
  type UnrecordedUse,
} from '../../../shared/ordering/unrecorded-use.js';
import { forStudio } from '../../platform/database/transaction.js';
import type { Reader } from '../../platform/database/transaction.js';
import {
  READ_COUNT_DAYS,
  READ_FORECASTABLES,
  READ_MISSING,
  READ_MOMENT,
  READ_MONTHS,
  READ_OPEN_DAYS,
  READ_PERIODS,
} from './demand.queries.js';

/** A product, or all developers of one strength, with its name and history. */
export interface DemandItem extends Forecastable {
  readonly name: string;
  readonly kind: string;
  /** In vol; developers only. */
  readonly strength: string | null;
}

/** The studio's day, and the last movement that everything below has seen. */
export interface DemandMoment {
  readonly today: string;
  readonly timeZone: string;
  readonly currency: string;
  readonly seq: string;
}

/** Weeks that teach how much use varies: a year and a half. */
const WEEKS = 78;
/** Counts and open days are read so many days back. */
const LOOK_BACK_DAYS = 1100;

interface ProductRow {
  id: string;
  name: string;
  kind: string;
  unit: string;
  strength: string | null;
  density: number;
  first_day: string | null;
}

interface UseRow extends PeriodUse {
  product_id: string;
}

@Injectable()
export class DemandService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** Today in the studio, and how far its ledger has come. */
  async moment(studioId: string, now: string): Promise<DemandMoment> {
    const reader = forStudio(this.dataSource, studioId);
    const [row] = await reader.query<{
      today: string;
      time_zone: string;
      currency: string;
      seq: string;
    }>(READ_MOMENT, [now]);
    if (!row) throw new Error(`There is no studio ${studioId}.`);
    return { today: row.today, timeZone: row.time_zone, currency: row.currency, seq: row.seq };
  }

  /** Every product that is kept, with its history up to today. */
  async items(studioId: string, { today }: DemandMoment): Promise<DemandItem[]> {
    const { products, uses, weeks, openDays, counts } = await this.read(studioId, today);
    const weeksFrom = firstWeek(today);
    return products.map((row) => {
      const firstDay = row.first_day ?? today;
      const use = {
        months: uses.get(row.id) ?? [],
        weeks: weeks.get(row.id) ?? [],
        firstDay,
      };
      const notEntered = unrecordedUse(counts.get(row.id) ?? [], firstDay, today);
      return {
        id: row.id,
        name: row.name,
        kind: row.kind,
        unit: row.unit,
        strength: row.strength,
        family: `${row.kind} ${row.unit}`,
        history: demandHistory(use, { today, openDays, weeksFrom }, notEntered),
      };
    });
  }

  /** Developers, all bottles of one strength together, in millilitres; weakest first. */
  async strengths(studioId: string, { today }: DemandMoment): Promise<DemandItem[]> {
    const { products, uses, weeks, openDays, counts } = await this.read(studioId, today);
    const weeksFrom = firstWeek(today);
    const groups = new Map<string, ProductRow[]>();
    for (const row of products) {
      if (row.kind !== 'developer' || row.strength === null) continue;
      groups.set(row.strength, [...(groups.get(row.strength) ?? []), row]);
    }
    const found = [...groups].map(([strength, rows]): DemandItem => {
      const firstDay = earliest(rows.map((row) => row.first_day)) ?? today;
      const use = {
        months: added(rows.map((row) => inMillilitres(uses.get(row.id) ?? [], row))),
        weeks: added(rows.map((row) => inMillilitres(weeks.get(row.id) ?? [], row))),
        firstDay,
      };
      const notEntered = together(
        rows.map((row) => {
          const learned = unrecordedUse(counts.get(row.id) ?? [], row.first_day ?? today, today);
          return { learned, factor: row.unit === 'g' ? 1 / row.density : 1 };
        }),
      );
      const plain = strength.replace(/\.?0+$/, '');
      return {
        id: plain,
        name: `Developer ${plain} vol`,
        kind: 'developer',
        unit: 'ml',
        strength: plain,
        family: 'developer ml',
        history: demandHistory(use, { today, openDays, weeksFrom }, notEntered),
      };
    });
    return found.sort((a, b) => +a.id - +b.id);
  }

  /** Net use by period, product by product, of the days from `from` to `to` (exclusive). */
  async periods(
    studioId: string,
    every: 'day' | 'week' | 'month',
    from: string,
    to: string,
  ): Promise<UseRow[]> {
    return forStudio(this.dataSource, studioId).query<UseRow>(READ_PERIODS, [every, from, to]);
  }

  private async read(studioId: string, today: string) {
    const reader = forStudio(this.dataSource, studioId);
    const since = dayAfter(today, -LOOK_BACK_DAYS);
    const [products, months, weeks, openDays, counts] = await Promise.all([
      reader.query<ProductRow>(READ_FORECASTABLES),
      reader.query<UseRow>(READ_MONTHS),
      reader.query<UseRow>(READ_PERIODS, ['week', firstWeek(today), mondayOf(today)]),
      reader.query<{ month: string; days: number }>(READ_OPEN_DAYS, [since]),
      this.counts(reader, since),
    ]);
    return {
      products,
      uses: byProduct(months),
      weeks: byProduct(weeks),
      openDays: new Map(openDays.map(({ month, days }) => [month, days])),
      counts,
    };
  }

  private async counts(reader: Reader, since: string): Promise<Map<string, CountedShortage[]>> {
    const [missing, days] = await Promise.all([
      reader.query<CountedShortage & { product_id: string }>(READ_MISSING, [since]),
      reader.query<{ product_id: string; day: string }>(READ_COUNT_DAYS, [since]),
    ]);
    const found = byProduct(missing);
    const counted = byProduct(days);
    return new Map(
      [...counted].map(([id, all]) => {
        const sorted = all.map(({ day }) => day).sort();
        return [id, sorted.map((day, k) => shortage(found.get(id) ?? [], sorted, day, k))];
      }),
    );
  }
}

/** What a count found missing, with what late entries before it gave back. */
function shortage(
  found: readonly CountedShortage[],
  days: readonly string[],
  day: string,
  index: number,
): CountedShortage {
  const after = days[index - 1] ?? '';
  const mine = found.filter((each) => each.day > after && each.day <= day);
  return { day, missing: mine.reduce((total, each) => total + each.missing, 0) };
}

function firstWeek(today: string): string {
  return dayAfter(mondayOf(today), -7 * WEEKS);
}

function byProduct<T extends { product_id: string }>(rows: readonly T[]): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const row of rows) {
    const own = found.get(row.product_id);
    if (own) own.push(row);
    else found.set(row.product_id, [row]);
  }
  return found;
}

function inMillilitres(uses: readonly PeriodUse[], { unit, density }: ProductRow): PeriodUse[] {
  return unit === 'g'
    ? uses.map(({ period, quantity }) => ({ period, quantity: quantity / density }))
    : [...uses];
}

function added(all: readonly (readonly PeriodUse[])[]): PeriodUse[] {
  const total = new Map<string, number>();
  for (const { period, quantity } of all.flat()) {
    total.set(period, (total.get(period) ?? 0) + quantity);
  }
  return [...total].sort().map(([period, quantity]) => ({ period, quantity }));
}

function together(all: readonly { learned: UnrecordedUse; factor: number }[]): UnrecordedUse {
  return {
    perDay: all.reduce((a, { learned, factor }) => a + learned.perDay * factor, 0),
    variancePerDay: all.reduce((a, { learned, factor }) => {
      return a + learned.variancePerDay * factor ** 2;
    }, 0),
    counts: all.reduce((a, { learned }) => a + learned.counts, 0),
  };
}

function earliest(days: readonly (string | null)[]): string | null {
  return days.reduce((a, b) => (a === null || (b !== null && b < a) ? b : a), null);
}
