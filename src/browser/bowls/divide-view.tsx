/** Dividing: the second bowl on the scale, poured over, and for whom it is. */
import { useEffect, useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { caution } from '../../../shared/cautions.js';
import { canonical, decimal, zero, type Decimal } from '../../../shared/decimal.js';
import { viewOf } from '../../../shared/weighing.js';
import { benchScale } from '../scales/bench-scale.js';
import { useSourceStatus, useWeighing } from '../scales/weighing-state.js';
import { KeypadSource } from '../scales/keypad-source.js';
import { Choice } from '../shell/choice.js';
import { readFigure, typedGrams, weightFigure, weightUnit } from '../shell/figures.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { useOtherVisits, whoIs } from '../visits/visits.js';
import { bookNoted } from './bookings.js';
import { bowlInWords } from './bowl-lines.js';
import { divide, maybeUntouched } from './dividing.js';
import { MarkChoice, PurposeField } from './plan-fields.js';
import { contentsGrams, type Sheet } from './sheet.js';
import { bowlTexts } from './texts.js';

const { divide: words } = bowlTexts;
const secondBowl = { tares: {}, contentsGrams: zero, touched: true, isPack: false };

/** The view; to another client only from an untouched bowl. */
export default function DivideView({ sheet }: { sheet: Sheet }) {
  const [grams, setGrams] = useState<Decimal>();
  const [purpose, setPurpose] = useState(sheet.purpose);
  const [mark, setMark] = useState<string | null>(null);
  const [visitId, setVisitId] = useState(sheet.visitId);
  const [untouched, setUntouched] = useState<boolean>();
  const isOthers = visitId !== sheet.visitId;
  const tooMuch = grams?.greaterThanOrEqualTo(contentsGrams(sheet)) ?? false;
  const mayGo = !isOthers || (untouched === true && maybeUntouched(sheet));
  const ready = grams?.greaterThan(zero) && !tooMuch && mayGo && purpose.trim() !== '';
  const go = () => {
    if (!grams) return;
    if (isOthers) bookNoted(sheet, 'stays_with_client');
    const tare = benchScale.weighing.get().bowl?.tareGrams;
    const tareGrams = tare && !isKeypad() ? canonical(tare) : null;
    divide(sheet, grams, { visitId, purpose, mark, tareGrams });
    goTo('bench');
  };
  return (
    <div className="two-pages">
      <section className="page" aria-labelledby="divide-title">
        <h1 id="divide-title">
          {words.title} <small>{bowlInWords(sheet)}</small>
        </h1>
        <PouredOver onGrams={setGrams} />
        {tooMuch && <p role="alert">{words.tooMuch(canonical(contentsGrams(sheet)))}</p>}
      </section>
      <section className="page" aria-labelledby="second-title">
        <h2 id="second-title">{words.into}</h2>
        <ForWhom sheet={sheet} visitId={visitId} onChange={setVisitId} />
        {isOthers && <Brush sheet={sheet} untouched={untouched} onChange={setUntouched} />}
        <PurposeField purpose={purpose} onChange={setPurpose} />
        <MarkChoice mark={mark} onChange={setMark} />
        <div className="keys">
          <Button className="key strong" isDisabled={!ready} onPress={go}>
            {words.key}
          </Button>
          <Button className="key" onPress={() => goTo('bowl', sheet.id)}>
            {texts.cancel}
          </Button>
        </div>
      </section>
    </div>
  );
}

function isKeypad(): boolean {
  return benchScale.status.get().source instanceof KeypadSource;
}

/** What is in the second bowl: weighed once it stands on the scale, or typed. */
function PouredOver({ onGrams }: { onGrams: (grams: Decimal | undefined) => void }) {
  const typed = useSourceStatus().source instanceof KeypadSource;
  return typed ? <TypedOver onGrams={onGrams} /> : <WeighedOver onGrams={onGrams} />;
}

function TypedOver({ onGrams }: { onGrams: (grams: Decimal | undefined) => void }) {
  const [text, setText] = useState('');
  return (
    <TextField
      value={text}
      onChange={(next) => {
        setText(next);
        const figure = readFigure(next);
        onGrams(figure && typedGrams(figure));
      }}
    >
      <Label>
        {words.typed} ({weightUnit()})
      </Label>
      <Input inputMode="decimal" className="figure" autoComplete="off" />
    </TextField>
  );
}

function WeighedOver({ onGrams }: { onGrams: (grams: Decimal | undefined) => void }) {
  const plate = useWeighing((state) => state.plate);
  const [awaited, awaitIt] = useState(false);
  const stands = awaited && plate === 'on';
  const net = useWeighing((state) => {
    const { netGrams, stable } = viewOf(state);
    return stands && stable ? netGrams?.toFixed() : undefined;
  });
  useEffect(() => {
    // the first bowl has to leave the plate before the second one can be told from it
    if (awaited || plate !== 'empty') return;
    awaitIt(true);
    benchScale.send({ type: 'use_bowl', bowl: secondBowl });
  }, [awaited, plate]);
  useEffect(() => () => benchScale.send({ type: 'bowl_done' }), []);
  useEffect(() => onGrams(net === undefined ? undefined : decimal(net)), [net]);
  return (
    <>
      <p role="status">{stands ? words.over : words.empty}</p>
      {net !== undefined && (
        <p className="figure-line">
          <b className="large">{weightFigure(decimal(net), 0)}</b>
          <span>
            {weightUnit()} {words.figure}
          </span>
        </p>
      )}
    </>
  );
}

/** The visit of the second bowl: the same, or another one that is open today. */
function ForWhom(props: {
  sheet: Sheet;
  visitId: string | null;
  onChange: (visitId: string | null) => void;
}) {
  const visits = useOtherVisits(props.sheet.visitId);
  const same = 'same';
  return (
    <Choice
      label={words.whose}
      value={props.visitId === props.sheet.visitId ? same : (props.visitId ?? undefined)}
      options={[
        { value: same, text: words.same },
        ...visits.map((visit) => ({ value: visit.id, text: whoIs(visit) })),
      ]}
      onChoose={(next) => props.onChange(next === same ? props.sheet.visitId : next)}
    />
  );
}

/** To another client only from a bowl that no brush has been in. */
function Brush(props: {
  sheet: Sheet;
  untouched: boolean | undefined;
  onChange: (untouched: boolean) => void;
}) {
  const { sheet, untouched } = props;
  if (!maybeUntouched(sheet)) return <p role="alert">{words.refused}</p>;
  return (
    <>
      <p className="caution">{caution('stays_with_client', {}).text}</p>
      <Choice
        label={words.untouched}
        value={untouched === undefined ? undefined : untouched ? 'clean' : 'brushed'}
        options={[
          { value: 'clean', text: words.clean },
          { value: 'brushed', text: words.brushed },
        ]}
        onChoose={(next) => props.onChange(next === 'clean')}
      />
      {untouched === false && <p role="alert">{words.refused}</p>}
    </>
  );
}
