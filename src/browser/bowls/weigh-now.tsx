/** Weighs what a bowl holds: by the scale when it stands still, or typed on the keypad. */
import { useEffect } from 'react';
import { Button } from 'react-aria-components';
import type { Decimal } from '../../../shared/decimal.js';
import { Keypad } from '../scales/keypad.js';
import { KeypadSource } from '../scales/keypad-source.js';
import { useSourceStatus, useWeighing } from '../scales/weighing-state.js';
import { texts } from '../shell/texts.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { contentsGrams } from './sheet.js';

/** Asks the scale at once; `onWeight` hears the grams in the bowl, net. */
export function WeighNow({
  hand,
  onWeight,
}: {
  hand: BowlInHand;
  onWeight: (net: Decimal) => void;
}) {
  const { source } = useSourceStatus();
  const plate = useWeighing((state) => state.plate);
  const typed = source instanceof KeypadSource;
  useEffect(() => {
    hand.weighOnly(true);
    if (!typed) hand.weigh(onWeight);
    return () => hand.weighOnly(false);
  }, [hand, typed]);
  if (typed) {
    const contents = contentsGrams(hand.sheet);
    return (
      <Keypad source={source} contents={contents} onlyTotal then={() => hand.weigh(onWeight)} />
    );
  }
  return (
    <div className="weigh-now">
      <p role="status">{plate === 'on' ? texts.loading : texts.left.setDown}</p>
      <Button className="key strong" onPress={() => hand.weigh(onWeight)}>
        {texts.left.weigh}
      </Button>
    </div>
  );
}
