/** Reads a diary's file: chosen or pasted, looked at, then taken over. */
import { useState } from 'react';
import { Button, Checkbox, FileTrigger, Label, TextArea, TextField } from 'react-aria-components';
import type { NamePlace } from '../../../shared/booking-words.js';
import type { ImportedBookingsView } from '../../../shared/contract/bookings.js';
import { send } from '../api/calls.js';
import { Choice } from '../shell/choice.js';
import { dateInWords } from '../shell/clock.js';
import { useAnew } from './bookings.js';
import { texts } from './texts.js';

const { read: words } = texts;
const places = ['first', 'last', 'none'] as const;

/** The part of the page. */
export function ReadDiary({ onWords }: { onWords: () => void }) {
  const [text, setText] = useState('');
  const [file, setFile] = useState('');
  const [named, setNamed] = useState<NamePlace>('first');
  const [whole, setWhole] = useState(false);
  const [found, setFound] = useState<ImportedBookingsView>();
  const [trouble, setTrouble] = useState('');
  const anew = useAnew();
  const change = (act: () => void) => {
    setFound(undefined);
    setTrouble('');
    act();
  };
  const read = async (dry: boolean) => {
    setTrouble('');
    if (text.trim() === '') return setTrouble(words.nothing);
    const path = `/bookings/import?named=${named}&whole=${whole}&dry=${dry}`;
    setFound((await send('POST', path, { text })) as ImportedBookingsView);
    if (!dry) await anew();
  };
  const ask = (dry: boolean) =>
    void read(dry).catch((error: Error) => {
      setFound(undefined);
      setTrouble(error.message);
    });
  return (
    <>
      <p className="quiet">
        {words.why} {words.table}
      </p>
      <ChooseFile
        {...{ file, text }}
        onText={(next, name) =>
          change(() => {
            setText(next);
            setFile(name);
          })
        }
      />
      <HowRead
        {...{ named, whole }}
        onNamed={(place) => change(() => setNamed(place))}
        onWhole={(is) => change(() => setWhole(is))}
      />
      <div className="keys">
        <Button className="key strong" onPress={() => ask(true)}>
          {words.look}
        </Button>
        {found?.dry && (
          <Button className="key strong" onPress={() => ask(false)}>
            {words.take}
          </Button>
        )}
      </div>
      <p role="alert">{trouble}</p>
      <div role="status">{found && <Found found={found} onWords={onWords} />}</div>
    </>
  );
}

function HowRead(props: {
  named: NamePlace;
  whole: boolean;
  onNamed: (place: NamePlace) => void;
  onWhole: (whole: boolean) => void;
}) {
  return (
    <>
      <Choice
        label={words.named}
        value={props.named}
        options={places.map((value) => ({ value, text: words.places[value] }))}
        onChoose={props.onNamed}
      />
      <Checkbox className="key whole-diary" isSelected={props.whole} onChange={props.onWhole}>
        <span aria-hidden="true">{props.whole ? '☑' : '☐'}</span> {words.whole}
      </Checkbox>
    </>
  );
}

function ChooseFile(props: {
  file: string;
  text: string;
  onText: (text: string, file: string) => void;
}) {
  return (
    <>
      <FileTrigger
        acceptedFileTypes={['.ics', '.csv', 'text/calendar', 'text/csv']}
        onSelect={(files) => {
          const [first] = files ?? [];
          if (first) void first.text().then((text) => props.onText(text, first.name));
        }}
      >
        <Button className="key">{words.choose}</Button>
      </FileTrigger>
      {props.file !== '' && <p className="quiet">{words.chosen(props.file)}</p>}
      <TextField
        className="react-aria-TextField"
        value={props.text}
        onChange={(text) => props.onText(text, '')}
      >
        <Label>{words.or}</Label>
        <TextArea rows={5} spellCheck="false" />
      </TextField>
    </>
  );
}

function Found({ found, onWords }: { found: ImportedBookingsView; onWords: () => void }) {
  const counts = (['added', 'changed', 'calledOff', 'same'] as const)
    .filter((each) => found[each] > 0)
    .map((each) => `${found[each]} ${words.words[each]}`);
  if (found.older > 0) counts.push(`${found.older} ${words.older}`);
  return (
    <>
      <p>
        {!found.dry && <strong>{words.taken} </strong>}
        {words.counts(found.found)} {counts.length > 0 && `${counts.join(', ')}.`}
      </p>
      {found.unread > 0 && (
        <p>
          {words.unread(found.unread)}{' '}
          {!found.dry && (
            <Button className="key" onPress={onWords}>
              {words.toWords}
            </Button>
          )}
        </p>
      )}
      {found.examples.length > 0 && <Examples of={found.examples} />}
    </>
  );
}

function Examples({ of }: { of: ImportedBookingsView['examples'] }) {
  return (
    <table className="book small left">
      <caption>{words.examples}</caption>
      <thead>
        <tr>
          <th scope="col">{words.day}</th>
          <th scope="col">{words.who}</th>
          <th scope="col">{words.what}</th>
          <th scope="col">{words.services}</th>
        </tr>
      </thead>
      <tbody>
        {of.map(({ day, who, what, services }, index) => (
          <tr key={index}>
            <th scope="row">{dateInWords(day)}</th>
            <td>{who}</td>
            <td>{what}</td>
            <td>{services.length > 0 ? services.join(', ') : words.none}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
