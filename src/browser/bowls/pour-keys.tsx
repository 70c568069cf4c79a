/** The keys beside a bowl that is poured: that's all, what's left, and what else can be done. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { useProducts } from '../catalogue/catalogue.js';
import { benchScale } from '../scales/bench-scale.js';
import { KeypadSource } from '../scales/keypad-source.js';
import { useSourceStatus } from '../scales/weighing-state.js';
import { goTo } from '../shell/place.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import { WipeKey } from '../shell/wipe-key.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { bookVoid } from './bookings.js';
import { ChooseProduct } from './choose-product.js';
import type { Next } from './next.js';
import type { Sheet } from './sheet.js';
import { sheets } from './sheets.js';
import { bowlTexts } from './texts.js';

const { pour: words } = texts;

interface Props {
  readonly sheet: Sheet;
  readonly next: Next;
  readonly hand: BowlInHand;
}

/** The keys, those of the due pour first. */
export function PourKeys({ sheet, next, hand }: Props) {
  const [choosing, choose] = useState(false);
  const products = useProducts().inOrder;
  const poured = sheet.pours.length > 0;
  return (
    <div className="keys">
      <DueKeys next={next} hand={hand} />
      {poured && (
        <Button
          className={next.due ? 'key' : 'key strong'}
          onPress={() => goTo('bowl', sheet.id, 'left')}
        >
          {words.toLeft}
        </Button>
      )}
      {poured && !next.due && <PouredKeys id={sheet.id} />}
      <Key text={words.somethingElse} onPress={() => choose(true)} />
      <Key text={bowlTexts.move.key} onPress={() => goTo('bowl', sheet.id, 'move')} />
      <WipeKey />
      {!poured && <Key text={words.callOff} onPress={() => callOff(sheet)} />}
      <Key text={words.back} onPress={() => goTo('bench')} />
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

function Key({ text, onPress }: { text: string; onPress: () => void }) {
  return (
    <Button className="key" onPress={onPress}>
      {text}
    </Button>
  );
}

/** Of the pour that is due; on the keypad a typed figure ends it. */
function DueKeys({ next: { due }, hand }: Pick<Props, 'next' | 'hand'>) {
  const keypad = useSourceStatus().source instanceof KeypadSource;
  const { pack } = useStore(hand.shown);
  if (!due || keypad) return null;
  return (
    <>
      <Button className="key strong" onPress={() => hand.thatsAll()}>
        {due.grams === null ? words.openEnd : words.thatsAll}
      </Button>
      {due.grams && pack === null && (
        <Key text={bowlTexts.out.key} onPress={() => hand.out.begin()} />
      )}
    </>
  );
}

/** Of a bowl in which all is poured. */
function PouredKeys({ id }: { id: string }) {
  return (
    <>
      <Key text={words.aBitMore} onPress={() => goTo('bowl', id, 'more')} />
      <Key text={bowlTexts.divide.key} onPress={() => goTo('bowl', id, 'divide')} />
    </>
  );
}

function callOff(sheet: Sheet): void {
  if (sheet.opened) bookVoid(sheet);
  sheets.remove(sheet.id);
  goTo('bench');
}
