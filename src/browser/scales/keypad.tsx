/** The keypad: what the scale shows is typed, by large keys or the keyboard. */
import { useState } from 'react';
import { Button, FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import type { Decimal } from '../../../shared/decimal.js';
import { readFigure, typedGrams } from '../shell/figures.js';
import { Choice } from '../shell/choice.js';
import { texts } from '../shell/texts.js';
import { benchScale } from './bench-scale.js';
import { typings, type KeypadSource, type Typing } from './keypad-source.js';

const keys = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '0'] as const;
/** The decimal sign of the device's language. */
const sign = (1.1).toLocaleString().charAt(1);

/**
 * Typed figures go to the scale's source; `then` says what a typed figure ends (a pour, a
 * weighing).
 */
export function Keypad(props: {
  source: KeypadSource;
  /** What the bowl holds already, in grams. */
  contents: Decimal;
  onlyTotal?: boolean;
  then: () => void;
}) {
  const { keypad } = texts;
  const [typing, setTyping] = useState<Typing>('total');
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState(false);
  const how = props.onlyTotal ? 'total' : typing;
  const enter = () => {
    const figure = readFigure(text);
    setWrong(!figure);
    if (!figure) return;
    const grams = typedGrams(figure);
    const stands = benchScale.weighing.get().plate === 'on';
    if (props.onlyTotal) props.source.setDown(grams);
    else if (!stands) props.source.setDown(props.contents);
    if (props.onlyTotal !== true) {
      if (how === 'total') props.source.showTotal(grams);
      else props.source.showAdded(grams);
    }
    setText('');
    props.then();
  };
  return (
    <Form
      className="keypad"
      aria-label={keypad.title}
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
    >
      {!props.onlyTotal && (
        <Choice
          label={keypad.typing}
          value={typing}
          options={typings.map((each) => ({ value: each, text: keypad.typings[each] }))}
          onChoose={setTyping}
        />
      )}
      <TextField value={text} onChange={setText} isInvalid={wrong} validationBehavior="aria">
        <Label>{keypad.field[how]}</Label>
        <Input inputMode="none" autoComplete="off" />
        <FieldError>{keypad.notAFigure}</FieldError>
      </TextField>
      <Digits text={text} onType={setText} />
      <Button type="submit" className="key strong">
        {keypad.enter}
      </Button>
    </Form>
  );
}

/** Large keys for what a keyboard would type. */
function Digits({ text, onType }: { text: string; onType: (text: string) => void }) {
  return (
    <div className="digits" role="group" aria-label={texts.signIn.digits}>
      {keys.map((key) => (
        <Button key={key} className="key" onPress={() => onType(text + key)}>
          {key}
        </Button>
      ))}
      <Button className="key" onPress={() => onType(text + sign)}>
        {sign}
      </Button>
      <Button className="key" onPress={() => onType(text.slice(0, -1))}>
        {texts.keypad.erase}
      </Button>
    </div>
  );
}
