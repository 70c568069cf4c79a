/** Histories of use: months, weeks, closures, short histories, and what counts find missing. */
import { demandHistory } from '../../../shared/ordering/demand-history.js';
import {
  daysOfMonth,
  mondayOf,
  monthAfter,
  monthsBetween,
  nextWeekday,
  weekday,
} from '../../../shared/ordering/studio-periods.js';
import { noUnrecordedUse, unrecordedUse } from '../../../shared/ordering/unrecorded-use.js';

test.each([
  ['2026-11', 3, '2027-02'],
  ['2026-01', -1, '2025-12'],
  ['2026-03', 0, '2026-03'],
])('%s and %i months -> %s', (month, months, expected) => {
  expect(monthAfter(month, months)).toBe(expected);
  expect(monthsBetween(month, expected)).toBe(months);
});

test('days of months, and weeks that begin on a Monday (ISO 8601)', () => {
  expect([daysOfMonth('2024-02'), daysOfMonth('2026-02'), daysOfMonth('2026-12')]).toEqual([
    29, 28, 31,
  ]);
  // 2026-03-05 is a Thursday, 1969-12-31 was a Wednesday
  expect([weekday('2026-03-05'), weekday('1969-12-31')]).toEqual([4, 3]);
  expect([mondayOf('2026-03-05'), mondayOf('2026-03-02')]).toEqual(['2026-03-02', '2026-03-02']);
  expect([nextWeekday('2026-03-05', 4), nextWeekday('2026-03-05', 1)]).toEqual([
    '2026-03-05',
    '2026-03-09',
  ]);
});

test('missing amounts are spread over the days between counts', () => {
  const counts = [
    { day: '2026-01-31', missing: 30 },
    { day: '2026-04-01', missing: 90 },
  ];
  // 30 days from the first day, then 60: 120 / 90 a day; both exact parts of the rate but one
  const learned = unrecordedUse(counts, '2026-01-01', '2026-04-10');
  expect(learned.perDay).toBeCloseTo(120 / 90, 12);
  // (30 - 40)^2 / 30 + (90 - 80)^2 / 60 = 3.3333 + 1.6667
  expect(learned.variancePerDay).toBeCloseTo(5, 12);
  expect(learned.counts).toBe(2);
});

test('an old count only says since when; too much found is no use', () => {
  const counts = [
    { day: '2025-06-01', missing: 500 },
    { day: '2026-01-31', missing: 61 },
  ];
  expect(unrecordedUse(counts, '2025-01-01', '2026-04-10').perDay).toBeCloseTo(61 / 244, 12);
  expect(unrecordedUse([{ day: '2026-02-01', missing: -20 }], '2026-01-01', '2026-02-02')).toEqual({
    ...noUnrecordedUse,
    counts: 1,
  });
  expect(unrecordedUse([], '2026-01-01', '2026-02-02').perDay).toBe(0);
});

const calendar = (today: string, openDays: Record<string, number> = {}) => ({
  today,
  openDays: new Map(Object.entries(openDays)),
  weeksFrom: '2026-01-05',
});
const from = (first: string, quantities: readonly number[]) =>
  quantities.map((quantity, k) => ({ period: monthAfter(first, k), quantity }));

test('whole months only, gaps as zero, the running month apart', () => {
  const months = [...from('2025-08', [10, 20]), ...from('2025-11', [5, 6, 7, 8, 9])];
  const history = demandHistory(
    { months, weeks: [], firstDay: '2025-08-01' },
    calendar('2026-03-10'),
    noUnrecordedUse,
  );
  expect(history.months).toEqual([10, 20, 0, 5, 6, 7, 8]);
  expect(history.usedThisMonth).toBe(9);
  expect(history.nextMonth).toBe('2026-03');
});

test('a month mostly closed counts by its open days, one that began mid-month by its part', () => {
  const history = demandHistory(
    { months: from('2025-06', [10, 20, 4, 20, 20, 20, 20]), weeks: [], firstDay: '2025-06-16' },
    calendar('2026-01-05', {
      ...{ '2025-06': 20, '2025-07': 20, '2025-08': 5, '2025-09': 20 },
      ...{ '2025-10': 18, '2025-11': 20, '2025-12': 20 },
    }),
    noUnrecordedUse,
  );
  // 15 of 30 days in June; 5 of the usual 20 in August
  expect(history.openShare).toEqual([0.5, 1, 0.25, 1, 1, 1, 1]);
  // next August, the eighth month from January on, is expected to be as short
  expect(history.openAhead).toEqual([1, 1, 1, 1, 1, 1, 1, 0.25, 1, 1, 1, 1]);
});

test('a short history counts the running month by the part that has passed', () => {
  const history = demandHistory(
    { months: from('2026-02', [28, 10]), weeks: [], firstDay: '2026-02-01' },
    calendar('2026-03-11', { '2026-02': 20 }),
    noUnrecordedUse,
  );
  expect(history.months).toEqual([28, 10]);
  expect(history.openShare[1]).toBeCloseTo(10 / 31, 12);
});

test('weeks from the first known one to the last whole one', () => {
  const history = demandHistory(
    {
      months: [],
      weeks: [
        { period: '2026-01-12', quantity: 7 },
        { period: '2026-01-26', quantity: 3 },
      ],
      firstDay: '2025-06-01',
    },
    calendar('2026-02-04'),
    noUnrecordedUse,
  );
  expect(history.weeks).toEqual([0, 7, 0, 3]);
});
