/** Laws of the ledger: whatever is entered, in whatever order, nothing appears or vanishes. */
import fc from 'fast-check';
import { canonical, decimal, fixed, sum, zero } from '../../shared/decimal.js';
import type { CostingMethod } from '../../shared/costing.js';
import type { Place } from '../../shared/moving/movement.js';
import { recost } from '../../shared/moving/recosting.js';
import { onShelf, reverse, type RecordedMovement } from '../../shared/moving/reversing.js';
import { onHand, shortfallOpen, withLot, type ProductStock } from '../../shared/moving/stock.js';
import { Book, type Arrival, type Count, type Entry, type Pour } from '../support/book.js';
import { shelfOf } from '../support/shelf.js';

const aMethod = fc.constantFrom<CostingMethod>('fifo', 'average');
const aQuantity = fc.integer({ min: 1, max: 60_000 }).map((n) => decimal(`${n}`).dividedBy(1000));
const aCost = fc.integer({ min: 0, max: 90_000_000 }).map((n) => decimal(`${n}`).dividedBy(1e6));
const aDay = fc.integer({ min: 1, max: 9 });
const anExpiry = fc.option(fc.integer({ min: 1, max: 9 }), { nil: null });

const anArrival: fc.Arbitrary<Arrival> = fc.record({
  kind: fc.constant('delivery'),
  id: fc.constant(''),
  day: aDay,
  quantity: aQuantity,
  cost: aCost,
  expires: anExpiry,
});
const aPour: fc.Arbitrary<Pour> = fc.record({
  kind: fc.constant('pour'),
  day: aDay,
  hour: fc.integer({ min: 10, max: 17 }),
  quantity: aQuantity,
});
const aCount: fc.Arbitrary<Count> = fc.record({
  kind: fc.constant('count'),
  day: aDay,
  counted: aQuantity,
});

/** Every delivery is a lot of its own. */
function named<E extends Entry>(entries: fc.Arbitrary<E[]>): fc.Arbitrary<E[]> {
  return fc
    .tuple(entries, fc.nat())
    .map(([list, start]) => list.map((entry, index) => ({ ...entry, id: `lot${start}-${index}` })));
}

const places: Place[] = ['supplier', 'shelf', 'bowl', 'head', 'bin', 'correction', 'other studio'];
const newBook = (method: CostingMethod) => new Book(shelfOf([], { method }));
const quantities = (book: Book) =>
  Object.fromEntries(places.map((place) => [place, canonical(book.at(place))]));

test('nothing appears or vanishes, and the shelf in memory is the sum of its movements', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(fc.oneof(anArrival, aPour, aCount), { maxLength: 14 })),
      (method, entries) => {
        const book = newBook(method);
        for (const entry of entries) {
          book.enter(entry);
          expect(canonical(onHand(book.stock))).toBe(canonical(book.at('shelf')));
          expect(canonical(book.stock.value)).toBe(canonical(book.at('shelf', 'value')));
        }
        expect(canonical(sum(places.map((place) => book.at(place))))).toBe('0');
        expect(canonical(sum(places.map((place) => book.at(place, 'value'))))).toBe('0');
      },
    ),
  );
});

test('no lot and no value ever goes below zero; an empty shelf is worth nothing', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(fc.oneof(anArrival, aPour, aCount), { maxLength: 14 })),
      (method, entries) => {
        const book = newBook(method);
        for (const entry of entries) {
          book.enter(entry);
          expect(book.stock.lots.every((lot) => lot.quantity.greaterThan(zero))).toBe(true);
          expect(book.stock.value.isNegative() && !book.stock.value.isZero()).toBe(false);
          if (onHand(book.stock).isZero()) expect(canonical(book.stock.value)).toBe('0');
          if (method === 'average') continue;
          expect(book.stock.lots.some((lot) => lot.value.lessThan(zero))).toBe(false);
        }
      },
    ),
  );
});

test('what emptied lots gave away adds up to exactly what they cost', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(anArrival, { minLength: 1, maxLength: 4 })),
      fc.array(aPour, { maxLength: 8 }),
      (method, arrivals, pours) => {
        const book = newBook(method);
        for (const entry of [...arrivals, ...pours]) book.enter(entry);
        const rest = onHand(book.stock);
        if (rest.greaterThan(zero)) {
          book.enter({ kind: 'pour', day: 9, hour: 19, quantity: rest });
        }
        const gone = sum(
          book.movements
            .filter(({ from, lotId }) => from === 'shelf' && lotId !== 'short')
            .map(({ value }) => value),
        );
        const cost = sum(
          book.movements
            .filter(({ to, lotId }) => to === 'shelf' && lotId !== 'short')
            .map(({ value }) => value),
        );
        expect(fixed(gone, 6)).toBe(fixed(cost, 6));
      },
    ),
  );
});

test('the order of recording changes no quantity anywhere', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(fc.oneof(anArrival, aPour), { minLength: 2, maxLength: 9 })),
      fc.infiniteStream(fc.nat()),
      (method, entries, keys) => {
        const [inOrder, shuffled] = [newBook(method), newBook(method)];
        const sorted = [...entries].sort((a, b) => (timeOf(a) < timeOf(b) ? -1 : 1));
        for (const entry of sorted) inOrder.enter(entry);
        for (const entry of shuffle(entries, keys)) shuffled.enter(entry);
        expect(quantities(shuffled)).toEqual(quantities(inOrder));
        expect(canonical(shortfallOpen(shuffled.stock))).toBe(
          canonical(shortfallOpen(inOrder.stock)),
        );
      },
    ),
    { numRuns: 400 },
  );
});

