/** The studio's rules of price as the arithmetic takes them. */
import { canonical, decimal } from '../../shared/decimal.js';
import {
  cardFeeOf,
  moneyRuleOf,
  onTopRulesOf,
  overheadPerHourOf,
  pricingInForce,
} from '../../shared/pricing-settings.js';
import { priceSheet } from '../../shared/pricing.js';
import { refused } from '../support/refused.js';

test('what nobody said is usual: tax within the price, halves up, nothing on top', () => {
  expect(pricingInForce(null)).toMatchObject({
    ...{ priceMode: 'inclusive', rounding: 'half_up', taxBasis: 'invoice', measuredOn: 'applied' },
    ...{ taxes: null, priceStep: null, cardFee: null, commission: null, hourRate: null, onTop: [] },
  });
  expect(pricingInForce({ taxBasis: 'line' })).toMatchObject({
    ...{ taxBasis: 'line', rounding: 'half_up' },
  });
});

test('no tax rule is not no tax', () => {
  const services = [{ id: 'cut', label: 'Cut', price: decimal('30') }];
  const untold = moneyRuleOf(pricingInForce(null), 'EUR');
  expect(refused(() => priceSheet({ money: untold, services })).code).toBe('no_tax_rule');
  const none = moneyRuleOf(pricingInForce({ taxes: [] }), 'EUR');
  expect(canonical(priceSheet({ money: none, services }).totals.net)).toBe('30');
});

test('a minute of a chair at 0.25 is 15 an hour', () => {
  const settings = pricingInForce({ overheadPerChairMinute: '0.25' });
  expect(canonical(overheadPerHourOf(settings))).toBe('15');
});

test('each way to charge on top keeps its rate, by its own name', () => {
  const settings = pricingInForce({
    onTop: [
      { kind: 'lightener', by: 'bowl', rate: '12', label: 'Another bowl' },
      { kind: 'toner', by: 'gram', rate: '0.2' },
      { kind: 'permanent', by: 'cost', rate: '1.5' },
    ],
  });
  expect(onTopRulesOf(settings)).toEqual([
    { kind: 'lightener', label: 'Another bowl', by: 'bowl', ratePerBowl: decimal('12') },
    { kind: 'toner', by: 'gram', ratePerGram: decimal('0.2') },
    { kind: 'permanent', by: 'cost', markup: decimal('1.5') },
  ]);
});

test('a card fee is a share and a fixed amount, or none', () => {
  expect(cardFeeOf(pricingInForce(null))).toBeUndefined();
  const cardFee = { share: '0.015', fixed: '0.05', onTip: 'person' } as const;
  expect(cardFeeOf(pricingInForce({ cardFee }))).toEqual({
    ...{ share: decimal('0.015'), fixed: decimal('0.05'), onTip: 'person' },
  });
});
