/** The weighing machine as pages look at it: only what they show, so that they seldom redraw. */
import { useSyncExternalStore } from 'react';
import type { WeighingState } from '../../../shared/weighing/state.js';
import { useStore } from '../shell/store.js';
import { benchScale, type SourceStatus } from './bench-scale.js';

/** One plain value of the state; the page redraws when it changes. */
export function useWeighing<T extends string | number | boolean | undefined>(
  look: (state: WeighingState) => T,
): T {
  return useSyncExternalStore(
    (listener) => benchScale.weighing.listen(listener),
    () => look(benchScale.weighing.get()),
  );
}

/** Which source weighs, and where it stands. */
export function useSourceStatus(): SourceStatus {
  return useStore(benchScale.status);
}
