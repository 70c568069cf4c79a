/** What a bowl weighs when it is empty, and as what it would be known again on the plate. */
import type { VesselView } from '../../../shared/contract/catalogue.js';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import type { Expected } from '../../../shared/weighing/state.js';
import type { OpenBowl } from '../../../shared/weighing/which-bowl.js';
import { contentsGrams, type Sheet } from './sheet.js';

/** Empty weight in g: as it was set down, else its vessel's own; undefined where none is known. */
export function tareOf(sheet: Sheet, vessels: readonly VesselView[]): Decimal | undefined {
  if (sheet.tareGrams !== null) return decimal(sheet.tareGrams);
  const vessel = vessels.find(({ id }) => id === sheet.vesselId);
  return vessel && decimal(vessel.tare.quantity);
}

/**
 * The bowl as the scale awaits it; `ownTare` is what the scale itself takes off every bowl.
 * @param cutOff the page was cut off in the middle of a pour into it
 */
export function expectedBowl(
  sheet: Sheet,
  vessels: readonly VesselView[],
  ownTare: Decimal | undefined,
  cutOff: boolean,
): Expected {
  const tare = ownTare ?? tareOf(sheet, vessels);
  const source = ownTare || sheet.tareGrams !== null ? 'bowl' : 'vessel';
  return {
    tares: tare ? { [source]: tare } : {},
    contentsGrams: contentsGrams(sheet),
    touched: sheet.firstContactAt !== null,
    isPack: false,
    cutOff,
  };
}

/** The bowls whose empty weight is known, as the plate compares them with a weight. */
export function knownBowls(
  sheets: readonly Sheet[],
  vessels: readonly VesselView[],
): readonly OpenBowl[] {
  return sheets.flatMap((sheet) => {
    const tareGrams = tareOf(sheet, vessels);
    if (!tareGrams) return [];
    const contents = contentsGrams(sheet);
    const { id, vesselId } = sheet;
    return [
      {
        ...{ id, tareGrams, contentsGrams: contents, lastGrossGrams: tareGrams.plus(contents) },
        ...(vesselId === null ? {} : { vesselId }),
      },
    ];
  });
}
