/** Tables of dates and amounts: which columns and periods, what is unknown, what is nothing. */
import { readDatedAmounts } from '../../src/command-line/forecast/dated-amounts.js';
import { forecastTable } from '../../src/command-line/forecast/of-table.js';

const read = (text: string, every: 'month' | 'week' | 'day' = 'month') =>
  readDatedAmounts(Buffer.from(text), every, {});

test('a table of months: one that is not there, or empty, is unknown', () => {
  const [series] = read('month,use\n2025-11,10\n2026-01,\n2026-02,30\n');
  expect(series?.periods).toEqual(['2025-11', '2025-12', '2026-01', '2026-02']);
  expect(series?.use).toEqual([10, null, null, 30]);
  expect([series?.next(1), series?.next(11)]).toEqual(['2026-03', '2027-01']);
});

test('a list of what happened: a month without lines is nothing, ends count by their part', () => {
  const [series] = read('date,amount\n2026-01-16,4\n2026-01-20,6\n2026-03-01,2\n2026-04-15,5\n');
  expect(series?.use).toEqual([10, 0, 2, 5]);
  // 16 of 31 days of January, 15 of 30 of April
  expect(series?.openShare).toEqual([16 / 31, 1, 1, 0.5]);
});

test('weeks begin on Monday, series are told apart, semicolons allow a decimal comma', () => {
  const [a, b] = read(
    'Datum;Menge;product\n2026-03-04;1,5;a\n2026-03-12;2;a\n2026-03-02;7;b\n',
    'week',
  );
  expect(a).toMatchObject({ name: 'a', periods: ['2026-03-02', '2026-03-09'], use: [1.5, 2] });
  expect(b).toMatchObject({ name: 'b', use: [7] });
  expect(a?.next(1)).toBe('2026-03-16');
});

test.each([
  ['', 'A column of dates and one of amounts are needed'],
  ['date\n2026-01-01\n', 'A column of dates and one of amounts are needed'],
  ['date,amount\n', 'no line below the header'],
  ['date,amount\n2026-02-30,1\n', 'line 2, date'],
  ['date,amount\n2026-02-01,1\n2026-03-01,1e3\n', 'line 3, amount'],
  ['date,amount\n"2026-02-01,1\n', 'quotation mark'],
])('%j is refused with a sentence', (text, said) => {
  expect(() => read(text)).toThrow(said);
});

test('one point, all zeros and a typing error give figures and say so', () => {
  const months = Array.from({ length: 12 }, (_, m) => `2025-${`${m + 1}`.padStart(2, '0')}`);
  const lines = [
    ...months.map((month, m) => `${month},${m === 5 ? '300000' : '300'},typed`),
    ...months.map((month) => `${month},0,zeros`),
    '2025-12,5,one',
  ];
  const all = forecastTable(read(`month,use,series\n${lines.join('\n')}\n`), 'month', 3, 'g');
  for (const { ahead } of all) {
    for (const { period, ...figures } of ahead) {
      expect(period).toMatch(/^2026-0[123]$/);
      expect(Object.values(figures).every((each) => Number.isFinite(each) && each >= 0)).toBe(true);
    }
  }
  expect(all.find(({ series }) => series === 'typed')?.sentence).toContain('typing error');
  expect(all.find(({ series }) => series === 'typed')?.ahead[0]?.mean).toBeCloseTo(300, 6);
  expect(all.find(({ series }) => series === 'zeros')?.ahead[0]?.mean).toBe(0);
  expect(all.find(({ series }) => series === 'one')?.sentence).toContain('very uncertain');
});
