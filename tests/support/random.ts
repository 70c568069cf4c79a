/** Seeded random numbers for tests: the same seed, the same run. */

/** A source of whole numbers and choices, repeatable from its seed. */
export interface Random {
  /** 0 to below - 1. */
  below(below: number): number;
  oneOf<T>(choices: readonly T[]): T;
}

/** A random source from a seed (mulberry32, public domain). */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (mixed ^ (mixed >>> 14)) >>> 0;
  };
  const below = (limit: number) => next() % limit;
  return { below, oneOf: (choices) => choices[below(choices.length)]! };
}
