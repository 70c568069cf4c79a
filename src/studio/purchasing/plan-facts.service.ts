/** Gathers what an order plan is worked out from: demand, shelf, prices, suppliers, their days. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter, daysBetween } from '../../../shared/calendar.js';
import { demandLeftOver } from '../../../shared/forecasting/demand-distribution.js';
import { IntervalDemand } from '../../../shared/ordering/interval-demand.js';
import type { OrderablePack, PlanFacts } from '../../../shared/ordering/plan-needs.js';
import type { PlanSupplier } from '../../../shared/ordering/plan-problem.js';
import { meanOverDays } from '../../../shared/ordering/studio-forecast.js';
import { nextWeekday } from '../../../shared/ordering/studio-periods.js';
import { forStudio } from '../../platform/database/transaction.js';
import { ForecastsService, type ItemForecast } from './forecasts.service.js';
import { READ_BREAKS, READ_PLAN_STOCK, READ_SUPPLIERS } from './plan.queries.js';
import { PoliciesService, type PackTerms, type ProductTerms } from './policies.service.js';

/** A product of the plan with what is shown of it. */
export interface PlanItem {
  readonly facts: PlanFacts;
  readonly name: string;
  readonly unit: string;
  readonly terms: ProductTerms;
  /** Order days, and the day that each of them covers, YYYY-MM-DD. */
  readonly orderDays: readonly string[];
  readonly until: readonly string[];
  /** Price of each pack by the list, else as delivered last; decimal text. */
  readonly prices: ReadonlyMap<string, PackPrice>;
}

export interface PackPrice {
  readonly listPrice: string | null;
  readonly breaks: readonly { readonly fromPacks: number; readonly packPrice: string }[];
}

export interface NamedSupplier extends PlanSupplier {
  readonly name: string | null;
}

/** Everything a plan needs. */
export interface PlanMaterial {
  readonly today: string;
  readonly currency: string;
  readonly items: readonly PlanItem[];
  readonly suppliers: readonly NamedSupplier[];
  /** Products that are used and cannot be ordered, and why. */
  readonly leftOut: readonly { readonly productId: string; readonly words: string }[];
}

interface StockRow {
  id: string;
  lots: { quantity: number; expiresOn: string | null }[];
  on_order: number;
  life_days: number | null;
  last_prices: Record<string, string> | null;
  most_packs: number | null;
}

interface SupplierRow {
  id: string;
  name: string;
  minimum_order: string | null;
  freight: string | null;
  free_freight_from: string | null;
}

const nobody: NamedSupplier = {
  ...{ id: '', name: null, minimumOrder: 0, freight: 0, freeFreightFrom: null },
};

@Injectable()
export class PlanFactsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(ForecastsService) private readonly forecasts: ForecastsService,
    @Inject(PoliciesService) private readonly policies: PoliciesService,
  ) {}

  async material(studioId: string, now: string, orderDays: number): Promise<PlanMaterial> {
    const reader = forStudio(this.dataSource, studioId);
    const [{ items, moment }, terms, stock, breaks, rows] = await Promise.all([
      this.forecasts.all(studioId, now),
      this.policies.terms(studioId),
      reader.query<StockRow & Record<string, unknown>>(READ_PLAN_STOCK),
      reader.query<{ pack_id: string; from_packs: number; pack_price: string }>(READ_BREAKS),
      reader.query<SupplierRow & Record<string, unknown>>(READ_SUPPLIERS),
    ]);
    const suppliers = [nobody, ...rows.map(namedSupplier)];
    const stocks = new Map(stock.map((row) => [row.id, row]));
    const demand = new IntervalDemand(items, moment.today);
    const leftOut: { productId: string; words: string }[] = [];
    const planned = items.flatMap((item, index): PlanItem[] => {
      const of = terms.get(item.of.id);
      const shelf = stocks.get(item.of.id);
      if (!of || !shelf) return [];
      if (of.packs.length === 0) {
        const words = `${item.of.name} has no pack, so it cannot be planned. Enter its packs.`;
        if (isWanted(item, of)) leftOut.push({ productId: item.of.id, words });
        return [];
      }
      const prices = pricesOf(of.packs, shelf, breaks);
      const supplier = Math.max(
        0,
        suppliers.findIndex(({ id }) => id === (of.supplierId ?? '')),
      );
      const days = orderDaysOf(of, moment.today, orderDays);
      const facts = factsOf({ item, index, of, shelf, demand, days, today: moment.today });
      return [
        {
          ...{ name: item.of.name, unit: item.of.unit, terms: of, prices },
          ...{ orderDays: days.slice(0, orderDays), until: coveredUntil(of, days) },
          facts: { ...facts, supplier, packs: orderable(of.packs, prices) },
        },
      ];
    });
    const { today, currency } = moment;
    return { today, currency, items: planned, suppliers, leftOut };
  }
}

