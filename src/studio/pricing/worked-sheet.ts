/** A visit's sheet as its rows are now, and what is kept of it. */
import { createHash } from 'node:crypto';
import { uuidv7 } from 'uuidv7';
import type { SheetView } from '../../../shared/contract/pricing.js';
import { priceSheet } from '../../../shared/pricing.js';
import type { SheetInput } from '../../../shared/pricing-input.js';
import type { VisitRow } from '../visits/visits.service.js';
import { sheetView } from './price-sheets.views.js';
import { basisText, sheetInputOf, type SheetRows } from './sheet-input.js';
import { notesOf } from './sheet-notes.js';

export interface Worked {
  readonly visit: VisitRow;
  readonly rows: SheetRows;
  readonly input: SheetInput;
  readonly sheet: SheetView;
  readonly basis: Buffer;
  /** The visit is closed and none of its bowls is open. */
  readonly isFinal: boolean;
}

/** A sheet that is kept. */
export interface KeptSheet {
  readonly id: string;
  readonly version: number;
  readonly replaces: string | null;
  readonly made_at: string;
  readonly basis: Buffer;
  readonly sheet: SheetView;
}

/** Works a sheet out. @throws Problem as `priceSheet` does */
export function workedSheet(rows: SheetRows): Worked {
  const { visit } = rows;
  const input = sheetInputOf(rows);
  const worked = priceSheet(input);
  const open = visit.bowls.some((bowl) => bowl.state === 'open');
  return {
    visit,
    rows,
    input,
    sheet: sheetView(worked, input, notesOf(rows, worked)),
    basis: createHash('sha256').update(basisText(input)).digest(),
    isFinal: visit.closed_at !== null && !open,
  };
}

/** The sheet to keep after the newest there is; the first one where there is none. */
export function nextSheet(
  { basis, sheet }: Worked,
  newest: Pick<KeptSheet, 'id' | 'version'> | undefined,
  madeAt: string,
): KeptSheet {
  return {
    id: uuidv7(),
    version: (newest?.version ?? 0) + 1,
    replaces: newest?.id ?? null,
    made_at: madeAt,
    ...{ basis, sheet },
  };
}

/** A row of KEEP_SHEETS. */
export function keptRow({ rows, visit }: Worked, kept: KeptSheet) {
  const { id, version, replaces, made_at, basis, sheet } = kept;
  return {
    ...{ id, visit_id: visit.id, version, replaces, made_at, ledger_seq: lastMovement(rows) },
    ...{ basis: basis.toString('hex'), sheet },
  };
}

/** The movement recorded last of all that a sheet rests on. */
function lastMovement({ flows, found }: SheetRows): string {
  return [...flows, ...found]
    .map((row) => BigInt(row.seq))
    .reduce((a, b) => (b > a ? b : a), 0n)
    .toString();
}
