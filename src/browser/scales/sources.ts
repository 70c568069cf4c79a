/** The sources that a bench may choose from. */
import { KeypadSource } from './keypad-source.js';
import { SimulatedSource } from './simulated-source.js';
import type { ScaleSource, SourceName } from './source.js';

/** A source that can be chosen. */
export interface Offered {
  readonly name: SourceName;
  /** It needs no tap of the person, so the page opens it again after a reload. */
  readonly opensAlone: boolean;
  readonly make: () => ScaleSource;
}

const keypad: Offered = { name: 'keypad', opensAlone: true, make: () => new KeypadSource() };
const simulated: Offered = {
  name: 'simulated',
  opensAlone: true,
  make: () => new SimulatedSource(),
};

/** What this bench may choose from; a simulated scale only where nothing real is booked. */
export function sourcesFor(demo: boolean): readonly Offered[] {
  return demo ? [simulated, keypad] : [keypad];
}
