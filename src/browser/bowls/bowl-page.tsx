/** One bowl in the hand: poured, added to, weighed, settled. */
import { lazy, Suspense, useEffect, useState } from 'react';
import { Button } from 'react-aria-components';
import { AtTheScale } from '../scales/at-the-scale.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { bowlInWords } from './bowl-lines.js';
import { LeftView } from './left-view.js';
import { takeUpBowl } from './open-bowls.js';
import { PourView } from './pour-view.js';
import { SettledView } from './settled-view.js';
import type { Sheet } from './sheet.js';
import { sheets } from './sheets.js';
import { useHand } from './use-hand.js';

const MoreView = lazy(() => import('./more-view.js'));
const DivideView = lazy(() => import('./divide-view.js'));
const MoveView = lazy(() => import('./move-view.js'));

/** The page of a bowl; `part` is "left", "more", "divide" or "move", else it is poured. */
export function BowlPage({ id, part }: { id: string; part: string | undefined }) {
  const sheet = sheets.use(id);
  const trouble = useTakenUp(id);
  // while it is divided, the second bowl is on the scale
  const ready = sheet !== undefined && sheet.settled === null && part !== 'divide';
  const { hand, elsewhere, takeOver } = useHand(id, ready);
  if (trouble !== '') return <p role="alert">{trouble}</p>;
  if (sheet?.settled) return <SettledView sheet={sheet} settled={sheet.settled} />;
  if (sheet && elsewhere) return <Elsewhere sheet={sheet} takeOver={takeOver} />;
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

/** Another tab has it in hand; two of them would weigh past each other. */
function Elsewhere({ sheet, takeOver }: { sheet: Sheet; takeOver: () => void }) {
  return (
    <section className="page narrow" aria-labelledby="elsewhere-title">
      <h1 id="elsewhere-title">
        {texts.elsewhere.title} <small>{bowlInWords(sheet)}</small>
      </h1>
      <p>{texts.elsewhere.why}</p>
      <div className="keys">
        <Button className="key strong" onPress={takeOver}>
          {texts.elsewhere.takeOver}
        </Button>
        <Button className="key" onPress={() => goTo('bench')}>
          {texts.pour.back}
        </Button>
      </div>
    </section>
  );
}
