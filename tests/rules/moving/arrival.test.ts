/** What arrives and what is counted, in packs or by weight. */
import { canonical, decimal } from '../../../shared/decimal.js';
import { arrivalOf, type ArrivalEntry } from '../../../shared/moving/arrival.js';
import { countedPacks, type PackCount } from '../../../shared/moving/shelf-count.js';
import { refused } from '../../support/refused.js';

const byHand = 'worked out by hand';
const bottle = {
  label: '1 l bottle',
  quantity: decimal('1000'),
  listPrice: decimal('9.8'),
  emptyWeight_g: decimal('45'),
};
const sample = {
  label: 'sample',
  quantity: decimal('60'),
  listPrice: null,
  emptyWeight_g: null,
};

interface Row {
  name: string;
  entry: ArrivalEntry;
  quantity: string;
  price: string;
  costFrom: string;
  source: string;
}

const rows: Row[] = [
  {
    name: 'two bottles at the list price, one more free',
    entry: { packs: 2, freePacks: 1, packLabel: '1 l bottle' },
    quantity: '3000',
    price: '19.6',
    costFrom: 'list price',
    source: byHand,
  },
  {
    name: 'at a price of its own',
    entry: { packs: 2, packLabel: '1 l bottle', packPrice: decimal('9') },
    quantity: '2000',
    price: '18',
    costFrom: 'given',
    source: byHand,
  },
  {
    name: 'the whole line’s cost',
    entry: { packs: 3, packLabel: 'sample', cost: decimal('10') },
    quantity: '180',
    price: '10',
    costFrom: 'given',
    source: byHand,
  },
  {
    name: 'a pack whose price nobody knows: no cost',
    entry: { packs: 3, packLabel: 'sample' },
    quantity: '180',
    price: '0',
    costFrom: 'none',
    source: byHand,
  },
  {
    name: 'a quantity at the list price of the first pack that has one',
    entry: { quantity: decimal('250') },
    quantity: '250',
    price: '2.45',
    costFrom: 'list price',
    source: byHand,
  },
  {
    name: 'nothing but free packs',
    entry: { freePacks: 2, packLabel: 'sample' },
    quantity: '120',
    price: '0',
    costFrom: 'none',
    source: byHand,
  },
];

test.each(rows)('$name ($source)', ({ entry, quantity, price, costFrom }) => {
  const arrival = arrivalOf(entry, 'Developer', [sample, bottle]);
  expect({ ...arrival, pack: undefined }).toEqual({
    quantity: decimal(quantity),
    price: decimal(price),
    costFrom,
    pack: undefined,
  });
});

test.each([
  { entry: {}, code: 'packs_or_quantity' },
  { entry: { packs: 1, quantity: decimal('5') }, code: 'packs_or_quantity' },
  { entry: { packs: 1 }, code: 'unknown_pack' },
  { entry: { packs: 1, packLabel: 'keg' }, code: 'unknown_pack' },
  { entry: { packs: 0, packLabel: 'sample' }, code: 'quantity_not_positive' },
  {
    entry: { packs: 1, packLabel: 'sample', cost: decimal('1'), packPrice: decimal('1') },
    code: 'two_prices',
  },
])('refused: $code', ({ entry, code }) => {
  expect(refused(() => arrivalOf(entry, 'Developer', [sample, bottle])).code).toBe(code);
});

const developer = { id: 'd', name: 'Developer', unit: 'ml' as const, density: decimal('1.02') };
const open = (gross: string, emptyPack?: string) => ({
  gross: decimal(gross),
  ...(emptyPack === undefined ? {} : { emptyPack: decimal(emptyPack) }),
});

const counts: { name: string; counted: PackCount; quantity: string; fuller: boolean }[] = [
  {
    name: 'two full bottles and a started one, by its density',
    counted: { fullPacks: 2, packLabel: '1 l bottle', open: [open('562')] },
    quantity: '2506.863', // 517 / 1.02 = 506.8627…
    fuller: false,
  },
  {
    name: 'started ones only, each with the weight of its own empty pack',
    counted: { fullPacks: 0, open: [open('61', '10'), open('112', '10')] },
    quantity: '150',
    fuller: false,
  },
  {
    name: 'a started one that holds more than a full one',
    counted: { fullPacks: 0, packLabel: '1 l bottle', open: [open('1076')] },
    quantity: '1010.784', // 1031 / 1.02 = 1010.7843…
    fuller: true,
  },
  {
    name: 'an empty shelf',
    counted: { fullPacks: 0, open: [] },
    quantity: '0',
    fuller: false,
  },
];

test.each(counts)('counted: $name (worked out by hand)', ({ counted, quantity, fuller }) => {
  const result = countedPacks(counted, developer, [sample, bottle]);
  expect(canonical(result.quantity)).toBe(quantity);
  expect(result.fullerThanFull).toBe(fuller);
});

test.each([
  { counted: { fullPacks: 1, open: [] }, code: 'unknown_pack' },
  {
    counted: { fullPacks: 0, packLabel: 'sample', open: [open('50')] },
    code: 'empty_pack_unknown',
  },
  {
    counted: { fullPacks: 0, packLabel: '1 l bottle', open: [open('44.9')] },
    code: 'lighter_than_empty',
  },
])('a count is refused: $code', ({ counted, code }) => {
  expect(refused(() => countedPacks(counted, developer, [sample, bottle])).code).toBe(code);
});
