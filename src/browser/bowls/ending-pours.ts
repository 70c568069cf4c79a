/** Pours from the moment the scale moved on until the service is told: drips, what was scooped. */
import { canonical, zero, type Decimal } from '../../../shared/decimal.js';
import type { PourRecord } from '../../../shared/weighing/state.js';
import type { SourceName } from '../scales/source.js';
import * as booking from './bookings.js';
import { scoopedBack, withPour, type Sheet, type SheetPour } from './sheet.js';

/** The bowl that the pours go into. */
export interface PourBowl {
  readonly sheet: () => Sheet;
  readonly write: (sheet: Sheet) => void;
  readonly source: () => SourceName;
  readonly nameOf: (productId: string) => string;
}

export class EndingPours {
  private readonly ending = new Map<string, { pour: SheetPour; finished: boolean }>();
  private readonly scoops = new Map<string, Decimal>();

  constructor(private readonly bowl: PourBowl) {}

  /** The scale moved on from it; it stands in the sheet and may still drip. */
  movedOn(pour: SheetPour, finished: boolean): void {
    this.ending.set(pour.id, { pour, finished });
    const scooped = this.scoops.get(pour.id);
    if (scooped) this.bowl.write(scoopedBack(this.bowl.sheet(), pour.id, scooped));
  }

  /** It is final, and is booked. Returns true where drips changed it. */
  poured(record: PourRecord): boolean {
    const found = this.ending.get(record.pourId);
    if (!found) return false;
    this.ending.delete(record.pourId);
    const pour = { ...found.pour, grams: canonical(record.grams) };
    const dripped = pour.grams !== found.pour.grams;
    if (dripped) this.bowl.write(withPour(this.bowl.sheet(), pour));
    this.book(pour, record, found.finished);
    const scooped = this.scoops.get(record.pourId);
    if (scooped) {
      this.scoops.delete(record.pourId);
      if (dripped) this.bowl.write(scoopedBack(this.bowl.sheet(), record.pourId, scooped));
      booking.bookScoop(this.bowl.sheet(), record.pourId, scooped);
    }
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

  /** Tells the service of a pour. */
  book(pour: SheetPour, record: PourRecord | undefined, finished: boolean): void {
    const name = this.bowl.nameOf(pour.productId);
    booking.bookPour(this.bowl.sheet(), pour, record, {
      source: this.bowl.source(),
      finished,
      name,
    });
  }
}
