/** Pouring: the figure to go with product and strength, the beam, and the page below it. */
import { useEffect } from 'react';
import { Button } from 'react-aria-components';
import { canonical, decimal, sum } from '../../../shared/decimal.js';
import { Beam } from '../scales/beam.js';
import { Keypad } from '../scales/keypad.js';
import { KeypadSource } from '../scales/keypad-source.js';
import { useSourceStatus, useWeighing } from '../scales/weighing-state.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import { noteInVisit, usePastTheQuote } from '../visits/answers.js';
import { visitTexts } from '../visits/texts.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { ageInWords, bowlInWords, useMinutes } from './bowl-lines.js';
import { interrupts, useBowlCautions } from './bowl-cautions.js';
import { AlwaysCautions, CautionLines, InterruptingCaution } from './caution-lines.js';
import { FirstPowder } from './first-powder.js';
import { FigureLine } from './figure-line.js';
import type { PackStep } from './in-hand.js';
import { Offers } from './offers.js';
import { PourKeys } from './pour-keys.js';
import { PourPage } from './pour-page.js';
import { Questions } from './questions.js';
import { contentsGrams, type Sheet } from './sheet.js';
import { bowlTexts } from './texts.js';

const { pour: words } = texts;
const nothing = decimal('0');

/** The view while a bowl is poured. */
export function PourView({ sheet, hand }: { sheet: Sheet; hand: BowlInHand }) {
  useMinutes();
  useWeighing((state) => state.intervalGrams.toFixed());
  const next = hand.next(sheet);
  const { said, question, pack } = useStore(hand.shown);
  const { source } = useSourceStatus();
  const { all: cautions, worst } = useBowlCautions(sheet, next);
  const past = usePastTheQuote(
    sheet.pours.length === 0 ? sheet.visitId : null,
    plannedTotal(sheet),
  );
  useEffect(() => {
    hand.cautionStands = worst !== undefined;
  }, [hand, worst === undefined]);
  const noted = (code: string) => {
    hand.noted(code);
    if (sheet.visitId !== null && interrupts(code)) noteInVisit(sheet.visitId, code);
  };
  return (
    <div className="pouring">
      <div className="instrument">
        <FigureLine due={next.due} poured={sheet.pours.length > 0} />
        <Beam target={next.due?.grams ?? nothing} band={next.due?.band ?? nothing} />
        <p className="said" role="status">
          {said}
        </p>
        {past && (
          <p className="caution" role="status">
            {visitTexts.page.pastTheQuote}
          </p>
        )}
        <FirstPowder isPowderDue={next.due?.product.kind === 'lightener'} onNoted={noted} />
        {pack && <OutOfPack pack={pack} hand={hand} />}
        {question && <Questions question={question} hand={hand} />}
        {next.offers.length > 0 && <Offers next={next} onChoose={(kind) => hand.choose(kind)} />}
      </div>
      <div className="below">
        <section className="page" aria-labelledby="this-bowl">
          <h1 id="this-bowl">
            {bowlInWords(sheet)} <small>{ageInWords(sheet)}</small>
          </h1>
          <PourPage next={next} hand={hand} />
          {next.strength && (
            <p className="margin">{words.margin(next.strength.volume.toFixed(3))}</p>
          )}
          <CautionLines cautions={cautions} />
          <AlwaysCautions />
        </section>
        <div className="side">
          {source instanceof KeypadSource && (
            <Keypad source={source} contents={contentsGrams(sheet)} then={() => hand.thatsAll()} />
          )}
          <PourKeys sheet={sheet} next={next} hand={hand} />
        </div>
      </div>
      <InterruptingCaution caution={worst} onNoted={noted} />
    </div>
  );
}

/** What comes on the scale while a pour is weighed out of its tub, tube or bottle. */
function OutOfPack({ pack, hand }: { pack: PackStep; hand: BowlInHand }) {
  const plate = useWeighing((state) => state.plate);
  const { out } = bowlTexts;
  const standing = plate === 'on' || plate === 'lifted' ? out.take : out.setDown;
  const words = {
    'lift the bowl': out.liftBowl,
    'on the scale': standing,
    'lift the pack': out.liftPack,
  };
  return (
    <section className="question">
      <p role="status">{words[pack]}</p>
      {pack !== 'lift the pack' && (
        <div className="keys">
          <Button className="key" onPress={() => hand.out.end()}>
            {out.back}
          </Button>
        </div>
      )}
    </section>
  );
}

/** Grams that are planned, as they travel. */
function plannedTotal(sheet: Sheet): string {
  return canonical(sum(sheet.planned.map(({ grams }) => decimal(grams))));
}
