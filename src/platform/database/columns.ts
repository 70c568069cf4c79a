/** How numeric columns become decimals in an entity, and back. */
import type { ValueTransformer } from 'typeorm';
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';

/** For `@Column('numeric', { transformer: decimalColumn })` of type `Decimal`, or null. */
export const decimalColumn: ValueTransformer = {
  to: (value: Decimal | null | undefined) => (value ? canonical(value) : value),
  from: (text: string | null) => (text === null ? null : decimal(text)),
};
