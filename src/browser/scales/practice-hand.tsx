/** Hands for the practice scale: they set down, pour, pour too much, lift. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { decimal, zero, type Decimal } from '../../../shared/decimal.js';
import { viewOf } from '../../../shared/weighing.js';
import { texts } from '../shell/texts.js';
import { benchScale } from './bench-scale.js';
import type { SimulatedSource } from './simulated-source.js';
import { useWeighing } from './weighing-state.js';

const bowlGrams = decimal('182');

/** What lifting takes off, so that the same bowl can be set down again. */
function grossNow(): Decimal {
  const { weight, bowl } = benchScale.weighing.get();
  return weight?.grams ?? bowl?.tareGrams ?? bowlGrams;
}

/** The keys of the hand; shown only while the practice scale is in use. */
export function PracticeHand({ source }: { source: SimulatedSource }) {
  const plate = useWeighing((state) => state.plate);
  const due = useWeighing((state) => state.due?.id);
  const [lifted, setLifted] = useState<Decimal>();
  const stands = plate === 'on' || plate === 'returning' || plate === 'settling';
  const { hand } = texts;
  const toGo = () => viewOf(benchScale.weighing.get()).toGoGrams ?? decimal('20');
  const target = () => (toGo().greaterThan(500) ? decimal('20') : toGo());
  return (
    <aside className="hand" aria-label={hand.title}>
      <span>{hand.title}</span>
      {stands ? (
        <Button
          className="key"
          onPress={() => {
            setLifted(grossNow());
            source.do({ do: 'lift' });
          }}
        >
          {hand.lift}
        </Button>
      ) : (
        <Button
          className="key"
          onPress={() => source.do({ do: 'set_down', grams: keptGross() ?? lifted ?? bowlGrams })}
        >
          {hand.setDown}
        </Button>
      )}
      <Button
        className="key"
        isDisabled={!stands || due === undefined}
        onPress={() => source.pour(target())}
      >
        {hand.pour}
      </Button>
      <Button
        className="key"
        isDisabled={!stands || due === undefined}
        onPress={() => source.pour(target(), decimal('6'))}
      >
        {hand.tooMuch}
      </Button>
      <Button
        className="key"
        isDisabled={!stands || due === undefined}
        onPress={() => source.do(half(target()))}
      >
        {hand.part}
      </Button>
      <Button className="key" isDisabled={!stands} onPress={() => source.do({ do: 'bump' })}>
        {hand.bump}
      </Button>
    </aside>
  );
}

function half(grams: Decimal) {
  return { do: 'pour', grams: grams.dividedBy(2), gramsPerSecond: decimal('20') } as const;
}

/** What the bowl in hand weighed, vessel included, when it was lifted. */
function keptGross(): Decimal | undefined {
  const { bowl } = benchScale.weighing.get();
  return bowl?.tareGrams.plus(bowl.levelGrams.lessThan(zero) ? zero : bowl.levelGrams);
}
