/** Hands for the practice scale: they set down, pour, pour too much, take out, lift, press. */
import { useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { decimal, larger, round, zero, type Decimal } from '../../../shared/decimal.js';
import { viewOf } from '../../../shared/weighing.js';
import { readFigure, typedGrams } from '../shell/figures.js';
import { texts } from '../shell/texts.js';
import { benchScale } from './bench-scale.js';
import type { SimulatedSource } from './simulated-source.js';
import { useWeighing } from './weighing-state.js';

const { hand } = texts;
const bowlGrams = decimal('182');
const drop = { do: 'pour', grams: decimal('1'), gramsPerSecond: decimal('5') } as const;
const press = { do: 'press', grams: decimal('400'), forMs: 1000 } as const;

/** The keys of the hand; shown only while the practice scale is in use. */
export default function PracticeHand({ source }: { source: SimulatedSource }) {
  const plate = useWeighing((state) => state.plate);
  const [text, type] = useState('');
  const due = useWeighing((state) => state.due?.id);
  const packed = useWeighing((state) => state.bowl?.isPack ?? false);
  const stands = plate !== 'empty' && plate !== 'lifted' && plate !== 'zero_asked';
  const pours = stands && due !== undefined;
  const key = (text: string, may: boolean, act: () => void) => (
    <Button className="key" isDisabled={!may} onPress={act}>
      {text}
    </Button>
  );
  return (
    <aside className="hand" aria-label={hand.title}>
      <span>{hand.title}</span>
      {stands ? (
        key(hand.lift, true, () => source.do({ do: 'lift' }))
      ) : (
        <SetDown source={source} text={text} onType={type} />
      )}
      {key(hand.pour, stands && !packed, () => source.pour(target()))}
      {key(hand.tooMuch, pours && !packed, () => source.pour(target(), decimal('6')))}
      {key(hand.part, pours && !packed, () => source.do(half(target())))}
      {key(hand.takeOut, pours && packed, () => source.do({ do: 'scoop', grams: target() }))}
      {key(hand.drop, stands, () => source.do(drop))}
      {key(hand.bump, stands, () => source.do({ do: 'bump' }))}
      {key(hand.knuckle, stands, () => source.do(press))}
    </aside>
  );
}

/** The bowl that is kept or awaited, a tenth of it, or anything else by its weight. */
function SetDown(props: { source: SimulatedSource; text: string; onType: (text: string) => void }) {
  const { source, text } = props;
  const kept = keptGross();
  const setDown = (grams: Decimal) => source.do({ do: 'set_down', grams });
  const typed = readFigure(text);
  return (
    <>
      <Button className="key" onPress={() => setDown(kept ?? bowlGrams)}>
        {hand.setDown}
      </Button>
      {kept && (
        <Button className="key" onPress={() => setDown(keptGross('0.1') ?? bowlGrams)}>
          {hand.tenth}
        </Button>
      )}
      <TextField className="small-field" value={text} onChange={props.onType}>
        <Label className="hidden">{hand.anything}</Label>
        <Input inputMode="decimal" autoComplete="off" />
        <Button
          className="key"
          isDisabled={!typed}
          onPress={() => {
            if (typed) setDown(typedGrams(typed));
          }}
        >
          {hand.setDownThis}
        </Button>
      </TextField>
    </>
  );
}

/** What is due still, or 20 g where the person ends the pour. */
function target(): Decimal {
  const toGo = viewOf(benchScale.weighing.get()).toGoGrams ?? decimal('20');
  return toGo.greaterThan(500) ? decimal('20') : toGo;
}

function half(grams: Decimal) {
  return { do: 'pour', grams: grams.dividedBy(2), gramsPerSecond: decimal('20') } as const;
}

/** What the bowl in hand, or the one that is awaited, weighs with a share of its contents. */
function keptGross(share = '1'): Decimal | undefined {
  const { bowl, expected } = benchScale.weighing.get();
  const tare = bowl?.tareGrams ?? expected?.tares.bowl ?? expected?.tares.vessel;
  const contents = bowl?.levelGrams ?? expected?.contentsGrams;
  if (!tare || !contents) return undefined;
  return tare.plus(larger(zero, round(contents.times(share), 0, 'half_even')));
}
