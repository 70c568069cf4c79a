/** Messages about a scale as text: written by the agent, read strictly by service and page. */
import type { ReadingView, ScaleAway, ScaleMessage } from '../contract/scales.js';
import { canonical, decimal, isDecimalText } from '../decimal.js';
import type { Reading, ReadingStatus } from './reading.js';
import { isScaleUnit, toGrams } from './scale-units.js';

/** Subprotocols of the WebSocket: who brings readings says the one, who hears them the other. */
export const bringsReadings = 'bowlworth.scale.brings';
export const hearsReadings = 'bowlworth.scale.hears';

/** Where the agent listens for pages on its own machine, unless it is told otherwise. */
export const pageDoorPort = 4181;

/** The longest message there can be, in bytes. */
export const longestMessage = 2048;

/** What a source of readings tells, with decimals as decimals. */
export type Told =
  | { readonly type: 'reading'; readonly reading: Reading }
  | { readonly type: 'damage' }
  | { readonly type: 'lost'; readonly trouble: ScaleAway }
  | { readonly type: 'back' };

const statuses: readonly ReadingStatus[] = [
  'weight',
  'over',
  'under',
  'fault',
  'needs_calibration',
  'needs_zero',
  'not_ready',
];
const modes: readonly Reading['mode'][] = ['gross', 'net', 'unknown'];
const reasons: readonly ScaleAway[] = [
  'unplugged',
  'in_use',
  'not_permitted',
  'not_a_scale',
  'not_supported',
  'nobody_there',
];
const longestCarrier = 400;

/** A message as text; a reading that plain notation cannot carry becomes damage. */
export function writeTold(told: Told): string {
  return JSON.stringify(messageOf(told));
}

/** A message of what was told: reading 42.5 g -> {value: "42.5", unit: "g", …}. */
export function messageOf(told: Told): ScaleMessage {
  if (told.type !== 'reading') return told;
  const reading = readingView(told.reading);
  return reading ? { type: 'reading', reading } : { type: 'damage' };
}

/** A reading as it travels; undefined when a figure has more digits than plain notation takes. */
export function readingView(reading: Reading): ReadingView | undefined {
  const { status, value, unit, stable, mode, atZero, intervalGrams, carriedBy } = reading;
  const figures = [value, intervalGrams].map((each) => each && canonical(each));
  if (figures.some((text) => text !== undefined && !isDecimalText(text))) return undefined;
  const [valueText, interval] = figures;
  return {
    status,
    ...(valueText !== undefined && unit ? { value: valueText, unit } : {}),
    ...(stable === undefined ? {} : { stable }),
    mode,
    ...(atZero === undefined ? {} : { atZero }),
    ...(interval === undefined ? {} : { interval }),
    carriedBy: carriedBy.slice(0, longestCarrier),
  };
}

/** What a text says, strictly; undefined when it is no such message. Never throws. */
export function readTold(text: string): Told | undefined {
  if (text.length > longestMessage) return undefined;
  const message = parsed(text);
  switch (message?.['type']) {
    case 'damage':
      return { type: 'damage' };
    case 'back':
      return { type: 'back' };
    case 'lost': {
      const trouble = reasons.find((reason) => reason === message['trouble']);
      return trouble && { type: 'lost', trouble };
    }
    case 'reading': {
      const reading = isRecord(message['reading']) ? readReading(message['reading']) : undefined;
      return reading && { type: 'reading', reading };
    }
    default:
      return undefined;
  }
}

type Fields = Readonly<Record<string, unknown>>;

function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function parsed(text: string): Fields | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return isRecord(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

function readReading(view: Fields): Reading | undefined {
  const status = statuses.find((each) => each === view['status']);
  const mode = modes.find((each) => each === view['mode']);
  const { carriedBy, stable, atZero, interval } = view;
  if (!status || !mode || typeof carriedBy !== 'string') return undefined;
  if (carriedBy.length > longestCarrier) return undefined;
  if (![stable, atZero].every((each) => each === undefined || typeof each === 'boolean')) {
    return undefined;
  }
  if (!(interval === undefined || isFigure(interval))) return undefined;
  const figure = status === 'weight' ? readFigure(view) : {};
  return (
    figure && {
      kind: 'reading',
      status,
      mode,
      ...figure,
      stable: stable as boolean | undefined,
      ...(atZero === undefined ? {} : { atZero: atZero as boolean }),
      ...(interval === undefined ? {} : { intervalGrams: decimal(interval) }),
      carriedBy,
    }
  );
}

/** Value, unit and grams of a weight; undefined unless value and unit can both be read. */
function readFigure(view: Fields): Pick<Reading, 'value' | 'unit' | 'grams'> | undefined {
  const { value: text, unit } = view;
  if (!isFigure(text) || typeof unit !== 'string' || !isScaleUnit(unit)) return undefined;
  const value = decimal(text);
  const grams = toGrams(value, unit);
  return { value, unit, ...(grams ? { grams } : {}) };
}

function isFigure(value: unknown): value is string {
  return typeof value === 'string' && isDecimalText(value);
}
