/** The simulated scale: the same deeds, the same readings; and its bytes are a real scale's. */
import { canonical, decimal } from '../../../shared/decimal.js';
import { readHidReport } from '../../../shared/scales/hid-report.js';
import {
  pourByHand,
  simulatedReading,
  usualSimulatedScale,
  type Deed,
} from '../../../shared/scales/simulated.js';
import { hidReportOf, modeLineOf } from '../../../shared/scales/simulated-bytes.js';
import { readTextLine } from '../../../shared/scales/text-lines.js';
import { inShort } from '../../support/scale-bytes.js';

const g = decimal;
const scale = usualSimulatedScale;

function at(deeds: readonly Deed[], atMs: number): string {
  const reading = simulatedReading(scale, deeds, atMs);
  return reading ? inShort(reading) : 'nothing';
}

const bowl: Deed = { do: 'set_down', grams: g('120'), atMs: 1000 };

test.each([
  { deeds: [], ms: 500, means: '0 g stable gross', why: 'empty' },
  { deeds: [bowl], ms: 900, means: '0 g stable gross', why: 'before it is set down' },
  // swing of 6 % of 120 g: 7 g past it, then 6 g below, 100 ms apart
  { deeds: [bowl], ms: 1000, means: '127 g moving gross', why: 'past the weight' },
  { deeds: [bowl], ms: 1100, means: '114 g moving gross', why: 'and back below' },
  { deeds: [bowl], ms: 1600, means: '120 g stable gross', why: 'still' },
] as { deeds: Deed[]; ms: number; means: string; why: string }[])(
  'at $ms ms: $means ($why)',
  ({ deeds, ms, means }) => {
    expect(at(deeds, ms)).toBe(means);
  },
);

test('a pour rises, drips in the second after it, and stands still', () => {
  const deeds: Deed[] = [
    bowl,
    { do: 'pour', grams: g('30'), gramsPerSecond: g('10'), dripGrams: g('2'), atMs: 3000 },
  ];
  expect(at(deeds, 4000)).toBe('130 g moving gross');
  expect(at(deeds, 6000)).toBe('150 g moving gross');
  expect(at(deeds, 6500)).toBe('151 g moving gross');
  expect(at(deeds, 7600)).toBe('152 g stable gross');
});

test('lift, spill, wipe, press, bump, zero key, sleep', () => {
  const deeds: Deed[] = [
    bowl,
    { do: 'spill_on_plate', grams: g('3'), atMs: 2000 },
    { do: 'lift', atMs: 3000 },
    { do: 'wipe', atMs: 5000 },
    { do: 'set_down', grams: g('120'), atMs: 6000 },
    { do: 'press', grams: g('150'), forMs: 1000, atMs: 8000 },
    { do: 'bump', atMs: 10_000 },
    { do: 'press_zero', atMs: 12_000 },
    { do: 'sleep', atMs: 13_000 },
    { do: 'wake', atMs: 15_000 },
    { do: 'set_down', grams: g('4000'), atMs: 16_000 },
  ];
  const moments = [
    2900, 4000, 5900, 7000, 8500, 9600, 10_100, 11_000, 12_000, 14_000, 15_600, 17e3,
  ];
  expect(moments.map((ms) => at(deeds, ms))).toEqual([
    '123 g stable gross',
    '3 g stable gross',
    '0 g stable gross',
    '120 g stable gross',
    '270 g moving gross',
    '120 g stable gross',
    '160 g moving gross',
    '120 g stable gross',
    '0 g stable gross',
    'nothing',
    '0 g stable gross',
    'over',
  ]);
});

test('the same seed gives the same noise, another seed another', () => {
  const noisy = { ...scale, intervalGrams: g('0.1'), noiseIntervals: g('3') };
  const run = (seed: number) =>
    Array.from({ length: 50 }, (_, each) =>
      canonical(simulatedReading({ ...noisy, seed }, [bowl], 3000 + each * 100)!.grams!),
    ).join(' ');
  expect(run(7)).toBe(run(7));
  expect(run(7)).not.toBe(run(8));
  for (const grams of run(7).split(' ')) {
    expect(g(grams).minus(120).abs().lessThanOrEqualTo('0.3')).toBe(true);
  }
});

test('a hand pours near its target, within what it says', () => {
  for (let seed = 0; seed < 200; seed += 1) {
    const deed = pourByHand(seed, g('30'), 0);
    if (deed.do !== 'pour') throw new Error('no pour');
    expect(deed.grams.minus(30).greaterThanOrEqualTo(-2)).toBe(true);
    expect(deed.grams.minus(30).lessThanOrEqualTo(5)).toBe(true);
    expect(deed.dripGrams!.lessThanOrEqualTo(2)).toBe(true);
  }
});

test('its bytes are read back as the reading they came from', () => {
  const deeds: Deed[] = [bowl, { do: 'set_down', grams: g('4000'), atMs: 9000 }];
  expect(inShort(readHidReport(hidReportOf(simulatedReading(scale, deeds, 1000)!)))).toBe(
    '127 g moving',
  );
  expect(inShort(readHidReport(hidReportOf(simulatedReading(scale, deeds, 500)!)))).toBe(
    '0 g stable at zero',
  );
  expect(inShort(readHidReport(hidReportOf(simulatedReading(scale, deeds, 9900)!)))).toBe('over');
  const line = modeLineOf(simulatedReading(scale, deeds, 5000)!);
  expect(line).toBe('ST,GS,+   120.0g\r\n');
  expect(inShort(readTextLine(line.trimEnd()))).toBe('120 g stable gross');
});
