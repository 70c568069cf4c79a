/** Published costing by FIFO and by moving average, against shared/costing.ts. */
import { drawLots, type CostingMethod, type LotBalance } from '../../../shared/costing.js';
import { sum, zero, type Decimal } from '../../../shared/decimal.js';
import { asFigure } from './inputs.js';
import { NotYetSupported, type Answer, type Got, type Topic } from './topic.js';
import { isFields, type ValueRow } from './value-row.js';

interface Event {
  readonly kind: 'in' | 'out';
  readonly quantity: Decimal;
  /** Cost of one when it comes in, price of one when it goes out. */
  readonly each: Decimal | undefined;
}

const comesIn =
  /^(open|opening|begin|beginning|start|inventory|buy|bought|purchase|receive|receipt|in)/i;
const goesOut = /^(sale|sell|sold|issue|use|draw|out)/i;

function eventOf(event: unknown): Event {
  const fields: unknown[] = isFields(event)
    ? [
        event['type'] ?? event['kind'] ?? event['event'],
        event['quantity'] ?? event['qty'] ?? event['units'],
        event['unit_cost'] ?? event['cost'] ?? event['price'] ?? event['unit_price'],
      ]
    : Array.isArray(event)
      ? event
      : [];
  const [name, quantity, each] = fields;
  const figure = asFigure(quantity);
  if (typeof name !== 'string' || !figure) throw new NotYetSupported('an event in another form');
  const kind = comesIn.test(name) ? 'in' : goesOut.test(name) ? 'out' : undefined;
  if (!kind) throw new NotYetSupported(`event ${name}`);
  return { kind, quantity: figure, each: asFigure(each) };
}

/** What is on the shelf while the events are gone through. */
class Shelf {
  private lots: LotBalance[] = [];
  private value: Decimal = zero;
  constructor(private readonly method: CostingMethod) {}

  get quantity(): Decimal {
    return sum(this.lots.map((lot) => lot.quantity));
  }

  get worth(): Decimal {
    return this.method === 'fifo' ? sum(this.lots.map((lot) => lot.value)) : this.value;
  }

  receive(quantity: Decimal, value: Decimal): void {
    const id = String(this.lots.length).padStart(6, '0');
    this.lots.push({ id, quantity, value, expiresOn: null, receivedOn: id });
    this.value = this.value.plus(value);
  }

  /** Draws through the public function and returns the cost of what was drawn. */
  draw(quantity: Decimal): Decimal {
    const { draws, short } = drawLots(this.lots, quantity, {
      method: this.method,
      day: '2000-01-01',
      productValue: this.value,
      productQuantity: this.quantity,
    });
    if (!short.isZero()) throw new NotYetSupported('more sold than there was');
    const drawn = new Map(draws.map((draw) => [draw.lotId, draw]));
    this.lots = this.lots.map((lot) => {
      const draw = drawn.get(lot.id);
      if (!draw) return lot;
      const value = this.method === 'fifo' ? lot.value.minus(draw.value) : lot.value;
      return { ...lot, quantity: lot.quantity.minus(draw.quantity), value };
    });
    const cost = sum(draws.map((draw) => draw.value));
    this.value = this.value.minus(cost);
    return cost;
  }
}

/** Goes through the events and answers after each of them, and at the end. */
function costing(row: ValueRow, method: CostingMethod): Answer {
  const events = row.inputs['events'];
  if (!Array.isArray(events)) throw new NotYetSupported('no events');
  const shelf = new Shelf(method);
  const answer: Record<string, Got> = {};
  let [cogs, revenue, available] = [zero, zero, zero];
  let [buys, sales] = [0, 0];
  for (const event of events.map(eventOf)) {
    const amount = event.quantity.times(event.each ?? zero);
    if (event.kind === 'in') {
      if (!event.each) throw new NotYetSupported('goods without a cost');
      const opening = available.isZero();
      shelf.receive(event.quantity, amount);
      available = available.plus(amount);
      const name = opening ? 'open' : `buy_${(buys += 1)}`;
      answer[`unit_cost_after_${name}`] = shelf.worth.dividedBy(shelf.quantity);
      answer[`ending_after_${name}`] = shelf.worth;
    } else {
      const cost = shelf.draw(event.quantity);
      [cogs, revenue, sales] = [cogs.plus(cost), revenue.plus(amount), sales + 1];
      answer[`cost_sale_${sales}`] = cost;
      answer[`after_sale_${sales}`] = cogs;
      answer[`ending_after_sale_${sales}`] = shelf.worth;
      answer[`units_after_sale_${sales}`] = shelf.quantity;
    }
  }
  return {
    ...answer,
    cogs,
    revenue,
    sales: revenue,
    gross_margin: revenue.minus(cogs),
    ending: shelf.worth,
    ending_units: shelf.quantity,
    goods_available: available,
    ...(shelf.quantity.isZero() ? {} : { unit_cost: shelf.worth.dividedBy(shelf.quantity) }),
  };
}

export const costingTopics: readonly Topic[] = [
  { name: 'costing-fifo-perpetual', answer: (row) => costing(row, 'fifo') },
  { name: 'costing-moving-average', answer: (row) => costing(row, 'average') },
];
