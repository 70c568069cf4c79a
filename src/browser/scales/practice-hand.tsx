/** Hands for the practice scale: they set down, pour, pour too much, lift. */
import { Button } from 'react-aria-components';
import { decimal, larger, round, zero, type Decimal } from '../../../shared/decimal.js';
import { viewOf } from '../../../shared/weighing.js';
import { texts } from '../shell/texts.js';
import { benchScale } from './bench-scale.js';
import type { SimulatedSource } from './simulated-source.js';
import { useWeighing } from './weighing-state.js';

const bowlGrams = decimal('182');
const drop = { do: 'pour', grams: decimal('1'), gramsPerSecond: decimal('5') } as const;

/** The keys of the hand; shown only while the practice scale is in use. */
export function PracticeHand({ source }: { source: SimulatedSource }) {
  const plate = useWeighing((state) => state.plate);
  const due = useWeighing((state) => state.due?.id);
  const stands = plate === 'on' || plate === 'returning' || plate === 'settling';
  const { hand } = texts;
  const toGo = () => viewOf(benchScale.weighing.get()).toGoGrams ?? decimal('20');
  const target = () => (toGo().greaterThan(500) ? decimal('20') : toGo());
  return (
    <aside className="hand" aria-label={hand.title}>
      <span>{hand.title}</span>
      {stands ? (
        <Button className="key" onPress={() => source.do({ do: 'lift' })}>
          {hand.lift}
        </Button>
      ) : (
        <Button
          className="key"
          onPress={() => source.do({ do: 'set_down', grams: keptGross() ?? bowlGrams })}
        >
          {hand.setDown}
        </Button>
      )}
      {!stands && keptGross() && (
        <Button
          className="key"
          onPress={() => source.do({ do: 'set_down', grams: keptGross('0.1') ?? bowlGrams })}
        >
          {hand.tenth}
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
      <Button className="key" isDisabled={!stands} onPress={() => source.do(drop)}>
        {hand.drop}
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

/** What the bowl in hand, or the one that is awaited, weighs with a share of its contents. */
function keptGross(share = '1'): Decimal | undefined {
  const { bowl, expected } = benchScale.weighing.get();
  const tare = bowl?.tareGrams ?? expected?.tares.bowl;
  const contents = bowl?.levelGrams ?? expected?.contentsGrams;
  if (!tare || !contents) return undefined;
  return tare.plus(larger(zero, round(contents.times(share), 0, 'half_even')));
}
