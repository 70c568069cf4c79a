/** Trying again after a while, longer each time, until it is called off. */
import { setTimeout as wait } from 'node:timers/promises';

const shortestMs = 500;
const longestMs = 10_000;

/** How long to wait before the next try: 0.5 s after the first failure, doubling, at most 10 s. */
export function pauseMs(failures: number): number {
  return Math.min(longestMs, shortestMs * 2 ** Math.max(0, failures - 1));
}

/** Waits, unless it is called off before. */
export async function pause(ms: number, until: AbortSignal): Promise<void> {
  await wait(ms, undefined, { signal: until }).catch(() => undefined);
}
