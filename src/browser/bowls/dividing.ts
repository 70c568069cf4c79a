/** Dividing a bowl: part of it goes into a second one, every product in the bowl's proportion. */
import { uuidv7 } from 'uuidv7';
import type { BowlView } from '../../../shared/contract/bowls.js';
import { canonical, round, type Decimal } from '../../../shared/decimal.js';
import { bookDivision } from './bookings.js';
import { contentsByProduct, contentsGrams, sheetOf, type Sheet } from './sheet.js';
import { sheets } from './sheets.js';

/** What is said of the second bowl. */
export type SecondBowl = Pick<Sheet, 'visitId' | 'purpose' | 'mark' | 'tareGrams'>;

/** The second bowl's sheet with so many grams of the first one; it has the first one's age. */
export function secondSheet(sheet: Sheet, grams: Decimal, second: SecondBowl): Sheet {
  const part = grams.dividedBy(contentsGrams(sheet));
  const since = sheet.pours.at(-1)?.pouredAt ?? '';
  const pours = [...contentsByProduct(sheet)].map(([productId, held]) => ({
    ...{ id: uuidv7(), productId, pouredAt: since, due: null },
    grams: canonical(round(held.times(part), 3, 'half_even')),
  }));
  return {
    ...sheet,
    ...second,
    ...{ id: uuidv7(), vesselId: null, request: null, planned: [], opened: true, pours },
    ...{ planFrom: 0, weighed: null, finished: [], choice: null, extra: null },
  };
}

/** Divides: both sheets change at once; the service's answer names the second one's pours. */
export function divide(sheet: Sheet, grams: Decimal, second: SecondBowl): void {
  const into = secondSheet(sheet, grams, second);
  bookDivision(sheet, grams, into, (answered) => {
    const { into: there } = answered as { into: BowlView };
    const now = sheets.get(into.id);
    if (now?.settled === null && now.pours === into.pours) sheets.put(sheetOf(there));
  });
  const left = contentsGrams(sheet).minus(grams);
  const weighed = { grams: canonical(left), pours: sheet.pours.length };
  sheets.put({ ...sheet, weighed, divided: true });
  sheets.put(into);
}

/** False once a brush has been in it for all that is known: it was weighed in between. */
export function maybeUntouched(sheet: Sheet): boolean {
  return sheet.weighed === null || sheet.divided === true;
}
