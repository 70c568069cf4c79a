/** What the studio uses, from its ledger: histories of products and of developers by strength. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter } from '../../../shared/calendar.js';
import {
  demandHistory,
  type DemandHistory,
  type PeriodUse,
  type StudioCalendar,
} from '../../../shared/ordering/demand-history.js';
import { mondayOf } from '../../../shared/ordering/studio-periods.js';
import type { Forecastable } from '../../../shared/ordering/studio-forecast.js';
import { unrecordedUse, type CountedShortage } from '../../../shared/ordering/unrecorded-use.js';
import { forStudio } from '../../platform/database/transaction.js';
import type { Reader } from '../../platform/database/transaction.js';
import {
  added,
  byProduct,
  earliest,
  millilitresOf,
  partsOf,
  together,
  type MarkRow,
  type Part,
  type ProductRow,
  type ReplacementRow,
} from './demand-facts.js';
import {
  READ_CLOSED_DAYS,
  READ_COUNT_DAYS,
  READ_FORECASTABLES,
  READ_MARKS,
  READ_MISSING,
  READ_MOMENT,
  READ_MONTHS,
  READ_OPEN_DAYS,
  READ_PERIODS,
  READ_REPLACEMENTS,
  READ_WEEKDAYS,
} from './demand.queries.js';

/** A product, or all developers of one strength, with its name and history. */
export interface DemandItem extends Forecastable {
  readonly name: string;
  readonly kind: string;
  /** In vol; developers only. */
  readonly strength: string | null;
  /** The product and what it replaced, or the bottles of a strength. */
  readonly parts: readonly Part[];
}

/** The studio's day, and the last movement that everything below has seen. */
export interface DemandMoment {
  readonly today: string;
  readonly timeZone: string;
  readonly currency: string;
  readonly seq: string;
  /** Changes with what people mark: out of stock, replaced. */
  readonly marks: string;
}

/** Weeks that teach how much use varies: a year and a half. */
const WEEKS = 78;
/** Counts and open days are read so many days back. */
const LOOK_BACK_DAYS = 1100;
/** The usual days of the week are those of the last half year. */
const WORKED = 183;

interface UseRow extends PeriodUse {
  product_id: string;
}

interface DemandFacts {
  readonly products: ReadonlyMap<string, ProductRow>;
  readonly uses: ReadonlyMap<string, readonly UseRow[]>;
  readonly weeks: ReadonlyMap<string, readonly UseRow[]>;
  readonly counts: ReadonlyMap<string, readonly CountedShortage[]>;
  readonly marks: ReadonlyMap<string, readonly MarkRow[]>;
  readonly replaced: ReadonlyMap<string, ReplacementRow>;
  readonly calendar: StudioCalendar;
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
      marks: string;
    }>(READ_MOMENT, [now]);
    if (!row) throw new Error(`There is no studio ${studioId}.`);
    const { today, time_zone: timeZone, currency, seq, marks } = row;
    return { today, timeZone, currency, seq, marks };
  }

  /** Every product that is kept and not replaced, with its history up to today. */
  async items(studioId: string, { today }: DemandMoment): Promise<DemandItem[]> {
    const facts = await this.read(studioId, today);
    const gone = new Set([...facts.replaced.values()].map(({ replaces_id }) => replaces_id));
    return [...facts.products.values()]
      .filter(({ id, retired }) => !retired && !gone.has(id))
      .map((row): DemandItem => {
        const parts = partsOf(row, facts.products, facts.replaced);
        const { id, name, kind, unit, strength } = row;
        const family = `${kind} ${unit}`;
        const shape = { id, name, kind, unit, strength, family, parts };
        return { ...shape, history: historyOf(parts, facts, today) };
      });
  }

  /** Developers, all bottles of one strength together, in millilitres; weakest first. */
  async strengths(studioId: string, { today }: DemandMoment): Promise<DemandItem[]> {
    const facts = await this.read(studioId, today);
    const groups = new Map<string, Part[]>();
    for (const row of facts.products.values()) {
      if (row.kind !== 'developer' || row.strength === null || row.retired) continue;
      const parts = partsOf(row, facts.products, facts.replaced).map((part) => {
        return { ...part, factor: part.factor * millilitresOf(row) };
      });
      groups.set(row.strength, [...(groups.get(row.strength) ?? []), ...parts]);
    }
    const found = [...groups].map(([strength, parts]): DemandItem => {
      const plain = strength.replace(/\.?0+$/, '');
      const named = { id: plain, name: `Developer ${plain} vol`, kind: 'developer' };
      const shape = { ...named, unit: 'ml', strength: plain, family: 'developer ml', parts };
      return { ...shape, history: historyOf(parts, facts, today) };
    });
    return found.sort((x, y) => +x.id - +y.id);
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

  private async read(studioId: string, today: string): Promise<DemandFacts> {
    const reader = forStudio(this.dataSource, studioId);
    const since = dayAfter(today, -LOOK_BACK_DAYS);
    const [products, months, weeks, openDays, counts, closed, weekdays, marks, replaced] =
      await Promise.all([
        reader.query<ProductRow & Record<string, unknown>>(READ_FORECASTABLES),
        reader.query<UseRow>(READ_MONTHS),
        reader.query<UseRow>(READ_PERIODS, ['week', firstWeek(today), mondayOf(today)]),
        reader.query<{ month: string; days: number }>(READ_OPEN_DAYS, [since]),
        this.counts(reader, since),
        reader.query<{ day: string }>(READ_CLOSED_DAYS, [since]),
        reader.query<{ weekday: number; days: number }>(READ_WEEKDAYS, [dayAfter(today, -WORKED)]),
        reader.query<MarkRow & Record<string, unknown>>(READ_MARKS),
        reader.query<ReplacementRow & Record<string, unknown>>(READ_REPLACEMENTS),
      ]);
    return {
      products: new Map(products.map((row) => [row.id, row])),
      uses: byProduct(months),
      weeks: byProduct(weeks),
      counts,
      marks: byProduct(marks),
      replaced: new Map(replaced.map((row) => [row.product_id, row])),
      calendar: {
        ...{ today, weeksFrom: firstWeek(today) },
        openDays: new Map(openDays.map(({ month, days }) => [month, days])),
        closed: new Set(closed.map(({ day }) => day)),
        weekdays: workedDays(weekdays),
      },
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

/** Days of the week with use on at least a quarter as many days as the busiest; else all. */
function workedDays(rows: readonly { weekday: number; days: number }[]): Set<number> {
  const most = Math.max(0, ...rows.map(({ days }) => days));
  const worked = rows.filter(({ days }) => 4 * days >= most).map(({ weekday }) => weekday);
  return new Set(worked.length > 0 ? worked : [1, 2, 3, 4, 5, 6, 7]);
}

/** History of all parts together; marks of the first one, which is the product itself. */
function historyOf(parts: readonly Part[], facts: DemandFacts, today: string): DemandHistory {
  const firstDay = earliest(parts.map(({ row }) => row.first_day)) ?? today;
  const notEntered = together(
    parts.map(({ row, factor }) => {
      const counts = facts.counts.get(row.id) ?? [];
      return { learned: unrecordedUse(counts, row.first_day ?? today, today), factor };
    }),
  );
  const use = {
    ...{ months: added(parts, facts.uses), weeks: added(parts, facts.weeks), firstDay },
    outOfStock: facts.marks.get(parts[0]?.row.id ?? '') ?? [],
  };
  return demandHistory(use, facts.calendar, notEntered);
}
