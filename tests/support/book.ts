/** One product's book in memory, as the service keeps it, for laws of any order of entries. */
import type { Decimal } from '../../shared/decimal.js';
import { sum, zero } from '../../shared/decimal.js';
import { settleCount } from '../../shared/moving/counting.js';
import { draw } from '../../shared/moving/drawing.js';
import type { ShelfLevel } from '../../shared/moving/levels.js';
import type { MovementDraft, Place } from '../../shared/moving/movement.js';
import { receive } from '../../shared/moving/receiving.js';
import type { ProductStock } from '../../shared/moving/stock.js';
import { arriving } from './shelf.js';

export interface Arrival {
  kind: 'delivery';
  id: string;
  day: number;
  quantity: Decimal;
  cost: Decimal;
  expires: number | null;
}
export interface Pour {
  kind: 'pour';
  day: number;
  hour: number;
  quantity: Decimal;
}
export interface Count {
  kind: 'count';
  day: number;
  counted: Decimal;
}
export type Entry = Arrival | Pour | Count;

const dayText = (day: number) => `2026-03-0${day}`;
const instant = (day: number, hour: number) => `${dayText(day)}T${hour}:00:00.000Z`;

export type Booked = MovementDraft & { at: string; on: string };

function momentOf({ from, at, on }: Booked): { at: string; on: string } {
  return { on, at: from === 'supplier' ? '' : at };
}

function inTime(a: { at: string; on: string }, b: { at: string; on: string }): number {
  return `${a.on} ${a.at}` < `${b.on} ${b.at}` ? -1 : a.on === b.on && a.at === b.at ? 0 : 1;
}

/** One product's book in memory, as the service keeps it. */
export class Book {
  readonly movements: Booked[] = [];

  constructor(
    public stock: ProductStock,
    private made = 0,
  ) {}

  enter(entry: Entry): void {
    if (entry.kind === 'delivery') this.deliver(entry);
    if (entry.kind === 'pour') this.pour(entry);
    if (entry.kind === 'count') this.count(entry);
  }

  /** Net of every place. */
  at(place: Place, what: 'quantity' | 'value' = 'quantity'): Decimal {
    return sum(
      this.movements.map((movement) => {
        const into = movement.to === place ? movement[what] : zero;
        return movement.from === place ? into.minus(movement[what]) : into;
      }),
    );
  }

  book(movements: readonly MovementDraft[], at: string, stock: ProductStock): void {
    this.stock = stock;
    const when = { at, on: at.slice(0, 10) };
    this.movements.push(...movements.map((each) => ({ ...each, ...(each.happened ?? when) })));
  }

  private deliver(entry: Arrival): void {
    const lot = arriving(entry.id, '1', '1', {
      quantity: entry.quantity,
      cost: entry.cost,
      receivedOn: dayText(entry.day),
      expiresOn: entry.expires === null ? null : dayText(entry.expires),
    });
    const at = instant(entry.day, 12);
    const { stock, movements } = receive(this.stock, lot, at);
    this.book(movements, at, stock);
  }

  private pour(entry: Pour): void {
    const at = instant(entry.day, entry.hour);
    const { stock, movements } = draw(
      { ...this.stock, levels: this.levels(dayText(entry.day)) },
      {
        quantity: entry.quantity,
        to: 'bowl',
        toPour: { bowlId: 'bowl', pourId: `pour${(this.made += 1)}` },
        happenedAt: at,
        day: dayText(entry.day),
      },
    );
    this.book(movements, at, stock);
  }

  private count(entry: Count): void {
    const at = instant(entry.day, 20);
    const { stock, movements } = settleCount(
      { ...this.stock, levels: this.levels(dayText(entry.day)) },
      {
        counted: entry.counted,
        book: this.bookAt(at),
        countedAt: at,
        day: dayText(entry.day),
        taken: [],
        foundLotId: `found${(this.made += 1)}`,
      },
    );
    this.book(movements, at, stock);
  }

  private bookAt(at: string): Decimal {
    return this.net((movement) => movement.at <= at);
  }

  /** Levels at every moment from a day on; deliveries at the start of their day. */
  private levels(since: string): ShelfLevel[] {
    const moments = this.movements.map(momentOf).filter(({ on }) => on >= since);
    const all = [{ on: since, at: '' }, ...moments].sort(inTime);
    return all.map((moment) => ({
      ...moment,
      quantity: this.net((movement) => inTime(momentOf(movement), moment) <= 0),
    }));
  }

  private net(which: (movement: Booked) => boolean): Decimal {
    const own = this.movements.filter(which);
    return sum(
      own.map(({ from, to, quantity }) => {
        const into = to === 'shelf' ? quantity : zero;
        return from === 'shelf' ? into.minus(quantity) : into;
      }),
    );
  }
}
