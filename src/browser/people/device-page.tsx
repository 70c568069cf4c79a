/** The first visit: this browser becomes a device of the studio, by a token typed once. */
import { useEffect, useState } from 'react';
import { Button, FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import { OwnStudioLink } from '../first-day/own-studio-link.js';
import { texts } from '../shell/texts.js';
import { useSigning } from './session.js';

/** Asks for the device token; one that came along in the address is taken by itself. */
export function DevicePage() {
  const { makeDevice } = useSigning();
  const [token, setToken] = useState('');
  const [trouble, setTrouble] = useState('');
  const take = (given: string) =>
    makeDevice(given).catch((error: Error) => setTrouble(error.message));
  useEffect(() => {
    const given = /^#device=(.+)$/.exec(location.hash)?.[1];
    if (given === undefined) return;
    history.replaceState(null, '', '/');
    void take(given);
  }, []);
  return (
    <main className="entrance">
      <h1>{texts.name}</h1>
      <p>
        <OwnStudioLink className="key strong wide" />
      </p>
      <p>{texts.device.why}</p>
      <Form
        onSubmit={(event) => {
          event.preventDefault();
          setTrouble('');
          void take(token.trim());
        }}
      >
        <TextField value={token} onChange={setToken} isInvalid={trouble !== ''} isRequired>
          <Label>{texts.device.token}</Label>
          <Input autoComplete="off" spellCheck="false" />
          <FieldError>{trouble}</FieldError>
        </TextField>
        <Button type="submit" className="key strong">
          {texts.device.take}
        </Button>
      </Form>
    </main>
  );
}
