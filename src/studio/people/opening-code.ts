/** The code that lets another device open the first studio: printed at the start, for one use. */
import { randomInt } from 'node:crypto';

/** No letter or digit that another one is taken for. */
const signs = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
const length = 8;
const mostTries = 5;

/** Forty bits of chance and five tries; a start of the service makes another. */
export class OpeningCode {
  /** As it is printed: "K7QM-2RTP". */
  readonly text: string;
  private wrong = 0;

  constructor() {
    const drawn = Array.from({ length }, () => signs.charAt(randomInt(signs.length))).join('');
    this.text = `${drawn.slice(0, length / 2)}-${drawn.slice(length / 2)}`;
  }

  get triesLeft(): number {
    return mostTries - this.wrong;
  }

  /** True for the code in any case, with or without its hyphen; a wrong one uses up a try. */
  fits(given: string | undefined): boolean {
    if (this.triesLeft <= 0) return false;
    if (given !== undefined && plain(given) === plain(this.text)) return true;
    if (given !== undefined) this.wrong += 1;
    return false;
  }
}

function plain(code: string): string {
  return code.replace(/[\s-]/g, '').toUpperCase();
}
