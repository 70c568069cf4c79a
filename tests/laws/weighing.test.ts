/** Laws of weighing: no event breaks it, and what is told adds up to what is in the bowl. */
import { decimal, sum, type Decimal } from '../../shared/decimal.js';
import type { Reading } from '../../shared/scales/reading.js';
import {
  pourByHand,
  simulatedReading,
  usualSimulatedScale,
  type Deed,
} from '../../shared/scales/simulated.js';
import { step } from '../../shared/weighing.js';
import type { Happening, WeighingEvent } from '../../shared/weighing/happenings.js';
import { sentenceOf } from '../../shared/weighing/sentences.js';
import { weighingStart } from '../../shared/weighing/state.js';
import { randomFrom, type Random } from '../support/random.js';

const g = decimal;
const seed = 20_260_302;

function someReading(random: Random): Reading {
  const status = random.oneOf(['weight', 'weight', 'weight', 'over', 'under', 'fault'] as const);
  const base = { kind: 'reading', mode: 'unknown', carriedBy: 'random' } as const;
  if (status !== 'weight') return { ...base, status, stable: false };
  const grams = g(String(random.oneOf([0, 0, 120, 121, 150, 182, 300, -5, random.below(900)])));
  const stable = random.oneOf([true, true, false, undefined]);
  return { ...base, status, grams, value: grams, unit: 'g', stable, intervalGrams: g('1') };
}

function someEvent(random: Random, atMs: number): WeighingEvent {
  const plain = random.oneOf([
    'connected',
    'lost',
    'damage',
    'tick',
    'withdraw_pour',
    'tap',
    'weigh',
    'bowl_done',
    'leave_residue',
    'carry_on',
    'it_was_lifted',
  ] as const);
  switch (random.below(8)) {
    case 0:
      return { atMs, type: plain };
    case 1: {
      const pour = { id: `pour ${atMs}`, targetGrams: g(String(random.below(100))) };
      return { atMs, type: 'pour', pour: { ...pour, startsClock: random.below(2) === 0 } };
    }
    case 2: {
      const tares = random.below(2) === 0 ? {} : { bowl: g('120') };
      const isPack = random.below(5) === 0;
      const bowl = { tares, contentsGrams: g(random.oneOf(['0', '62'])), touched: false, isPack };
      return random.below(4) === 0 ? { atMs, type: 'use_bowl', bowl } : { atMs, type: 'tick' };
    }
    default:
      return { atMs, type: 'reading', reading: someReading(random) };
  }
}

test('no order of events throws; a pour is never negative and is told once', () => {
  const random = randomFrom(seed);
  for (let run = 0; run < 1000; run += 1) {
    let state = weighingStart();
    let atMs = 0;
    const poured = new Set<string>();
    for (let each = 0; each < 60; each += 1) {
      atMs += random.oneOf([50, 100, 100, 500, 2500]);
      const before = JSON.stringify(state);
      const weighed = step(state, someEvent(random, atMs));
      if (JSON.stringify(state) !== before) throw new Error(`state changed, seed ${seed}, ${run}`);
      state = weighed.state;
      for (const happening of weighed.happenings) {
        expect(sentenceOf(happening)).toMatch(/[.?]$/);
        if (happening.type !== 'poured') continue;
        if (poured.has(happening.pourId)) throw new Error(`told twice, seed ${seed}, run ${run}`);
        poured.add(happening.pourId);
        expect(happening.grams.greaterThan(0)).toBe(true);
      }
    }
  }
});

interface Played {
  readonly happenings: readonly Happening[];
  readonly inBowl: Decimal;
}

/** A bowl of three pours by hand at 10 readings a second, with bumps, lifts and drips. */
function playBowl(run: number, tellsStable: boolean): Played {
  const random = randomFrom(seed + run);
  const scale = { ...usualSimulatedScale, seed: run, tellsStable };
  const deeds: Deed[] = [{ do: 'set_down', grams: g('120'), atMs: 500 }];
  const happenings: Happening[] = [];
  let inBowl = g('0');
  let state = weighingStart();
  const send = (event: WeighingEvent): readonly Happening[] => {
    const weighed = step(state, event);
    state = weighed.state;
    happenings.push(...weighed.happenings);
    return weighed.happenings;
  };
  const pour = (grams: Decimal, atMs: number) => {
    const deed = pourByHand(run * 31 + deeds.length, grams, atMs);
    if (deed.do === 'pour') inBowl = inBowl.plus(deed.grams).plus(deed.dripGrams ?? 0);
    deeds.push(deed);
  };
  send({ type: 'connected', atMs: 0 });
  send({
    type: 'use_bowl',
    atMs: 0,
    bowl: { tares: {}, contentsGrams: g('0'), touched: false, isPack: false },
  });
  let wanted = 0;
  let nextAtMs = 4000;
  let dueId: string | undefined;
  for (let atMs = 100; atMs < 120_000 && wanted <= 3; atMs += 100) {
    if (dueId === undefined && atMs >= nextAtMs) {
      wanted += 1;
      if (wanted > 3) break;
      dueId = `pour ${wanted}`;
      const targetGrams = g(String(20 + random.below(60)));
      send({ type: 'pour', atMs, pour: { id: dueId, targetGrams } });
      if (random.below(3) === 0) deeds.push({ do: 'bump', atMs: atMs + 300 });
      pour(targetGrams, atMs + 2000);
      nextAtMs = atMs + 12_000;
    } else if (dueId !== undefined && atMs >= nextAtMs) {
      // too little came out: a little more, until the page moves on
      pour(g('3'), atMs);
      nextAtMs = atMs + 6000;
    }
    const reading = simulatedReading(scale, deeds, atMs);
    if (!reading) continue;
    const told = send({ type: 'reading', atMs, reading });
    if (told.some((each) => each.type === 'moved_on')) {
      dueId = undefined;
      nextAtMs = atMs + 7000;
      if (random.below(3) === 0) {
        const stands = inBowl.plus(120);
        deeds.push({ do: 'lift', atMs: atMs + 3500 });
        deeds.push({ do: 'set_down', grams: stands, atMs: atMs + 5000 });
      }
    }
  }
  send({ type: 'bowl_done', atMs: 130_000 });
  return { happenings, inBowl };
}

test.each([true, false])(
  'simulated bowls, scale tells stable %s: three pours, and their grams are what is in the bowl',
  (tellsStable) => {
    for (let run = 0; run < 40; run += 1) {
      const { happenings, inBowl } = playBowl(run, tellsStable);
      const poured = happenings.flatMap((each) => (each.type === 'poured' ? [each.grams] : []));
      const unasked = happenings.flatMap((each) =>
        each.type === 'unasked_rise' || each.type === 'taken_out' ? [each.type] : [],
      );
      const told = { seed, run };
      expect({ ...told, pours: poured.length, unasked }).toEqual({
        ...told,
        pours: 3,
        unasked: [],
      });
      // each pour is read to one interval, at its beginning and its end
      const off = sum(poured).minus(inBowl).abs();
      expect({ ...told, off: off.lessThanOrEqualTo(3) ? 'little' : off.toFixed() }).toEqual({
        ...told,
        off: 'little',
      });
    }
  },
);
