/** Rows of the ledger's statements, as the database gives them. */
import type { LotSource } from '../../../shared/moving/movement.js';
import type { RecordedMovementRow } from './posting-rows.js';

export interface PourHoldingRow {
  bowl_id: string;
  pour_id: string;
  product_id: string;
  lot_id: string;
  quantity: string;
  value: string;
}

export interface LotRow {
  id: string;
  product_id: string;
  source: LotSource;
  received_on: string;
  expires_on: string | null;
  quantity: string;
  cost: string;
  held_quantity: string;
  held_value: string;
}

export interface JournalRow {
  id: string;
  kind: string;
  happened_at: Date;
  visit_id: string | null;
  bowl_id: string | null;
  reverses_id: string | null;
  reversed_by: string | null;
  movements: RecordedMovementRow[];
  counted: string[];
}

export interface LevelRow {
  product_id: string;
  on_day: string;
  at: Date | null;
  quantity: string;
}
