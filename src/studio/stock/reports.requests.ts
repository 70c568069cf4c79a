/** What may be asked about the shelf. */
import { Day, Field, Flag, Id, OneOf, Whole } from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { Unreadable } from '../../platform/http/unreadable.js';
import type { UsageKey } from './shelf.queries.js';

const usageKeys: readonly UsageKey[] = ['product', 'strength', 'month'];

const journalKinds = [
  'opening',
  'delivery',
  'pour',
  'scooped back',
  'division',
  'weighing',
  'settlement',
  'use',
  'discard',
  'count',
  'cost correction',
  'supplier return',
  'transfer',
  'reversal',
] as const;

function readUsageKeys(value: unknown): readonly UsageKey[] | Unreadable {
  const words = typeof value === 'string' ? value.split(',').map((word) => word.trim()) : [];
  const known = usageKeys.filter((key) => words.includes(key));
  if (words.length > 0 && known.length === new Set(words).size) return known;
  return new Unreadable('unknown_word', `Give one or more of: ${usageKeys.join(', ')}.`);
}

export class ShelfRequest {
  @OneOf(['product', 'strength'], { optional: true })
  by: 'product' | 'strength' = 'product';
}

export class ShelfValueRequest {
  @Day({ description: 'The value at the end of this day.' })
  at!: string;
}

export class UsageRequest {
  @Day({ optional: true, description: 'Twelve months before `to`, unless told.' })
  from?: string;

  @Day({ optional: true, description: 'Exclusive; tomorrow, unless told.' })
  to?: string;

  @Field(
    readUsageKeys,
    { type: 'string', example: 'product,month' },
    { optional: true, description: 'product, strength, month, or several with commas.' },
  )
  by: readonly UsageKey[] = ['product'];
}

export class MovementListRequest extends PageRequest {
  @Id({ optional: true })
  product?: string;

  @Id({ optional: true })
  lot?: string;

  @Id({ optional: true })
  bowl?: string;

  @Id({ optional: true })
  visit?: string;

  @Id({ optional: true })
  journal?: string;

  @Id({ optional: true })
  person?: string;

  @OneOf(journalKinds, { optional: true })
  kind?: (typeof journalKinds)[number];

  @Day({ optional: true })
  from?: string;

  @Day({ optional: true, description: 'Exclusive.' })
  to?: string;

  @OneOf(['json', 'csv'], { optional: true })
  format?: 'json' | 'csv';
}

export class LotListRequest extends PageRequest {
  @Id({ optional: true })
  productId?: string;

  @Flag({ optional: true, description: 'Empty ones too.' })
  empty: boolean = false;
}

export class DeliveryListRequest extends PageRequest {
  @Id({ optional: true })
  supplierId?: string;

  @Id({ optional: true })
  productId?: string;
}

export class AuditRequest {
  @Whole({ optional: true, max: Number.MAX_SAFE_INTEGER, description: 'Movements after this one.' })
  since?: number;
}
