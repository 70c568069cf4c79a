/** The other fields of a bowl that is planned. */
import { useState } from 'react';
import {
  Button,
  ComboBox,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  TextField,
} from 'react-aria-components';
import type { FormulaView } from '../../../shared/contract/catalogue.js';
import { decimal, larger, type Decimal } from '../../../shared/decimal.js';
import type { Contact } from '../../../shared/mix.js';
import { usePurposes } from '../catalogue/catalogue.js';
import { Choice } from '../shell/choice.js';
import { readFigure, typedGrams, weightFigure, weightUnit } from '../shell/figures.js';
import { preferences } from '../shell/preferences.js';
import { texts } from '../shell/texts.js';

const { plan: words } = texts;
const ratios = ['1:1', '1:1.5', '1:2', '1:3'] as const;
const noRatio = 'none';
const stepGrams = decimal('5');

/** Powder to developer: the usual ratios as keys, any other typed. */
export function Ratio(props: { ratio: string | null; onChange: (ratio: string | null) => void }) {
  const usual = ratios.find((each) => each === props.ratio);
  const value = props.ratio === null ? noRatio : usual;
  const [other, setOther] = useState(usual || props.ratio === null ? '' : props.ratio);
  return (
    <div className="side-by-side">
      <Choice
        label={words.ratio}
        value={value}
        options={[
          ...ratios.map((each) => ({ value: each, text: each.replace(':', ' : ') })),
          { value: noRatio, text: words.noDeveloper },
        ]}
        onChoose={(next) => {
          setOther('');
          props.onChange(next === noRatio ? null : next);
        }}
      />
      <TextField
        className="small-field"
        value={other}
        onChange={(text) => {
          setOther(text);
          const plain = text.replace(/\s/g, '').replace(/,/g, '.');
          if (/^\d+(\.\d+)?:\d+(\.\d+)?$/.test(plain)) props.onChange(plain);
        }}
      >
        <Label>{words.otherRatio}</Label>
        <Input placeholder="1 : 2.5" />
      </TextField>
    </div>
  );
}

/** The whole, in grams or ounces, typed or by steps. */
export function Size(props: { grams: Decimal; onChange: (grams: Decimal) => void }) {
  const places = preferences().unit === 'oz' ? 2 : 0;
  const [text, setText] = useState<string>();
  const step = (by: Decimal) => {
    setText(undefined);
    props.onChange(larger(stepGrams, props.grams.plus(by)));
  };
  return (
    <div className="size">
      <Button className="key" onPress={() => step(stepGrams.negated())} aria-label={words.less}>
        −
      </Button>
      <TextField
        value={text ?? weightFigure(props.grams, places)}
        onChange={(next) => {
          setText(next);
          const figure = readFigure(next);
          if (figure?.greaterThan(0)) props.onChange(typedGrams(figure));
        }}
        onBlur={() => setText(undefined)}
      >
        <Label>{words.sizeField(weightUnit())}</Label>
        <Input inputMode="decimal" className="figure" />
      </TextField>
      <Button className="key" onPress={() => step(stepGrams)} aria-label={words.more}>
        +
      </Button>
    </div>
  );
}

/** One word of the studio, or another. */
export function PurposeField(props: { purpose: string; onChange: (purpose: string) => void }) {
  const purposes = usePurposes().map(({ name }) => ({ id: name }));
  return (
    <ComboBox
      className="product-field"
      allowsCustomValue
      items={purposes}
      inputValue={props.purpose}
      onInputChange={props.onChange}
      menuTrigger="focus"
      isRequired
    >
      <Label>{words.purpose}</Label>
      <div className="with-key">
        <Input maxLength={60} />
        <Button className="key">▾</Button>
      </div>
      <Popover className="sheet list">
        <ListBox>{({ id }: { id: string }) => <ListBoxItem id={id}>{id}</ListBoxItem>}</ListBox>
      </Popover>
    </ComboBox>
  );
}

/** Touching the scalp, or not: asked, never supposed. */
export function ContactChoice(props: {
  contact: Contact | null;
  onChange: (contact: Contact) => void;
}) {
  return (
    <Choice
      label={words.contact}
      value={props.contact ?? undefined}
      options={(['scalp', 'off-scalp'] as const).map((value) => ({
        value,
        text: words.contacts[value],
      }))}
      onChoose={props.onChange}
    />
  );
}

/** What is drawn on the bowl, so that two of them are told apart. */
export function MarkChoice(props: {
  mark: string | null;
  onChange: (mark: string | null) => void;
}) {
  return (
    <Choice
      label={words.mark}
      value={props.mark ?? ''}
      options={[
        { value: '', text: words.noMark },
        ...words.marks.map((mark) => ({ value: mark, text: mark })),
      ]}
      onChoose={(mark) => props.onChange(mark === '' ? null : mark)}
    />
  );
}

/** A formula that was kept, to be repeated and resized. */
export function SavedFormula(props: {
  formulas: readonly FormulaView[];
  onChoose: (formula: FormulaView) => void;
}) {
  if (props.formulas.length === 0) return null;
  return (
    <ComboBox
      className="product-field"
      defaultItems={props.formulas}
      menuTrigger="focus"
      onChange={(key) => {
        const formula = props.formulas.find(({ id }) => id === key);
        if (formula) props.onChoose(formula);
      }}
    >
      <Label>{words.saved}</Label>
      <div className="with-key">
        <Input />
        <Button className="key">▾</Button>
      </div>
      <Popover className="sheet list">
        <ListBox>
          {(formula: FormulaView) => <ListBoxItem id={formula.id}>{formula.name}</ListBoxItem>}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
