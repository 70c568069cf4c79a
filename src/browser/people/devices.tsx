/** Devices and programs that hold a token of the studio: when they were seen, and taken off. */
import { useState } from 'react';
import { Button, Form, Input, Label, TextField } from 'react-aria-components';
import type { TokenView } from '../../../shared/contract/people.js';
import { useStudio } from '../catalogue/catalogue.js';
import { dateInWords, studioDay, timeOfDay } from '../shell/clock.js';
import { useBenches, usePeopleChanges, useTokens } from './people-list.js';
import { words } from './people-texts.js';

/** The list, and a token for one more. */
export function Devices() {
  const tokens = useTokens(true);
  const benches = useBenches();
  const { revoke } = usePeopleChanges();
  const [asked, ask] = useState<string>();
  const [trouble, setTrouble] = useState('');
  const benchOf = ({ benchId }: TokenView) => benches.find(({ id }) => id === benchId)?.name;
  return (
    <section className="page" aria-labelledby="devices-title">
      <h2 id="devices-title">{words.devices}</h2>
      <p className="quiet">{words.devicesHow}</p>
      <table className="book">
        <thead>
          <tr>
            <th scope="col">{words.device}</th>
            <th scope="col">{words.role}</th>
            <th scope="col">{words.seen}</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {tokens.map((token) => (
            <tr key={token.id}>
              <th scope="row">
                {token.name} <small>{benchOf(token) === token.name ? '' : benchOf(token)}</small>
              </th>
              <td>{words.roles[token.role]}</td>
              <td>
                <Seen at={token.usedAt} />
              </td>
              <td className="act">
                <Button
                  className="key"
                  aria-label={
                    asked === token.id ? words.revokeYes(token.name) : words.revokeOf(token.name)
                  }
                  onPress={() => {
                    if (asked !== token.id) ask(token.id);
                    else void revoke(token.id).catch((error: Error) => setTrouble(error.message));
                  }}
                >
                  {asked === token.id ? words.revokeYesShort : words.revoke}
                </Button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p role="alert">{trouble}</p>
      <AddDevice />
    </section>
  );
}

function Seen({ at }: { at: string | null }) {
  const timeZone = useStudio()?.timeZone;
  if (at === null) return words.never;
  return `${dateInWords(studioDay(timeZone, at))}, ${timeOfDay(at, timeZone)}`;
}

function AddDevice() {
  const { addDevice } = usePeopleChanges();
  const [name, setName] = useState('');
  const [made, setMade] = useState<{ readonly name: string; readonly token: string }>();
  const [trouble, setTrouble] = useState('');
  const add = async () => {
    if (name.trim() === '') throw new Error(words.deviceNameNeeded);
    setMade(await addDevice(name.trim()));
    setName('');
  };
  return (
    <Form
      onSubmit={(event) => {
        event.preventDefault();
        setTrouble('');
        void add().catch((error: Error) => setTrouble(error.message));
      }}
    >
      <h2>{words.addDevice}</h2>
      <TextField className="react-aria-TextField" value={name} onChange={setName}>
        <Label>{words.deviceName}</Label>
        <Input maxLength={120} autoComplete="off" />
      </TextField>
      <p role="alert">{trouble}</p>
      <Button className="key strong" type="submit">
        {words.makeDevice}
      </Button>
      {made && (
        <div className="made-token" role="status">
          <p>{words.madeDevice(made.name)}</p>
          <p className="address">{`${location.origin}/#device=${made.token}`}</p>
        </div>
      )}
    </Form>
  );
}
