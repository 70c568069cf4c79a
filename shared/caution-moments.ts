/** Cautions that belong to a moment, whatever is mixed. */
import { caution, type Caution } from './cautions.js';

/** Said before the first powder of a day. */
export const beforePowder: readonly Caution[] = [caution('powder_dust', {}), caution('gloves', {})];

/** Said of every mixed bowl. */
export const ofEveryBowl: readonly Caution[] = [
  caution('gloves', {}),
  caution('eyes', {}),
  caution('brows_and_lashes', {}),
  caution('never_back', {}),
  caution('never_sealed', {}),
  caution('professional_first', {}),
];

/** Said when something is taken out of a mixed bowl, when it is divided, when it is settled. */
export const takenOut: readonly Caution[] = [caution('never_back', {})];
export const dividing: readonly Caution[] = [caution('stays_with_client', {})];
export const settling: readonly Caution[] = [
  caution('never_sealed', {}),
  caution('never_back', {}),
];