test('draws in any order leave the same lots, worth the same to a few millionths', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(anArrival, { minLength: 1, maxLength: 5 })),
      fc.array(aPour, { minLength: 1, maxLength: 7 }),
      fc.infiniteStream(fc.nat()),
      (method, arrivals, pours, keys) => {
        const [one, other] = [newBook(method), newBook(method)];
        for (const entry of [...arrivals.map(early), ...pours]) one.enter(entry);
        for (const entry of [...arrivals.map(early), ...shuffle(pours, keys)]) other.enter(entry);
        const left = (book: Book) =>
          book.stock.lots.map((lot) => `${lot.id} ${canonical(lot.quantity)}`).sort();
        expect(left(other)).toEqual(left(one));
        const apart = one.stock.value.minus(other.stock.value).abs();
        expect(apart.lessThan(decimal('0.00002'))).toBe(true);
      },
    ),
  );
});

test('a count stands, whatever from before it comes late', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(fc.oneof(anArrival, aPour), { maxLength: 5 })),
      aQuantity,
      named(fc.array(fc.oneof(anArrival, aPour), { maxLength: 5 })),
      (method, before, counted, late) => {
        const book = newBook(method);
        for (const entry of before) book.enter({ ...entry, day: Math.min(entry.day, 5) });
        book.enter({ kind: 'count', day: 5, counted });
        for (const entry of late) book.enter({ ...entry, day: Math.min(entry.day, 5) });
        expect(canonical(onHand(book.stock))).toBe(canonical(counted));
      },
    ),
  );
});

test('pours before and after a count, entered before or after it: one quantity', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(fc.oneof(anArrival, aPour), { maxLength: 6 })),
      aQuantity,
      fc.infiniteStream(fc.nat()),
      (method, entries, counted, keys) => {
        const count: Entry = { kind: 'count', day: 5, counted };
        const [inOrder, shuffled] = [newBook(method), newBook(method)];
        const all = [...entries, count];
        for (const entry of [...all].sort((a, b) => (timeOf(a) < timeOf(b) ? -1 : 1))) {
          inOrder.enter(entry);
        }
        for (const entry of shuffle(all, keys)) shuffled.enter(entry);
        expect(quantities(shuffled)).toEqual(quantities(inOrder));
      },
    ),
    { numRuns: 400 },
  );
});

test('undoing the last entry restores quantity, value and lots', () => {
  fc.assert(
    fc.property(
      aMethod,
      named(fc.array(fc.oneof(anArrival, aPour), { maxLength: 6 })),
      aPour,
      (method, entries, last) => {
        const book = newBook(method);
        for (const entry of entries) book.enter(entry);
        const { stock } = book;
        const from = book.movements.length;
        book.enter(last);
        const drawn: RecordedMovement[] = book.movements
          .slice(from)
          .map((movement, index) => ({ ...movement, id: `${index}` }));
        const back = reverse(drawn, () => null);
        const lots = new Map(stock.lots.map((lot) => [lot.id, lot]));
        const after = onShelf(book.stock, back, lots, false).stock;
        expect(lotsOf(after)).toEqual(lotsOf(stock));
        expect(canonical(after.value)).toBe(canonical(stock.value));
      },
    ),
  );
});

test('a new cost conserves quantity and gives the shelf exactly its worth', () => {
  fc.assert(
    fc.property(aQuantity, aQuantity, aCost, (left, gone, unitCost) => {
      const lot = { id: 'A', expiresOn: null, receivedOn: '2026-03-01' };
      const stock = withLot(shelfOf([]), lot, { quantity: left, value: zero });
      const result = recost(stock, {
        unitCost,
        used: [{ lotId: 'A', place: 'head', visitId: 'v', quantity: gone }],
      });
      expect(canonical(onHand(result.stock))).toBe(canonical(left));
      expect(fixed(result.stock.value, 6)).toBe(fixed(unitCost.times(left), 6));
      const gain = sum(
        result.movements.map(({ from, value }) =>
          from === 'correction' ? value : value.negated(),
        ),
      );
      const worth = decimal(fixed(unitCost.times(left), 6)).plus(fixed(unitCost.times(gone), 6));
      expect(fixed(gain, 6)).toBe(fixed(worth, 6));
    }),
  );
});

function lotsOf({ lots, method }: ProductStock): string[] {
  return lots
    .map(({ id, quantity, value }) =>
      [id, canonical(quantity), method === 'fifo' ? canonical(value) : 'pooled'].join(' '),
    )
    .sort();
}

function early(arrival: Arrival): Arrival {
  return { ...arrival, day: 1 };
}

/** Deliveries come before pours of their day, counts after them. */
function timeOf(entry: Entry): string {
  const hour = entry.kind === 'delivery' ? 1 : entry.kind === 'pour' ? entry.hour : 20;
  return `${entry.day} ${`${hour}`.padStart(2, '0')}`;
}

function shuffle<T>(entries: readonly T[], keys: fc.Stream<number>): T[] {
  const order = [...keys.take(entries.length)];
  return entries
    .map((entry, index) => ({ entry, key: order[index] ?? 0 }))
    .sort((a, b) => a.key - b.key)
    .map(({ entry }) => entry);
}
