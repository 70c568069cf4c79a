/** Left over: ratio of sums, its interval, and what stands beside it. */
import { canonical, decimal, fixed } from '../../shared/decimal.js';
import { leftOver, type SettledBowl } from '../../shared/waste.js';

function bowl(mixed: string, wasted: string, rest: Partial<SettledBowl> = {}): SettledBowl {
  return {
    mixed_g: decimal(mixed),
    wasted_g: decimal(wasted),
    mixedValue: decimal(mixed).dividedBy(20),
    wastedValue: decimal(wasted).dividedBy(20),
    estimated: false,
    why: 'left_over',
    ...rest,
  };
}

const five = ['10', '5', '0', '15', '20'].map((wasted) => bowl('100', wasted));

test('the share is a ratio of sums, not a mean of shares', () => {
  const { share, mixed_g, applied_g } = leftOver([bowl('100', '10'), bowl('20', '10')]);
  expect(fixed(share ?? decimal('0'), 6)).toBe('0.166667');
  expect([canonical(mixed_g), canonical(applied_g)]).toEqual(['120', '100']);
});

test('90 % interval: equal bowls give sd / root n x t, here 0.1 +- 0.0353553 x 2.132', () => {
  // standard error of 0.10 0.05 0 0.15 0.20 is 0.0790569 / root 5; t of 4 degrees is 2.132
  const { share, interval } = leftOver(five);
  expect(canonical(share ?? decimal('0'))).toBe('0.1');
  expect([fixed(interval!.low, 5), fixed(interval!.high, 5)]).toEqual(['0.02462', '0.17538']);
});

test('no interval under five bowls, none below 0 or above 1', () => {
  expect(leftOver(five.slice(1)).interval).toBeNull();
  const wild = [...five.slice(0, 4), bowl('100', '90')];
  expect(canonical(leftOver(wild).interval!.low)).toBe('0');
});

test('estimated bowls and remakes stand beside the share, never in it', () => {
  const all = leftOver([
    ...five,
    bowl('50', '25', { estimated: true }),
    bowl('80', '80', { why: 'spilled' }),
    bowl('60', '60', { why: 'mixed_wrong', estimated: true }),
    bowl('0', '0'),
  ]);
  expect(all).toMatchObject({ bowls: 5, estimatedBowls: 1, remadeBowls: 2 });
  expect(canonical(all.share!)).toBe('0.1');
  expect(canonical(all.remade_g)).toBe('140');
  expect(canonical(all.remadeValue)).toBe('7');
  expect(canonical(all.estimatedWasted_g)).toBe('25');
  expect(fixed(all.notWeighedShare!, 4)).toBe('0.1667');
});

test('a service that was stopped is left over, measured like any other', () => {
  expect(leftOver([bowl('100', '60', { why: 'stopped' })]).bowls).toBe(1);
});

test('nothing mixed has no share', () => {
  expect(leftOver([]).share).toBeNull();
});
