/** A number of something: 42.5 g, 60 ml, 3 piece, 12.40 EUR; the unit is part of the type. */
import { canonical, decimal, round, zero, type Decimal, type Rounding } from './decimal.js';
import { Problem } from './problems/problem.js';

/** Units in which stock is kept. */
export type StockUnit = 'g' | 'ml' | 'piece';
export const stockUnits: readonly StockUnit[] = ['g', 'ml', 'piece'];

/** A value with its unit. Adding grams to euros fails to compile, and fails at run time. */
export class Amount<U extends string = string> {
  constructor(
    readonly value: Decimal,
    readonly unit: U,
  ) {}

  plus(other: Amount<U>): Amount<U> {
    return new Amount(this.value.plus(this.like(other)), this.unit);
  }

  minus(other: Amount<U>): Amount<U> {
    return new Amount(this.value.minus(this.like(other)), this.unit);
  }

  /** Times a bare number (a share, a ratio's part); an amount times an amount is no amount. */
  times(factor: Decimal): Amount<U> {
    return new Amount(this.value.times(factor), this.unit);
  }

  dividedBy(factor: Decimal): Amount<U> {
    return new Amount(this.value.dividedBy(factor), this.unit);
  }

  /** This over another of the same unit: a bare number. */
  over(other: Amount<U>): Decimal {
    return this.value.dividedBy(this.like(other));
  }

  rounded(places: number, rounding: Rounding): Amount<U> {
    return new Amount(round(this.value, places, rounding), this.unit);
  }

  compare(other: Amount<U>): -1 | 0 | 1 {
    return this.value.comparedTo(this.like(other)) as -1 | 0 | 1;
  }

  isZero(): boolean {
    return this.value.isZero();
  }

  isNegative(): boolean {
    return this.value.isNegative() && !this.value.isZero();
  }

  equals(other: Amount<U>): boolean {
    return this.unit === other.unit && this.value.equals(other.value);
  }

  /** "60.5 g" */
  toString(): string {
    return `${canonical(this.value)} ${this.unit}`;
  }

  /** As JSON it is what a request says: {"quantity": "60.5", "unit": "g"}. */
  toJSON(): { quantity: string; unit: U } {
    return { quantity: canonical(this.value), unit: this.unit };
  }

  private like(other: Amount<U>): Decimal {
    if (other.unit !== this.unit) {
      throw new Problem('units_differ', { left: this.unit, right: other.unit });
    }
    return other.value;
  }
}

/** Grams from plain text or a decimal: grams("42.5"). */
export function grams(value: string | Decimal): Amount<'g'> {
  return new Amount(decimal(value), 'g');
}

/** Millilitres from plain text or a decimal. */
export function millilitres(value: string | Decimal): Amount<'ml'> {
  return new Amount(decimal(value), 'ml');
}

/** An amount of any unit: amount("12.40", "EUR"). */
export function amount<U extends string>(value: string | Decimal, unit: U): Amount<U> {
  return new Amount(decimal(value), unit);
}

/** Nothing of a unit. */
export function none<U extends string>(unit: U): Amount<U> {
  return new Amount(zero, unit);
}

/** Sum of amounts of one unit; none of it for an empty list. */
export function total<U extends string>(amounts: Iterable<Amount<U>>, unit: U): Amount<U> {
  let sum = none(unit);
  for (const each of amounts) sum = sum.plus(each);
  return sum;
}
