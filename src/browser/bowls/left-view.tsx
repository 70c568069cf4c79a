/** What's left: weighed, the brush asked about, why and borne by, settled. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { decimal, larger, zero, type Decimal } from '../../../shared/decimal.js';
import { useVessels } from '../catalogue/catalogue.js';
import { Choice } from '../shell/choice.js';
import { weight, weightFigure, weightUnit } from '../shell/figures.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import type { BowlInHand } from './bowl-in-hand.js';
import { bowlInWords } from './bowl-lines.js';
import { settle, type Why } from './settling.js';
import { contentsGrams, type Sheet } from './sheet.js';
import { WeighNow } from './weigh-now.js';

const { left: words } = texts;
const whys = ['left over', 'spilled', 'mixed wrong', 'stopped'] as const;
const bearers = ['visit', 'studio'] as const;
/** A usual brush, where the vessel's own is not known; common practice, no source. */
const usualBrushGrams = decimal('24');

/** The view; a bowl is never settled without a yes. */
export function LeftView({ sheet, hand }: { sheet: Sheet; hand: BowlInHand }) {
  const [net, setNet] = useState<Decimal>();
  const [brushIn, setBrushIn] = useState<boolean>();
  const [why, setWhy] = useState<Why>('left over');
  const [bearer, setBearer] = useState<'visit' | 'studio'>();
  const brush = useBrushGrams(sheet);
  const borneBy = bearer ?? (why === 'left over' ? 'visit' : 'studio');
  const leftover = net && (brushIn ? larger(zero, net.minus(brush)) : net);
  const muchLeft = net?.greaterThan(contentsGrams(sheet).dividedBy(2)) ?? false;
  const mayBeSettled = leftover && !(muchLeft && brushIn === undefined);
  const end = (left: { leftover: Decimal } | { leftoverShare: string }) =>
    settle(hand, sheet, { ...left, why, borneBy });
  return (
    <div className="two-pages">
      <section className="page" aria-labelledby="left-title">
        <h1 id="left-title">
          {words.title} <small>{bowlInWords(sheet)}</small>
        </h1>
        {leftover ? (
          <p className="figure-line">
            <b className="large">{weightFigure(leftover, leftover.isInteger() ? 0 : 1)}</b>
            <span>
              {weightUnit()} {words.leftFigure}
            </span>
          </p>
        ) : (
          <WeighNow hand={hand} onWeight={setNet} />
        )}
        {net && (
          <Choice
            label={muchLeft ? words.isBrushIn : words.was}
            value={brushIn === undefined ? undefined : brushIn ? 'in' : 'out'}
            options={[
              { value: 'out', text: words.brushOut },
              { value: 'in', text: words.brushIn(weight(brush)) },
            ]}
            onChoose={(next) => setBrushIn(next === 'in')}
          />
        )}
        <div className="keys">
          {net && <Key text={words.weigh} onPress={() => setNet(undefined)} />}
          <Key text={words.empty} onPress={() => end({ leftoverShare: '0' })} />
          <Key text={words.rinsed} onPress={() => end({ leftoverShare: '0.1' })} />
          <Key text={texts.cancel} onPress={() => goTo('bowl', sheet.id)} />
        </div>
      </section>
      <WhyLeft
        why={why}
        borneBy={borneBy}
        onWhy={setWhy}
        onBearer={setBearer}
        onSettle={mayBeSettled ? () => end({ leftover }) : undefined}
      />
    </div>
  );
}

/** The brush that goes with the bowl's vessel, else a usual one. */
function useBrushGrams(sheet: Sheet): Decimal {
  const vessel = useVessels().find(({ id }) => id === sheet.vesselId);
  return vessel?.brush ? decimal(vessel.brush.quantity) : usualBrushGrams;
}

function Key({ text, onPress }: { text: string; onPress: () => void }) {
  return (
    <Button className="key" onPress={onPress}>
      {text}
    </Button>
  );
}

/** Why it is left and who bears it; settled only with a yes. */
function WhyLeft(props: {
  why: Why;
  borneBy: 'visit' | 'studio';
  onWhy: (why: Why) => void;
  onBearer: (bearer: 'visit' | 'studio') => void;
  onSettle: (() => void) | undefined;
}) {
  return (
    <section className="page" aria-labelledby="why-title">
      <h2 id="why-title" className="hidden">
        {words.why}
      </h2>
      <Choice
        label={words.why}
        value={props.why}
        options={whys.map((each) => ({ value: each, text: words.whys[each] }))}
        onChoose={props.onWhy}
      />
      <Choice
        label={words.borne}
        value={props.borneBy}
        options={bearers.map((each) => ({ value: each, text: words.bearers[each] }))}
        onChoose={props.onBearer}
      />
      <Button
        className="key strong wide"
        isDisabled={!props.onSettle}
        onPress={() => props.onSettle?.()}
      >
        {words.settle}
      </Button>
      <p className="quiet">{words.never}</p>
    </section>
  );
}
