/** What happens after closing time every second month: a count of the shelf, mistakes mended. */
import { dayAfter } from '../shared/calendar.js';
import { canonical, decimal } from '../shared/decimal.js';
import { millisOf } from '../src/platform/clock.js';
import { instantAt, later, weekday } from './calendar.js';
import type { Catalogue, DemoPerson, DemoProduct } from './catalogue.js';
import type { Chance } from './chance.js';
import type { BowlIsMixed, DeliveryBody, ShelfIsCounted, Slow } from './happenings.js';
import { idAt } from './ids.js';
import type { Shelf } from './shelf.js';

/** What was set aside during the days before. */
export interface SetAside {
  readonly bowls: readonly BowlIsMixed[];
  readonly deliveries: readonly DeliveryBody[];
  /** Bowls recorded today, in which a mistake may be found. */
  readonly today: readonly BowlIsMixed[];
}

/** What is counted on an evening. */
export type Counting = 'all' | 'some';

/** Every second month, after closing time on its last Saturday; all of it twice a year. */
export function eveningOf(day: string): Counting | null {
  const month = parseInt(day.slice(5, 7), 10);
  if (weekday(day) !== 6 || month % 2 === 0) return null;
  if (dayAfter(day, 7).slice(5, 7) === day.slice(5, 7)) return null;
  return month === 1 || month === 7 ? 'all' : 'some';
}

/** True on the days before such an evening, when what is not booked will be booked on it. */
export function isJustBefore(day: string): boolean {
  return [0, 1, 2, 3].some((days) => eveningOf(dayAfter(day, days)) !== null);
}

/** Sundries are counted in whole pieces, the rest to the gram or millilitre. */
const countedOften: ReadonlySet<string> = new Set(['lightener', 'developer']);
/** A brush that was weighed along, in g. */
const brush = 24;

export class Evenings {
  constructor(
    private readonly catalogue: Catalogue,
    private readonly chance: Chance,
    private readonly shelf: Shelf,
  ) {}

  /**
   * The steps of one evening; each is asked for after the one before was booked.
   * @param lookAgain the shelf as it is by then
   */
  async *steps(
    day: string,
    counting: Counting,
    aside: SetAside,
    lookAgain: () => Promise<void>,
  ): AsyncGenerator<Slow> {
    const manager = this.person('manager');
    const at = (minutes: number) => instantAt(day, 19 * 60 + minutes);
    yield* this.mistakes(aside.today, manager, at(10));
    const [early, late] = this.parted(aside.bowls);
    for (const bowl of early) yield comesLate(bowl, at(20));
    for (const body of aside.deliveries) {
      yield { what: 'a delivery comes late', at: at(25), personId: manager.id, body };
    }
    await lookAgain();
    yield this.count(counting, manager, at(35));
    for (const bowl of late) yield comesLate(bowl, at(50));
  }

  private *mistakes(
    today: readonly BowlIsMixed[],
    manager: DemoPerson,
    at: string,
  ): Generator<Slow> {
    const whole = today.filter(({ body }) => !body.settlement.why && body.settlement.leftover);
    if (whole.length === 0) return;
    if (this.chance.happens(0.55)) {
      const { body } = this.chance.one(whole);
      const read = +(body.settlement.leftover?.quantity ?? '0');
      const right = read > brush ? read - brush : Math.max(0, read - 1);
      const anew = {
        id: idAt(millisOf(at), this.chance),
        settledAt: body.settlement.settledAt,
        leftover: { quantity: String(right), unit: 'g' as const },
      };
      const bowlId = body.bowl.id;
      yield { what: 'a settlement is mended', at, personId: manager.id, bowlId, anew };
      return;
    }
    yield* this.anotherProduct(whole, manager, at);
  }

  /** The bottle beside it was taken. */
  private *anotherProduct(
    today: readonly BowlIsMixed[],
    manager: DemoPerson,
    at: string,
  ): Generator<Slow> {
    const { body } = this.chance.one(today);
    const product = (id: string) => this.catalogue.products.find((each) => each.id === id);
    const pour = body.pours.find(({ productId }) => product(productId)?.kind === 'developer');
    const meant = pour && product(pour.productId);
    if (!pour || !meant) return;
    const taken = this.catalogue.products.find(
      ({ id, kind, line }) =>
        kind === 'developer' &&
        line === meant.line &&
        !body.pours.some((other) => other.productId === id) &&
        this.shelf.onHand(id) > 200,
    );
    if (!taken) return;
    yield {
      what: 'a pour was another product',
      at,
      personId: manager.id,
      id: idAt(millisOf(at), this.chance),
      bowlId: body.bowl.id,
      pourId: pour.id,
      productId: taken.id,
    };
  }

  private count(counting: Counting, manager: DemoPerson, at: string): ShelfIsCounted {
    const lines = this.catalogue.products
      .filter(({ kind }) => counting === 'all' || countedOften.has(kind))
      .map((product) => ({
        productId: product.id,
        counted: { quantity: this.found(product), unit: product.unit },
      }));
    const id = idAt(millisOf(at), this.chance);
    return { what: 'the shelf is counted', at, personId: manager.id, id, lines };
  }

  /** A little less than the book says, as a rule: what nobody wrote down. */
  private found(product: DemoProduct): string {
    const book = this.shelf.onHand(product.id);
    const month = this.shelf.usedWeekly(product) * 4.3;
    const unwritten = month * (0.012 + 0.012 * this.chance.scattered());
    const there = Math.max(0, Math.min(book * 1.2, book - unwritten));
    return canonical(decimal(String(Math.round(there))));
  }

  private parted<T>(list: readonly T[]): readonly [T[], T[]] {
    const early = list.filter(() => this.chance.happens(0.5));
    return [early, list.filter((each) => !early.includes(each))];
  }

  private person(role: DemoPerson['role']): DemoPerson {
    return this.catalogue.people.find((each) => each.role === role) as DemoPerson;
  }
}

function comesLate({ body, personId }: BowlIsMixed, at: string): Slow {
  return { what: 'a bowl comes late', at: later(at, 30), personId, body };
}
