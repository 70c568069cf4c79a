/** One bowl in the hand: poured, added to, weighed, settled. */
import { useEffect, useRef, useState } from 'react';
import { useProducts, useStudio } from '../catalogue/catalogue.js';
import { benchScale } from '../scales/bench-scale.js';
import { PracticeHand } from '../scales/practice-hand.js';
import { ScaleStrip } from '../scales/scale-strip.js';
import { SimulatedSource } from '../scales/simulated-source.js';
import { useSourceStatus } from '../scales/weighing-state.js';
import { texts } from '../shell/texts.js';
import { BowlInHand } from './bowl-in-hand.js';
import { LeftView } from './left-view.js';
import { MoreView } from './more-view.js';
import type { Known } from './next.js';
import { takeUpBowl } from './open-bowls.js';
import { PourView } from './pour-view.js';
import { SettledView } from './settled-view.js';
import { sheets } from './sheets.js';

/** The page of a bowl; `part` is "left" or "more", else it is poured. */
export function BowlPage({ id, part }: { id: string; part: string | undefined }) {
  const sheet = sheets.use(id);
  const trouble = useTakenUp(id);
  const hand = useHand(id, sheet !== undefined && sheet.settled === null);
  const { source } = useSourceStatus();
  if (trouble !== '') return <p role="alert">{trouble}</p>;
  if (sheet?.settled) return <SettledView sheet={sheet} settled={sheet.settled} />;
  if (!sheet || !hand) return <p>{texts.loading}</p>;
  return (
    <>
      {part === 'left' && <LeftView sheet={sheet} hand={hand} />}
      {part === 'more' && <MoreView sheet={sheet} hand={hand} />}
      {part !== 'left' && part !== 'more' && <PourView sheet={sheet} hand={hand} />}
      <ScaleStrip />
      {source instanceof SimulatedSource && <PracticeHand source={source} />}
    </>
  );
}

/** Reads the bowl's sheet where this bench has none; a sentence where there is no such bowl. */
function useTakenUp(id: string): string {
  const [trouble, setTrouble] = useState('');
  useEffect(() => {
    takeUpBowl(id).catch((error: Error) => setTrouble(error.message));
  }, [id]);
  return trouble;
}

/** The bowl in the hand, as long as the page is open and its scale is the same. */
function useHand(id: string, ready: boolean): BowlInHand | undefined {
  const products = useProducts().byId;
  const studio = useStudio();
  const known = useRef<Omit<Known, 'interval' | 'wanted'>>({ products, country: undefined });
  known.current = { products, country: studio?.country ?? undefined };
  const { source, state } = useSourceStatus();
  const [hand, setHand] = useState<BowlInHand>();
  const opened = state === 'open' ? source : undefined;
  const begins = ready && products.size > 0 && studio !== undefined;
  useEffect(() => {
    if (!begins) return undefined;
    const taken = new BowlInHand(id, sheets, benchScale, () => known.current);
    setHand(taken);
    return () => taken.putAside();
  }, [id, begins, opened]);
  return hand;
}
