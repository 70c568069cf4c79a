/** A PIN by large keys or by the keyboard. */
import { useState } from 'react';
import { Button, FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import { texts } from '../shell/texts.js';

const digits = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0'] as const;
const mostDigits = 8;

/** Asks for a PIN; `onPin` refuses with a sentence by throwing. */
export function PinPad(props: {
  name: string;
  /** Text of the key that leads back; another name, unless told. */
  back?: string;
  onPin: (pin: string) => Promise<void>;
  onBack: () => void;
}) {
  const [pin, setPin] = useState('');
  const [trouble, setTrouble] = useState('');
  const type = (text: string) => {
    setTrouble('');
    setPin(text.replace(/\D/g, '').slice(0, mostDigits));
  };
  const enter = () =>
    props.onPin(pin).catch((error: Error) => {
      setTrouble(error.message);
      setPin('');
    });
  return (
    <Form
      className="pin"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <TextField
        type="password"
        value={pin}
        onChange={type}
        isInvalid={trouble !== ''}
        validationBehavior="aria"
        autoFocus
      >
        <Label>{texts.signIn.pinOf(props.name)}</Label>
        <Input inputMode="none" autoComplete="off" />
        <FieldError>{trouble}</FieldError>
      </TextField>
      <div className="digits" role="group" aria-label={texts.signIn.digits}>
        {digits.map((digit) => (
          <Button key={digit} className="key" onPress={() => type(pin + digit)}>
            {digit}
          </Button>
        ))}
        <Button className="key" onPress={() => type(pin.slice(0, -1))}>
          {texts.signIn.erase}
        </Button>
        <Button type="submit" className="key strong" isDisabled={pin.length < 4}>
          {texts.signIn.enter}
        </Button>
      </div>
      <Button className="key" onPress={props.onBack}>
        {props.back ?? texts.signIn.otherName}
      </Button>
    </Form>
  );
}
