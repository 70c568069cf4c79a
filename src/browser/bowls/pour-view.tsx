/** Pouring: the figure to go with product and strength, the beam, and the page below it. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { decimal } from '../../../shared/decimal.js';
import { useProducts } from '../catalogue/catalogue.js';
import { Beam } from '../scales/beam.js';
import { benchScale } from '../scales/bench-scale.js';
import { Keypad } from '../scales/keypad.js';
import { KeypadSource } from '../scales/keypad-source.js';
import { useSourceStatus, useWeighing } from '../scales/weighing-state.js';
import { goTo } from '../shell/place.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import { WipeKey } from '../shell/wipe-key.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { bookVoid } from './bookings.js';
import { ageInWords, bowlInWords, useMinutes } from './bowl-lines.js';
import { CautionLines, InterruptingCaution } from './caution-lines.js';
import { ChooseProduct } from './choose-product.js';
import { FigureLine } from './figure-line.js';
import type { Next } from './next.js';
import { Offers } from './offers.js';
import { PourPage } from './pour-page.js';
import { Questions } from './questions.js';
import { contentsGrams, type Sheet } from './sheet.js';
import { sheets } from './sheets.js';

const { pour: words } = texts;
const nothing = decimal('0');

/** The view while a bowl is poured. */
export function PourView({ sheet, hand }: { sheet: Sheet; hand: BowlInHand }) {
  useMinutes();
  useWeighing((state) => state.intervalGrams.toFixed());
  const next = hand.next(sheet);
  const { said, question } = useStore(hand.shown);
  const { source } = useSourceStatus();
  const worst = sheet.noted.length === 0 ? interrupting(next) : undefined;
  return (
    <div className="pouring">
      <div className="instrument">
        <FigureLine due={next.due} poured={sheet.pours.length > 0} />
        <Beam target={next.due?.grams ?? nothing} band={next.due?.band ?? nothing} />
        <p className="said" role="status">
          {said}
        </p>
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
          <CautionLines cautions={next.cautions} />
        </section>
        <div className="side">
          {source instanceof KeypadSource && (
            <Keypad source={source} contents={contentsGrams(sheet)} then={() => hand.thatsAll()} />
          )}
          <Keys sheet={sheet} next={next} hand={hand} />
        </div>
      </div>
      <InterruptingCaution caution={worst} onNoted={(code) => hand.noted(code)} />
    </div>
  );
}

/** The worst caution that interrupts, of the plan before anything is in, else of the bowl. */
function interrupting(next: Next) {
  return next.cautions.find(({ manner }) => manner === 'interrupts');
}

function Keys({ sheet, next, hand }: { sheet: Sheet; next: Next; hand: BowlInHand }) {
  const [choosing, choose] = useState(false);
  const products = useProducts().inOrder;
  const keypad = useSourceStatus().source instanceof KeypadSource;
  const poured = sheet.pours.length > 0;
  return (
    <div className="keys">
      {next.due && !keypad && (
        <Button className="key strong" onPress={() => hand.thatsAll()}>
          {next.due.grams === null ? words.openEnd : words.thatsAll}
        </Button>
      )}
      {poured && (
        <Button
          className={next.due ? 'key' : 'key strong'}
          onPress={() => goTo('bowl', sheet.id, 'left')}
        >
          {words.toLeft}
        </Button>
      )}
      {poured && !next.due && (
        <Button className="key" onPress={() => goTo('bowl', sheet.id, 'more')}>
          {words.aBitMore}
        </Button>
      )}
      <Button className="key" onPress={() => choose(true)}>
        {words.somethingElse}
      </Button>
      <WipeKey />
      {!poured && (
        <Button
          className="key"
          onPress={() => {
            if (sheet.opened) bookVoid(sheet);
            sheets.remove(sheet.id);
            goTo('bench');
          }}
        >
          {words.callOff}
        </Button>
      )}
      <Button className="key" onPress={() => goTo('bench')}>
        {words.back}
      </Button>
      {choosing && (
        <ChooseProduct
          products={products}
          onClose={() => choose(false)}
          onChoose={(productId) => {
            choose(false);
            hand.pourExtra(productId, null);
            benchScale.send({ type: 'tick' });
          }}
        />
      )}
    </div>
  );
}
