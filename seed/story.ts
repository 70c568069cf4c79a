/** The story of Saltmarsh Row, day after day: the same for the same day of telling. */
import { dayAfter } from '../shared/calendar.js';
import type { ProductStock } from '../shared/moving/stock.js';
import type { MixProduct } from '../shared/mix.js';
import { millisOf } from '../src/platform/clock.js';
import { Mixing } from './bowls.js';
import { busyness, instantAt, openDays, weekday } from './calendar.js';
import { Cards } from './cards.js';
import type { Catalogue, DemoPerson } from './catalogue.js';
import { Chance } from './chance.js';
import { Day, type DayParts } from './day.js';
import { eveningOf, Evenings, isJustBefore } from './evenings.js';
import type {
  BowlIsMixed,
  DeliveryBody,
  LotIsThrownAway,
  ShelfIsOpened,
  Slow,
  Swift,
} from './happenings.js';
import { idAt } from './ids.js';
import { isThere, Plans } from './plans.js';
import { Purchasing } from './purchasing.js';
import { Regulars } from './regulars.js';
import { Shelf } from './shelf.js';

/** Visits of an average day. */
const visitsADay = 4.82;
/** How often, in the days before a count, a bowl is left on paper, or a delivery unbooked. */
const onPaper = 0.06;
const unbooked = 0.5;

export class Story {
  readonly days: readonly string[];
  readonly plans: Plans;
  private readonly shelf: Shelf;
  private readonly purchasing: Purchasing;
  private readonly evenings: Evenings;
  private readonly chance: Chance;
  private readonly parts: DayParts;
  private paper: BowlIsMixed[] = [];
  private putAway: DeliveryBody[] = [];

  /**
   * @param today YYYY-MM-DD
   * @param stockOf a product's shelf as it is when asked for
   */
  constructor(
    readonly catalogue: Catalogue,
    products: readonly MixProduct[],
    today: string,
    stockOf: (productId: string) => ProductStock,
  ) {
    this.days = openDays(today);
    const [first, last] = [this.first, this.last];
    this.chance = new Chance('Saltmarsh Row');
    this.plans = new Plans(products);
    this.shelf = new Shelf(catalogue, stockOf);
    this.purchasing = new Purchasing(catalogue, this.chance.of('orders'), this.shelf, first);
    this.evenings = new Evenings(catalogue, this.chance.of('evenings'), this.shelf);
    const byId = new Map(catalogue.products.map((product) => [product.id, product]));
    const planFor = this.plans.of.bind(this.plans);
    const onHand = this.shelf.onHand.bind(this.shelf);
    this.parts = {
      catalogue,
      last,
      chance: this.chance.of('days'),
      regulars: new Regulars(catalogue, this.chance.of('clients'), first, last),
      mixing: new Mixing(this.chance.of('bowls'), byId, catalogue.vessels, planFor),
      isThere: (variant, grams, spokenFor) =>
        isThere(this.plans.of(variant, Math.ceil(grams / 20) * 20), onHand, spokenFor),
    };
  }

  get first(): string {
    return this.days[0] ?? '';
  }

  get last(): string {
    return this.days[this.days.length - 1] ?? '';
  }

  /** What is on the shelf when it begins. */
  opening(): ShelfIsOpened {
    const at = instantAt(this.first, 8 * 60);
    const chance = this.chance.of('opening');
    const lines = this.catalogue.products.map(({ id, openingPacks, listPrice, keeps }) => {
      const cost = ((listPrice / 1.03 / 1.04) * openingPacks).toFixed(2);
      const days = Math.floor(chance.between(keeps[0], keeps[1]) * 30.4 * 0.8);
      const expires = keeps[0] === 0 ? {} : { expiresOn: dayAfter(this.first, days) };
      return { productId: id, packs: openingPacks, cost, ...expires };
    });
    const id = idAt(millisOf(at), chance);
    return { what: 'the shelf is opened', at, personId: this.owner.id, id, lines };
  }

  /** What is written down during a day, in that order. */
  day(day: string): Swift[] {
    if (weekday(day) === 2) this.shelf.weekIsOver();
    const busy = busyness(day, this.first, this.last);
    const mean = visitsADay * busy;
    const visits = Math.max(2, Math.round(mean + 0.8 * Math.sqrt(mean) * this.scatter()));
    const all = new Day(this.parts, day).happenings(Math.min(visits, 14));
    this.shelf.learn(all);
    const bowls = isJustBefore(day) ? all.filter((each) => this.isBooked(each)) : all;
    const told = [...this.thrownAway(day), ...this.delivered(day), ...bowls];
    this.purchasing.order(day);
    return told.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  }

  /** What is done after closing time, if somebody stays: asked for one after the other. */
  evening(
    day: string,
    booked: readonly Swift[],
    lookAgain: () => Promise<void>,
  ): AsyncIterable<Slow> | undefined {
    const counting = eveningOf(day);
    if (counting === null) return undefined;
    const today = booked.filter((each): each is BowlIsMixed => each.what === 'a bowl is mixed');
    const aside = { bowls: this.paper, deliveries: this.putAway, today };
    this.paper = [];
    this.putAway = [];
    return this.evenings.steps(day, counting, aside, lookAgain);
  }

  private scatter(): number {
    return this.parts.chance.scattered();
  }

  private isBooked(happening: Swift): boolean {
    if (happening.what !== 'a bowl is mixed' || !this.chance.happens(onPaper)) return true;
    this.paper.push(happening);
    return false;
  }

  private delivered(day: string): Swift[] {
    const arrived = this.purchasing.arrivals(day);
    const soon = isJustBefore(day);
    const aside = arrived.filter(() => soon && this.chance.happens(unbooked));
    this.putAway.push(...aside.map(({ body }) => body));
    return arrived
      .filter((each) => !aside.includes(each))
      .map(({ at, body }) => ({
        what: 'a delivery arrives',
        at,
        personId: this.owner.id,
        body,
      }));
  }

  /** Looked through on the first working day of a month. */
  private thrownAway(day: string): LotIsThrownAway[] {
    const before = this.days[this.days.indexOf(day) - 1];
    if (before === undefined || before.slice(0, 7) === day.slice(0, 7)) return [];
    const at = instantAt(day, 8 * 60 + 40);
    return this.catalogue.products.flatMap(({ id: productId, unit }) =>
      this.shelf.expired(productId, day).map((lot): LotIsThrownAway => ({
        what: 'a lot is thrown away',
        at,
        personId: this.owner.id,
        id: idAt(millisOf(at), this.chance),
        why: 'expired',
        lotId: lot.id,
        line: { productId, quantity: lot.quantity.toFixed(), unit },
      })),
    );
  }

  /** What stands on the clients' cards by now. */
  cards(): Cards {
    return new Cards(this.parts.regulars, this.catalogue.people, this.chance.of('cards'));
  }

  private get owner(): DemoPerson {
    return this.catalogue.people.find(({ role }) => role === 'owner') as DemoPerson;
  }
}
