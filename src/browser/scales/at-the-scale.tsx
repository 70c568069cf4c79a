/** What stands below every page that weighs: the scale, and hands for the practice scale. */
import { lazy, Suspense } from 'react';
import { ScaleStrip } from './scale-strip.js';
import { SimulatedSource } from './simulated-source.js';
import { useSourceStatus } from './weighing-state.js';

const PracticeHand = lazy(() => import('./practice-hand.js'));

/** The strip of the scale, and below it the practice hand where that scale is in use. */
export function AtTheScale() {
  const { source } = useSourceStatus();
  return (
    <>
      <ScaleStrip />
      {source instanceof SimulatedSource && (
        <Suspense fallback={null}>
          <PracticeHand source={source} />
        </Suspense>
      )}
    </>
  );
}
