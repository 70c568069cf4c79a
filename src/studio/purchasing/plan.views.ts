/** One column of an order plan as it travels: money worked out anew in decimals. */
import type { StockUnit } from '../../../shared/amount.js';
import type {
  PlanColumnView,
  PlanLineView,
  PlanOrderView,
} from '../../../shared/contract/purchasing.js';
import { minorDigits } from '../../../shared/currency.js';
import {
  canonical,
  count,
  decimal,
  fixed,
  sum,
  zero,
  type Decimal,
} from '../../../shared/decimal.js';
import { linesOf, shortOf } from '../../../shared/ordering/plan-lines.js';
import type { PlanNeed } from '../../../shared/ordering/plan-needs.js';
import { priceAt } from '../../../shared/ordering/price-breaks.js';
import { oneIn } from '../../../shared/ordering/words.js';
import { figure } from './forecasts.views.js';
import type { NamedSupplier, PlanItem, PlanMaterial } from './plan-facts.service.js';
import type { SolvedPlan } from './plan-solver.js';

/** One column worked out. */
export interface PlanColumn {
  readonly needs: readonly PlanNeed[];
  readonly solved: SolvedPlan;
  /** Needs could not all be met. */
  readonly short: boolean;
}

interface PricedLine {
  readonly view: PlanLineView;
  readonly cost: Decimal;
  readonly supplier: number;
}

/** The column in words, orders, lines and what remains short. */
export function columnView(
  material: PlanMaterial,
  items: readonly PlanItem[],
  column: PlanColumn,
): PlanColumnView {
  const digits = minorDigits(material.currency);
  const lines = items.flatMap((item, p) => pricedLines(item, p, column, material, digits));
  const orders = material.suppliers.flatMap((supplier, s) => {
    const own = lines.filter((line) => line.supplier === s);
    const days = [...new Set(own.map(({ view }) => view.orderDay))].sort();
    return days.map((day) => orderOf(supplier, day, own, digits));
  });
  const goods = sum(lines.map(({ cost }) => cost));
  const freight = sum(orders.map((order) => decimal(order.freight)));
  const names = new Map(items.map((item) => [item.facts.id, item]));
  const { gap, seconds } = column.solved;
  return {
    words: inWords(column, items),
    goods: fixed(goods, digits),
    freight: fixed(freight, digits),
    total: fixed(goods.plus(freight), digits),
    orders: orders.sort((a, b) => (a.orderDay < b.orderDay ? -1 : 1)),
    lines: lines.map(({ view }) => view),
    short: shortOf(column.needs, column.solved.steps).map(({ productId, missing, ...short }) => ({
      productId,
      name: names.get(productId)?.name ?? '',
      missing: {
        quantity: figure(missing),
        unit: (names.get(productId)?.unit ?? 'g') as StockUnit,
      },
      shortRisk: figure(short.shortRisk, 6),
      words: short.words,
    })),
    proof: { gap: figure(gap, 6), seconds: figure(seconds, 2) },
  };
}

function pricedLines(
  item: PlanItem,
  index: number,
  { needs, solved }: PlanColumn,
  material: PlanMaterial,
  digits: number,
): PricedLine[] {
  const need = needs[index];
  if (!need) return [];
  const supplier = item.facts.supplier;
  const lines = linesOf(need, solved.steps[index] ?? [], item.until, item.unit);
  return lines.map((line): PricedLine => {
    const price = item.prices.get(line.packLabel);
    const each = priceAt(price?.listPrice ?? null, price?.breaks ?? [], line.packs);
    const cost = each === null ? zero : decimal(each).times(count(line.packs));
    const pack = item.terms.packs.find(({ label }) => label === line.packLabel);
    const quantity = decimal(pack?.quantity ?? '0').times(count(line.packs));
    const view: PlanLineView = {
      productId: item.facts.id,
      name: item.name,
      supplierId: material.suppliers[supplier]?.id || null,
      orderDay: item.orderDays[line.day] ?? '',
      packLabel: line.packLabel,
      packs: line.packs,
      packPrice:
        each === null
          ? null
          : fixed(decimal(each), Math.max(digits, decimal(each).decimalPlaces())),
      cost: fixed(cost, digits),
      quantity: { quantity: canonical(quantity), unit: item.unit as StockUnit },
      shortRisk: figure(line.shortRisk, 6),
      why: line.why,
      onePackFewer: { shortRisk: figure(line.oneFewerRisk, 6), words: line.oneFewer },
    };
    return { view, cost, supplier };
  });
}

function orderOf(
  supplier: NamedSupplier,
  day: string,
  lines: readonly PricedLine[],
  digits: number,
): PlanOrderView {
  const own = lines.filter(({ view }) => view.orderDay === day);
  const goods = sum(own.map(({ cost }) => cost));
  const free = supplier.freeFreightFrom;
  const isFree = free !== null && goods.greaterThanOrEqualTo(decimal(free.toFixed(6)));
  const freight = isFree ? zero : decimal(supplier.freight.toFixed(6));
  return {
    supplierId: supplier.id || null,
    supplier: supplier.name,
    orderDay: day,
    goods: fixed(goods, digits),
    freight: fixed(freight, digits),
    words: termsInWords(supplier, isFree, digits),
  };
}

function termsInWords(supplier: NamedSupplier, isFree: boolean, digits: number): string {
  const money = (value: number) => value.toFixed(digits);
  const parts = [
    supplier.minimumOrder > 0 ? `The least order is ${money(supplier.minimumOrder)}.` : '',
    isFree && supplier.freight > 0 ? 'Freight is free from this much on.' : '',
    !isFree && supplier.freight > 0 && supplier.freeFreightFrom !== null
      ? `Freight would be free from ${money(supplier.freeFreightFrom)} on.`
      : '',
  ];
  return parts.filter((part) => part !== '').join(' ');
}

/** How sure the column is, and whether it all fits. */
function inWords({ short, needs, solved }: PlanColumn, items: readonly PlanItem[]): string {
  const levels = items.map(({ facts }) => facts.serviceLevel).sort((a, b) => a - b);
  const usual = levels[Math.floor(levels.length / 2)] ?? 0.95;
  const sure = `Short about one order in ${oneIn(1 - usual)}`;
  const left = shortOf(needs, solved.steps).length;
  if (left === 0) return `${sure}.`;
  const many = left === 1 ? 'one product' : `${left} products`;
  return short
    ? `It does not all fit: ${many} below what was asked for, chosen where it hurts least.`
    : `${sure}; ${many} below that for lack of room or because more would expire.`;
}
