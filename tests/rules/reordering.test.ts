/** Reordering: the plain reorder point and the flags of the shelf. */
import { canonical, decimal, zero } from '../../shared/decimal.js';
import {
  daysOfCover,
  flagsOf,
  flagsRaised,
  reorderPoint,
  type ReorderRule,
  type ShelfState,
} from '../../shared/reordering.js';

const use = { quantity: decimal('600'), days: decimal('60') };

test.each<{ name: string; rule: ReorderRule; point: string | null }>([
  { name: 'typed on the product', rule: { point: decimal('250'), use }, point: '250' },
  {
    name: 'two sealed packs of 500',
    rule: { keepSealed: decimal('2'), packQuantity: decimal('500'), use },
    point: '1000',
  },
  {
    name: '10 a day x (4 + 7) x 1.5',
    rule: { use, leadTimeDays: decimal('4'), reviewDays: decimal('7') },
    point: '165',
  },
  { name: '10 a day x (7 + 7) x 1.5, nothing told', rule: { use }, point: '210' },
  { name: 'typed as zero: only when it is out', rule: { point: zero, use }, point: '0' },
  { name: 'no use, nothing typed', rule: { use: { ...use, quantity: zero } }, point: null },
])('reorder point: $name -> $point', ({ rule, point }) => {
  const found = reorderPoint(rule);
  expect(found && canonical(found)).toBe(point);
});

const calm: ShelfState = {
  onHand: decimal('500'),
  onOrder: zero,
  reorderPoint: decimal('210'),
  lots: [{ quantity: decimal('500'), expiresOn: '2027-01-31' }],
  recount: false,
  noCost: false,
  day: '2026-03-10',
  expiringUntil: '2026-04-09',
};

const lot = (expiresOn: string, quantity = '1') => [{ quantity: decimal(quantity), expiresOn }];

test.each<{ name: string; change: Partial<ShelfState>; flags: string[] }>([
  { name: 'nothing to say', change: {}, flags: [] },
  { name: 'at the point', change: { onHand: decimal('210') }, flags: ['reorder'] },
  { name: 'just above it', change: { onHand: decimal('210.001') }, flags: [] },
  {
    name: 'on order counts',
    change: { onHand: decimal('10'), onOrder: decimal('500') },
    flags: [],
  },
  { name: 'nothing left', change: { onHand: zero, lots: [] }, flags: ['reorder', 'out'] },
  { name: 'out without a point', change: { onHand: zero, reorderPoint: null }, flags: ['out'] },
  { name: 'last good day today', change: { lots: lot('2026-03-10') }, flags: ['expiring'] },
  { name: 'yesterday', change: { lots: lot('2026-03-09') }, flags: ['expired'] },
  { name: 'in 30 days', change: { lots: lot('2026-04-09') }, flags: ['expiring'] },
  { name: 'in 31 days', change: { lots: lot('2026-04-10') }, flags: [] },
  { name: 'an empty lot', change: { lots: lot('2026-03-09', '0') }, flags: [] },
  { name: 'told', change: { recount: true, noCost: true }, flags: ['recount', 'no_cost'] },
])('flags: $name -> $flags', ({ change, flags }) => {
  expect(flagsOf({ ...calm, ...change })).toEqual(flags);
});

test('a pour raises only what was not raised before', () => {
  expect(flagsRaised(['expiring', 'reorder'], ['reorder', 'expiring', 'out'])).toEqual(['out']);
});

test('days of cover at the recent use; none without use', () => {
  expect(canonical(daysOfCover(decimal('45'), use)!)).toBe('4.5');
  expect(daysOfCover(decimal('45'), undefined)).toBeNull();
});
