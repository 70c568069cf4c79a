/** Ratios: how they are read, what is refused, how they are said. */
import { canonical, decimal } from '../../shared/decimal.js';
import { developerPerPowder, parseRatio, ratioInWords, ratioText } from '../../shared/ratio.js';
import { refused } from '../support/refused.js';

const practice = 'common practice, no source';

test.each([
  { text: '1:2', perPowder: '2', source: practice },
  { text: '1 : 1.5', perPowder: '1.5', source: practice },
  { text: '2:1', perPowder: '0.5', source: 'by hand' },
  { text: '1:1', perPowder: '1', source: practice },
])('$text is $perPowder of developer to one of powder ($source)', ({ text, perPowder }) => {
  expect(canonical(developerPerPowder(parseRatio(text)))).toBe(perPowder);
});

test.each([
  { text: '1', code: 'ratio_unreadable' },
  { text: '1:1:2', code: 'ratio_unreadable' },
  { text: '1/2', code: 'ratio_unreadable' },
  { text: 'one:two', code: 'ratio_unreadable' },
  { text: '-1:2', code: 'no_parts' },
  { text: '1:1e3', code: 'ratio_unreadable' },
  { text: '0:2', code: 'no_parts' },
  { text: '1:0', code: 'no_parts' },
  { text: '1:101', code: 'ratio_out_of_range' },
  { text: '200:1', code: 'ratio_out_of_range' },
])('refuses $text as $code', ({ text, code }) => {
  expect(refused(() => parseRatio(text)).code).toBe(code);
});

test('says what two sides are to each other', () => {
  expect(ratioText(parseRatio('1 : 1.50'))).toBe('1:1.5');
  expect(ratioInWords(decimal('30'), decimal('69'))).toBe('1 : 2.3');
  expect(ratioInWords(decimal('30'), decimal('70'))).toBe('1 : 2.33');
  expect(ratioInWords(decimal('0'), decimal('70'))).toBeUndefined();
});
