/** Which kind of device this is, to show its own steps first. */
import type { texts } from './texts.js';

export type Kind = keyof (typeof texts)['ways'];

/**
 * The kind by what the browser says of itself. An iPad says that it is a Mac, but has fingers.
 * @param agent navigator.userAgent
 * @param fingers navigator.maxTouchPoints
 */
export function kindOf(agent: string, fingers: number): Kind {
  if (/Android/.test(agent)) return 'android';
  if (/iPad|iPhone/.test(agent) || (/Macintosh/.test(agent) && fingers > 1)) return 'ipad';
  if (/Firefox\//.test(agent)) return 'firefox';
  if (/Windows/.test(agent)) return 'windows';
  return /Macintosh/.test(agent) ? 'mac' : 'chrome';
}
