/** Who orders what and when it comes: whole packs, on the supplier's day, now and then late. */
import { dayAfter } from '../shared/calendar.js';
import { count, decimal, fixed, sum, zero } from '../shared/decimal.js';
import { millisOf } from '../src/platform/clock.js';
import { instantAt, openFrom, weekday, yearsSince } from './calendar.js';
import type { Catalogue, DemoProduct, DemoSupplier } from './catalogue.js';
import type { Chance } from './chance.js';
import type { DeliveryBody } from './happenings.js';
import { idAt } from './ids.js';
import type { Shelf } from './shelf.js';

/** Packs under way. */
interface Ordered {
  readonly supplier: DemoSupplier;
  readonly orderedOn: string;
  readonly arrives: string;
  readonly lines: readonly { readonly product: DemoProduct; readonly packs: number }[];
}

/** What arrived, and at what time of the day. */
export interface Arrived {
  readonly at: string;
  readonly body: DeliveryBody;
}

/** Days that a usual order has to last beside the lead time, and what is kept for surprises. */
const reviewDays = 9;
const coverDays = 24;
const spareShare = 0.45;

export class Purchasing {
  private underWay: Ordered[] = [];
  private invoices = 0;

  constructor(
    private readonly catalogue: Catalogue,
    private readonly chance: Chance,
    private readonly shelf: Shelf,
    private readonly first: string,
  ) {}

  /** On the supplier's day: what has fallen low, in whole packs, if it makes an order. */
  order(day: string): void {
    for (const supplier of this.catalogue.suppliers) {
      if (weekday(day) !== supplier.orderDay) continue;
      const lines = this.catalogue.products
        .filter((product) => product.supplier === supplier.name)
        .map((product) => ({ product, packs: this.packsFor(product, supplier) }))
        .filter(({ packs }) => packs > 0);
      const worth = lines.reduce((all, { product, packs }) => all + product.listPrice * packs, 0);
      const urgent = lines.some(
        ({ product }) => this.shelf.onHand(product.id) < product.packHolds / 4,
      );
      if (worth >= supplier.minimum || (urgent && worth > 0)) {
        const arrives = openFrom(dayAfter(day, this.daysUnderWay(supplier)));
        this.underWay.push({ supplier, orderedOn: day, arrives, lines });
      }
    }
  }

  /** What comes in today. */
  arrivals(day: string): Arrived[] {
    const today = this.underWay.filter(({ arrives }) => arrives <= day);
    this.underWay = this.underWay.filter(({ arrives }) => arrives > day);
    return today.map((order) => ({
      at: instantAt(day, this.chance.whole(600, 690), this.chance.whole(0, 59)),
      body: this.delivery(order, day),
    }));
  }

  private packsFor(product: DemoProduct, { leadDays }: DemoSupplier): number {
    const daily = this.shelf.usedWeekly(product) / 7;
    const comes = this.underWay
      .flatMap(({ lines }) => lines)
      .filter((line) => line.product === product)
      .reduce((packs, line) => packs + line.packs, 0);
    const there = this.shelf.onHand(product.id) + comes * product.packHolds;
    const point = daily * (leadDays + reviewDays) * (1 + spareShare);
    if (there > Math.max(point, product.packHolds * 0.75)) return 0;
    const wanted = point + daily * coverDays - there;
    return Math.max(1, Math.ceil(wanted / product.packHolds));
  }

  private daysUnderWay({ leadDays }: DemoSupplier): number {
    const dice = this.chance.next();
    if (dice < 0.72) return leadDays;
    if (dice < 0.92) return leadDays + this.chance.whole(1, 2);
    return leadDays + this.chance.whole(4, 9);
  }

  private delivery({ supplier, orderedOn, lines }: Ordered, day: string): DeliveryBody {
    this.invoices += 1;
    const made = lines.map((line) => this.line(line, day));
    const goods = sum(made.map(({ packPrice, packs }) => decimal(packPrice).times(count(packs))));
    const pays = goods.lessThan(decimal(String(supplier.freeFreightFrom)));
    const much = goods.greaterThan(count(420)) && this.chance.happens(0.5);
    return {
      id: idAt(millisOf(instantAt(day, 600)), this.chance),
      supplierId: supplier.id,
      orderedOn,
      deliveredOn: day,
      invoiceNo: `${supplier.name.slice(0, 1)}-${4100 + this.invoices * 3}`,
      freight: fixed(pays ? decimal(String(supplier.freight)) : zero, 2),
      ...(much ? { discount: fixed(goods.times(decimal('0.03')), 2) } : {}),
      lines: made,
    };
  }

  private line({ product, packs }: Ordered['lines'][number], day: string) {
    const [from, to] = product.keeps;
    const keeps =
      from === 0 ? null : dayAfter(day, Math.floor(this.chance.between(from, to) * 30.4));
    const free = product.kind === 'toner' && packs >= 6 && this.chance.happens(0.4);
    return {
      productId: product.id,
      packs,
      ...(free ? { freePacks: 1 } : {}),
      packLabel: product.pack,
      packPrice: this.priceOn(product, day),
      ...(keeps === null ? {} : { expiresOn: keeps }),
      lotCode: [
        ...[product.supplier.slice(0, 1), day.slice(2, 4), day.slice(5, 7)],
        this.chance.whole(100, 999),
      ].join(''),
    };
  }

  /** Suppliers raised their prices twice; today's are those of the price list. */
  private priceOn({ listPrice }: DemoProduct, day: string): string {
    const years = yearsSince(this.first, day);
    const rises = [years < 2 ? 1.03 : 1, years < 1.1 ? 1.04 : 1];
    return rises.reduce((price, rise) => price / rise, listPrice).toFixed(2);
  }
}
