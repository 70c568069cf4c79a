/** A simulated scale for the demo and for practice: seeded, driven by the time it is given. */
import { count, decimal, larger, round, zero, type Decimal } from '../decimal.js';
import type { Reading } from './reading.js';

/** What a hand does to the simulated scale, at a moment of the caller's clock in ms. */
export type Deed = { readonly atMs: number } & (
  | { readonly do: 'set_down'; readonly grams: Decimal }
  | { readonly do: 'lift' } // takes everything off; what dripped beside the bowl stays
  | {
      readonly do: 'pour';
      readonly grams: Decimal;
      /** How fast, at most 200 g a second. */
      readonly gramsPerSecond: Decimal;
      /** Comes after the hand has stopped, in the second after it. */
      readonly dripGrams?: Decimal;
    }
  | { readonly do: 'scoop'; readonly grams: Decimal }
  | { readonly do: 'bump' } // a knock: two readings off, then as before
  | { readonly do: 'press'; readonly grams: Decimal; readonly forMs: number }
  | { readonly do: 'spill_on_plate'; readonly grams: Decimal }
  | { readonly do: 'wipe' }
  | { readonly do: 'press_zero' }
  | { readonly do: 'sleep' }
  | { readonly do: 'wake' }
);

/** How the scale is made. */
export interface SimulatedScale {
  readonly seed: number;
  readonly intervalGrams: Decimal;
  readonly capacityGrams: Decimal;
  /** Noise of a still load, in intervals, at most this much either way (0 for none). */
  readonly noiseIntervals: Decimal;
  /** Whether it says itself that it stands still. */
  readonly tellsStable: boolean;
}

/** A usual bench scale: 3000 g by 1 g, no noise beyond half an interval, says when it is stable. */
export const usualSimulatedScale: SimulatedScale = {
  seed: 1,
  intervalGrams: decimal('1'),
  capacityGrams: decimal('3000'),
  noiseIntervals: decimal('0.2'),
  tellsStable: true,
};

const swingMs = 600;
const stillAfterMs = swingMs;
const dripTimeMs = 1000;
const bumpMs = 200;
const swing = decimal('0.06');
const bumpGrams = decimal('40');

/**
 * The reading at a moment: what all deeds up to then have put on the plate, with the swing of
 * the plate after a sudden load, noise, overload and sleep. Undefined while it sleeps. The same
 * scale, deeds and moment always give the same reading.
 */
export function simulatedReading(
  scale: SimulatedScale,
  deeds: readonly Deed[],
  atMs: number,
): Reading | undefined {
  const past = deeds.filter((deed) => deed.atMs <= atMs);
  const power = past.findLast((deed) => deed.do === 'sleep' || deed.do === 'wake');
  if (power?.do === 'sleep') return undefined;
  const { load, movedAtMs, jump } = loadAt(past, atMs);
  const since = atMs - movedAtMs;
  const weighs = load.plus(swingAt(jump, since)).plus(noiseAt(scale, atMs));
  const shown = round(weighs.dividedBy(scale.intervalGrams), 0, 'half_even').times(
    scale.intervalGrams,
  );
  const stable = scale.tellsStable ? since >= stillAfterMs : undefined;
  const base = { kind: 'reading', mode: 'gross', carriedBy: `simulated at ${atMs} ms` } as const;
  if (load.greaterThan(scale.capacityGrams)) return { ...base, status: 'over', stable: false };
  const grams = shown.isZero() ? zero : shown;
  const { intervalGrams } = scale;
  return { ...base, status: 'weight', value: grams, grams, unit: 'g', stable, intervalGrams };
}

/**
 * A pour as a hand does it: up to 2 g short of or 5 g past its target, 10 to 40 g a second, with
 * a drip of up to 2 g. The same seed pours the same.
 */
export function pourByHand(seed: number, targetGrams: Decimal, atMs: number): Deed {
  const roll = (salt: number, below: number) => count(scatter(seed, salt) % below);
  return {
    do: 'pour',
    atMs,
    grams: larger(decimal('0.1'), targetGrams.minus(2).plus(roll(1, 71).dividedBy(10))),
    gramsPerSecond: roll(2, 31).plus(10),
    dripGrams: roll(3, 21).dividedBy(10),
  };
}

