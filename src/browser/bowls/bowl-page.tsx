/** One bowl in the hand: poured, added to, weighed, settled. */
import { lazy, Suspense, useEffect, useRef, useState } from 'react';
import { useProducts, useStudio, useVessels } from '../catalogue/catalogue.js';
import { benchScale } from '../scales/bench-scale.js';
import { AtTheScale } from '../scales/at-the-scale.js';
import { useSourceStatus } from '../scales/weighing-state.js';
import { texts } from '../shell/texts.js';
import { BowlInHand } from './bowl-in-hand.js';
import { LeftView } from './left-view.js';
import type { KnownHere } from './next.js';
import { takeUpBowl } from './open-bowls.js';
import { PourView } from './pour-view.js';
import { SettledView } from './settled-view.js';
import type { Sheet } from './sheet.js';
import { sheets } from './sheets.js';

const MoreView = lazy(() => import('./more-view.js'));
const DivideView = lazy(() => import('./divide-view.js'));
const MoveView = lazy(() => import('./move-view.js'));

/** The page of a bowl; `part` is "left", "more", "divide" or "move", else it is poured. */
export function BowlPage({ id, part }: { id: string; part: string | undefined }) {
  const sheet = sheets.use(id);
  const trouble = useTakenUp(id);
  // while it is divided, the second bowl is on the scale
  const hand = useHand(id, sheet !== undefined && sheet.settled === null && part !== 'divide');
  if (trouble !== '') return <p role="alert">{trouble}</p>;
  if (sheet?.settled) return <SettledView sheet={sheet} settled={sheet.settled} />;
  if (!sheet || !(hand || part === 'divide')) return <p>{texts.loading}</p>;
  return (
    <>
      <Suspense fallback={<p>{texts.loading}</p>}>
        <Part part={part} sheet={sheet} hand={hand} />
      </Suspense>
      <AtTheScale />
    </>
  );
}

function Part(props: { part: string | undefined; sheet: Sheet; hand: BowlInHand | undefined }) {
  const { part, sheet, hand } = props;
  if (part === 'divide') return <DivideView sheet={sheet} />;
  if (!hand) return null;
  if (part === 'left') return <LeftView sheet={sheet} hand={hand} />;
  if (part === 'more') return <MoreView sheet={sheet} hand={hand} />;
  if (part === 'move') return <MoveView sheet={sheet} />;
  return <PourView sheet={sheet} hand={hand} />;
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
  const vessels = useVessels();
  const known = useRef<KnownHere>({ products, vessels, country: undefined });
  known.current = { products, vessels, country: studio?.country ?? undefined };
  const { source, state } = useSourceStatus();
  const [hand, setHand] = useState<BowlInHand>();
  const opened = state === 'open' ? source : undefined;
  const begins = ready && products.size > 0 && studio !== undefined;
  useEffect(() => {
    if (!begins) return undefined;
    const taken = new BowlInHand(id, sheets, benchScale, () => known.current);
    setHand(taken);
    return () => {
      taken.putAside();
      setHand(undefined);
    };
  }, [id, begins, opened]);
  return hand;
}
