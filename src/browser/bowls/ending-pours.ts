/** Pours from the moment the scale moved on until they are booked: drips, what was scooped. */
import { canonical, zero, type Decimal } from '../../../shared/decimal.js';
import type { PourRecord } from '../../../shared/weighing/state.js';
import type { SourceName } from '../scales/source.js';
import * as booking from './bookings.js';
import { booked, scoopedBack, withPour } from './sheet.js';
import type { PendingPour, Sheet, SheetPour } from './sheet.js';

/** The bowl that the pours go into. */
export interface PourBowl {
  readonly sheet: () => Sheet;
  readonly write: (sheet: Sheet) => void;
  readonly source: () => SourceName;
  readonly nameOf: (productId: string) => string;
}

export class EndingPours {
  private readonly ending = new Map<string, SheetPour>();
  private readonly scoops = new Map<string, Decimal>();

  constructor(private readonly bowl: PourBowl) {}

  /** What will be told of a pour; it stands in the sheet with it until it is booked. */
  pending(productId: string, finished: boolean, record?: PourRecord): PendingPour {
    const told = { name: this.bowl.nameOf(productId), finished };
    return record ? { ...told, scale: scaleOf(record, this.bowl.source()) } : told;
  }

  /** Notes what is poured now, so that a page that is cut off goes on with it. */
  underway(productId: string | null): void {
    const sheet = this.bowl.sheet();
    if ((sheet.underway ?? null) !== productId) this.bowl.write({ ...sheet, underway: productId });
  }

  /** The scale moved on from it; it stands in the sheet and may still drip. */
  movedOn(pour: SheetPour): void {
    this.ending.set(pour.id, pour);
    const scooped = this.scoops.get(pour.id);
    if (scooped) this.bowl.write(scoopedBack(this.bowl.sheet(), pour.id, scooped));
  }

  /** It was another product; true where nothing was told of the pour yet. */
  relabelled(pourId: string, productId: string): boolean {
    const found = this.ending.get(pourId);
    if (!found) return false;
    const name = this.bowl.nameOf(productId);
    const pending = { finished: false, ...found.pending, name };
    this.ending.set(pourId, { ...found, productId, pending });
    this.bowl.write(withPour(this.bowl.sheet(), { ...found, productId, pending }));
    return true;
  }

  /** It is final, and is booked. Returns true where drips changed it. */
  poured(record: PourRecord): boolean {
    const { pourId } = record;
    const found = this.ending.get(pourId);
    if (!found) return false;
    this.ending.delete(pourId);
    const scooped = this.scoops.get(pourId);
    this.scoops.delete(pourId);
    const { id, productId, pouredAt, due } = found;
    const pour = { id, productId, grams: canonical(record.grams), pouredAt, due };
    const dripped = pour.grams !== found.grams;
    if (dripped) {
      const sheet = withPour(this.bowl.sheet(), pour);
      this.bowl.write(scooped ? scoopedBack(sheet, pourId, scooped) : sheet);
    } else {
      this.bowl.write(booked(this.bowl.sheet(), pourId));
    }
    const told = this.pending(productId, found.pending?.finished ?? false, record);
    booking.bookPour(this.bowl.sheet(), pour, told);
    if (scooped) booking.bookScoop(this.bowl.sheet(), pourId, scooped);
    return dripped;
  }

  /** Something went back; of a pour that is not booked yet it is told after that one. */
  scooped(pourId: string | undefined, grams: Decimal): void {
    if (pourId === undefined) return;
    const sheet = this.bowl.sheet();
    if (sheet.pours.some((pour) => pour.id === pourId) && !this.ending.has(pourId)) {
      this.bowl.write(scoopedBack(sheet, pourId, grams));
      booking.bookScoop(this.bowl.sheet(), pourId, grams);
    } else {
      this.scoops.set(pourId, (this.scoops.get(pourId) ?? zero).plus(grams));
    }
  }
}

/** How a pour was weighed. */
function scaleOf(record: PourRecord, source: SourceName): NonNullable<PendingPour['scale']> {
  return {
    interval: canonical(record.intervalGrams),
    stable: record.stable,
    windowMs: Math.trunc(record.windowMs),
    source,
  };
}
