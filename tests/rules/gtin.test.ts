/** Numbers under bar codes: check digits as published, one length for all, what cannot be one. */
import fc from 'fast-check';
import { gtinCheckDigit, readGtin } from '../../shared/gtin.js';
import { refused } from '../support/refused.js';

const gs1 = 'gs1.org, How to calculate a check digit manually';
const sweden = 'gs1.se, Så beräknas kontrollsiffran';
const biip = 'jodal/biip tests (commit 701f78e)';

test.each([
  { body: '629104150021', digit: 3, source: `${gs1} (sum 57)` },
  { body: '730001100001', digit: 7, source: `${sweden} (sum 23)` },
  { body: '950110153100', digit: 0, source: biip },
  { body: '61414100003', digit: 6, source: biip },
  { body: '0000012', digit: 3, source: biip },
  { body: '37610425002123456', digit: 9, source: `${biip}, 17 digits` },
])('the check digit of $body is $digit ($source)', ({ body, digit }) => {
  expect(gtinCheckDigit(body)).toBe(digit);
});

test.each([
  { printed: '6291041500213', kept: '06291041500213' },
  { printed: '614141000036', kept: '00614141000036' },
  { printed: '00000123', kept: '00000000000123' },
  { printed: '95012345678903', kept: '95012345678903' },
  { printed: ' 6 291041-500213 ', kept: '06291041500213' },
])('$printed is kept with 14 digits', ({ printed, kept }) => {
  expect(readGtin(printed)).toBe(kept);
});

test('says which digit the others ask for', () => {
  const problem = refused(() => readGtin('5901234123458'));
  expect(problem.code).toBe('gtin_check_digit');
  expect(problem.facts).toEqual({ gtin: '5901234123458', given: '8', expected: 7 });
});

test.each(['', '123', '123456789', '12345678901234567', '590123412345x', '5901234123457.0'])(
  '"%s" is none',
  (text) => {
    expect(refused(() => readGtin(text)).code).toBe('gtin_unreadable');
  },
);

test('one wrong digit is always noticed', () => {
  const body = fc.stringMatching(/^[0-9]{12}$/);
  const change = fc.tuple(body, fc.nat(12), fc.integer({ min: 1, max: 9 }));
  fc.assert(
    fc.property(change, ([digits, at, by]) => {
      const right = `${digits}${gtinCheckDigit(digits)}`;
      const wrong = [...right].map((digit, index) =>
        index === at ? `${(digit.charCodeAt(0) - 48 + by) % 10}` : digit,
      );
      expect(readGtin(right)).toBe(`0${right}`);
      expect(refused(() => readGtin(wrong.join(''))).code).toBe('gtin_check_digit');
    }),
  );
});