function isWanted(item: ItemForecast, of: ProductTerms): boolean {
  return (item.months[0]?.mean ?? 0) > 0 || of.keepSealed !== null || of.typedPoint !== null;
}

function namedSupplier(row: SupplierRow): NamedSupplier {
  return {
    ...{ id: row.id, name: row.name },
    minimumOrder: +(row.minimum_order ?? 0),
    freight: +(row.freight ?? 0),
    freeFreightFrom: row.free_freight_from === null ? null : +row.free_freight_from,
  };
}

/** The order days asked for and the one after them: on the supplier's day, else from today on. */
function orderDaysOf(of: ProductTerms, today: string, count: number): string[] {
  const first = of.orderDay === null ? today : nextWeekday(today, of.orderDay);
  return Array.from({ length: count + 1 }, (_, k) => dayAfter(first, k * of.reviewDays));
}

/** What is ordered on the next order day is there then. */
function coveredUntil(of: ProductTerms, days: readonly string[]): string[] {
  return days.slice(1).map((day) => dayAfter(day, Math.ceil(of.leadTime.days)));
}

function pricesOf(
  packs: readonly PackTerms[],
  shelf: StockRow,
  breaks: readonly { pack_id: string; from_packs: number; pack_price: string }[],
): Map<string, PackPrice> {
  return new Map(
    packs.map(({ id, label, listPrice }) => [
      label,
      {
        listPrice: listPrice ?? shelf.last_prices?.[label] ?? null,
        breaks: breaks
          .filter(({ pack_id }) => pack_id === id)
          .map(({ from_packs, pack_price }) => ({ fromPacks: from_packs, packPrice: pack_price })),
      },
    ]),
  );
}

function orderable(
  packs: readonly PackTerms[],
  prices: ReadonlyMap<string, PackPrice>,
): OrderablePack[] {
  return packs.map(({ label, quantity }) => {
    const price = prices.get(label);
    const later = (price?.breaks ?? []).map(({ fromPacks, packPrice }) => {
      return { least: fromPacks, price: +packPrice };
    });
    const tiers = [{ least: 1, price: +(price?.listPrice ?? 0) }, ...later];
    return { label, quantity: +quantity, tiers };
  });
}

interface Gathered {
  readonly item: ItemForecast;
  readonly index: number;
  readonly of: ProductTerms;
  readonly shelf: StockRow;
  readonly demand: IntervalDemand;
  readonly days: readonly string[];
  readonly today: string;
}

function factsOf(known: Gathered): Omit<PlanFacts, 'supplier' | 'packs'> {
  const { item, index, of, shelf, demand, days, today } = known;
  const lead = of.leadTime;
  const ahead = days.map((day) => daysBetween(today, day));
  const demands = ahead.slice(1).map((next) => {
    return demand.over(index, next + lead.days, lead.variance);
  });
  const weeks = item.of.history.weeks.filter((use) => use > 0);
  const first = demands[0];
  const perDay = (first?.mean ?? 0) / ((ahead[1] ?? 1) + lead.days);
  const perWeek = weeks.length > 0 ? weeks.reduce((a, b) => a + b, 0) / weeks.length : perDay * 7;
  const life = shelf.life_days;
  return {
    id: item.of.id,
    serviceLevel: of.serviceLevel,
    keepSealed: of.keepSealed,
    typedPoint: of.typedPoint === null ? null : +of.typedPoint,
    position: usable(known, daysBetween(today, dayAfter(days[1] ?? today, lead.days))),
    demands,
    before: ahead.slice(0, -1).map((until) => meanOverDays(item, today, until)),
    ...{ perDay, perWeek, mostPacks: shelf.most_packs },
    lifeDemand: life === null ? null : demand.over(index, (ahead[0] ?? 0) + lead.days + life, 0),
  };
}

/**
 * What is on the shelf and not expired, and what is on order, less what is expected to expire
 * before the next order is there: the first to expire is used first, so of all that expires by a
 * day, what use until then leaves over is lost (after Broekmeulen & van Donselaar 2009).
 */
function usable({ shelf, demand, index, today }: Gathered, days: number): number {
  const lots = shelf.lots.filter(({ expiresOn }) => expiresOn === null || expiresOn >= today);
  const held = lots.reduce((total, { quantity }) => total + quantity, 0);
  let expiring = 0;
  let lost = 0;
  for (const { quantity, expiresOn } of lots) {
    expiring += quantity;
    const left = expiresOn === null ? Infinity : daysBetween(today, expiresOn) + 1;
    if (left > days) break;
    const use = demand.over(index, left, 0);
    lost = Math.max(lost, demandLeftOver(expiring, use));
  }
  return Math.max(0, held - Math.min(held, lost)) + shelf.on_order;
}
