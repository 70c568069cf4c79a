/** The sources that a bench may choose from. */
import { onThisMachine, throughService } from './agent-doors.js';
import { AgentSource } from './agent-source.js';
import { hidOfBrowser, serialOfBrowser } from './devices.js';
import { HidSource } from './hid-source.js';
import { KeypadSource } from './keypad-source.js';
import { SerialSource } from './serial-source.js';
import { SimulatedSource } from './simulated-source.js';
import type { ScaleSource, SourceName } from './source.js';

/** A source that can be chosen. */
export interface Offered {
  readonly name: SourceName;
  /** It needs no tap of the person, so the page opens it again after a reload. */
  readonly opensAlone: boolean;
  readonly make: () => ScaleSource;
}

const agent: Offered = {
  name: 'agent',
  opensAlone: true,
  make: () => new AgentSource([onThisMachine, throughService]),
};
// once chosen, browsers let the page open these again without a tap
const hid: Offered = { name: 'hid', opensAlone: true, make: () => new HidSource() };
const serial: Offered = { name: 'serial', opensAlone: true, make: () => new SerialSource() };
const keypad: Offered = { name: 'keypad', opensAlone: true, make: () => new KeypadSource() };
const simulated: Offered = {
  name: 'simulated',
  opensAlone: true,
  make: () => new SimulatedSource(),
};

/** What this bench may choose from; a simulated scale only where nothing real is booked. */
export function sourcesFor(demo: boolean): readonly Offered[] {
  const straight = [...(hidOfBrowser() ? [hid] : []), ...(serialOfBrowser() ? [serial] : [])];
  return [...(demo ? [simulated] : []), agent, ...straight, keypad];
}

/** Whether this browser can read a scale by itself; else it needs the agent, or the keypad. */
export function readsScalesItself(): boolean {
  return hidOfBrowser() !== undefined || serialOfBrowser() !== undefined;
}
