/** Repeatable chance for the invented studio: the same name gives the same numbers everywhere. */

/**
 * A stream of numbers: the generator sfc32 (C. Doty-Humphrey, PractRand), begun from the FNV-1a
 * hash of a name. Only the demo is drawn from it; nothing secret ever is.
 */
export class Chance {
  private a: number;
  private b: number;
  private c: number;
  private counter = 1;

  constructor(private readonly name: string) {
    this.a = fnv1a(name);
    this.b = fnv1a(`${name} `);
    this.c = fnv1a(` ${name}`);
    for (let warm = 0; warm < 12; warm += 1) this.next();
  }

  /** A stream of its own, so that one part of the story does not disturb another. */
  of(part: string): Chance {
    return new Chance(`${this.name}/${part}`);
  }

  /** At least 0 and less than 1. */
  next(): number {
    const sum = (this.a + this.b + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = ((this.c << 21) | (this.c >>> 11)) + sum;
    return (sum >>> 0) / 4_294_967_296;
  }

  /** A bare number between two others. */
  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number, both ends included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  /** True as often as the share says. */
  happens(share: number): boolean {
    return this.next() < share;
  }

  /** Scattered around 0 with standard deviation 1 (Box and Muller 1958). */
  scattered(): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return radius * Math.cos(2 * Math.PI * this.next());
  }

  /** How often something happens that happens `mean` times (Knuth, TAOCP 3.4.1). */
  times(mean: number): number {
    const limit = Math.exp(-mean);
    let product = this.next();
    let happened = 0;
    while (product > limit) {
      happened += 1;
      product *= this.next();
    }
    return happened;
  }

  /** One of a list that is not empty, by weight. */
  one<T>(list: readonly T[], weightOf: (each: T) => number = () => 1): T {
    const total = list.reduce((sum, each) => sum + weightOf(each), 0);
    let left = this.next() * total;
    for (const each of list) {
      left -= weightOf(each);
      if (left < 0) return each;
    }
    return list[list.length - 1] as T;
  }
}

function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193);
  }
  return hash | 0;
}