interface Load {
  /** Grams on the plate, less what the zero key took off. */
  readonly load: Decimal;
  readonly movedAtMs: number;
  /** Size of the last sudden change, which the plate swings after. */
  readonly jump: Decimal;
}

function loadAt(past: readonly Deed[], atMs: number): Load {
  let stands = zero;
  let beside = zero;
  let zeroed = zero;
  let passing = zero;
  let movedAtMs = -stillAfterMs;
  let jump = zero;
  for (const deed of past) {
    const before = stands;
    jump = zero;
    movedAtMs = deed.atMs;
    switch (deed.do) {
      case 'set_down':
        stands = stands.plus(deed.grams);
        jump = deed.grams;
        break;
      case 'lift':
        stands = zero;
        jump = before.negated();
        break;
      case 'pour': {
        stands = stands.plus(pouredBy(deed, atMs));
        movedAtMs = pourEndMs(deed, atMs);
        break;
      }
      case 'scoop':
        stands = stands.minus(deed.grams);
        break;
      case 'bump':
        if (atMs - deed.atMs < bumpMs) passing = bumpGrams;
        break;
      case 'press':
        // a finger is never still
        movedAtMs = Math.min(atMs, deed.atMs + deed.forMs);
        if (atMs - deed.atMs < deed.forMs) passing = deed.grams;
        break;
      case 'spill_on_plate':
        beside = beside.plus(deed.grams);
        break;
      case 'wipe':
        beside = zero;
        break;
      case 'press_zero':
        zeroed = stands.plus(beside);
        movedAtMs = deed.atMs - stillAfterMs;
        break;
      case 'sleep':
      case 'wake':
        break;
    }
  }
  return { load: stands.plus(beside).minus(zeroed).plus(passing), movedAtMs, jump };
}

type Pour = Extract<Deed, { do: 'pour' }>;

function flowMs(deed: Pour): Decimal {
  return deed.grams.dividedBy(deed.gramsPerSecond).times(1000);
}

function pouredBy(deed: Pour, atMs: number): Decimal {
  const since = count(Math.trunc(atMs - deed.atMs));
  const flow = flowMs(deed);
  if (since.lessThan(flow)) return deed.gramsPerSecond.times(since).dividedBy(1000);
  const drip = deed.dripGrams ?? zero;
  const after = since.minus(flow);
  const share = after.greaterThan(dripTimeMs) ? decimal('1') : after.dividedBy(dripTimeMs);
  return deed.grams.plus(drip.times(share));
}

function pourEndMs(deed: Pour, atMs: number): number {
  const dripping = deed.dripGrams?.greaterThan(zero) ? dripTimeMs : 0;
  const since = count(Math.trunc(atMs - deed.atMs));
  const flow = flowMs(deed);
  if (since.lessThan(flow.plus(dripping))) return atMs;
  // whole milliseconds of a clock, not an amount
  return deed.atMs + Number.parseInt(flow.plus(dripping).toFixed(0), 10);
}

/** A sudden load makes the plate swing past it and back within 0.6 s. */
function swingAt(jump: Decimal, sinceMs: number): Decimal {
  if (sinceMs >= swingMs || jump.isZero()) return zero;
  const left = count(Math.trunc(swingMs - sinceMs)).dividedBy(swingMs);
  const turn = Math.trunc(sinceMs / 100) % 2 === 0 ? left : left.negated();
  return jump.times(swing).times(turn);
}

/** Noise that depends on seed and moment only. */
function noiseAt(scale: SimulatedScale, atMs: number): Decimal {
  if (scale.noiseIntervals.isZero()) return zero;
  const roll = scatter(scale.seed, Math.trunc(atMs)) % 2001;
  const either = count(roll).minus(1000).dividedBy(1000);
  return either.times(scale.noiseIntervals).times(scale.intervalGrams);
}

/** A 32-bit mix of seed and moment (the finaliser of MurmurHash3, public domain). */
function scatter(seed: number, moment: number): number {
  let mixed = (Math.imul(seed, 0x9e3779b1) ^ moment) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35) >>> 0;
  return (mixed ^ (mixed >>> 16)) >>> 0;
}
