/** Somebody starts: name, role, employed or renting a chair, and the PIN to sign in with. */
import { useState } from 'react';
import { Button, Form, Input, Label, TextField } from 'react-aria-components';
import { Choice } from '../shell/choice.js';
import { personKinds, personRoles, usePeopleChanges, type NewPerson } from './people-list.js';
import { words } from './people-texts.js';
import { PinField } from './pin-field.js';
import './people.css';

const nobody: NewPerson = { name: '', role: 'stylist', kind: 'employed', pin: '' };

/** The form; after somebody is entered it is empty for the next. */
export function AddPerson() {
  const { add } = usePeopleChanges();
  const [person, setPerson] = useState(nobody);
  const [said, say] = useState('');
  const [trouble, setTrouble] = useState('');
  const change = (part: Partial<NewPerson>) => {
    say('');
    setTrouble('');
    setPerson((before) => ({ ...before, ...part }));
  };
  const enter = async () => {
    if (person.name.trim() === '') throw new Error(words.nameNeeded);
    if (person.pin.length < 4) throw new Error(words.pinNeeded);
    await add(person);
    setPerson(nobody);
    say(words.started(person.name.trim()));
  };
  return (
    <Form
      onSubmit={(event) => {
        event.preventDefault();
        void enter().catch((error: Error) => setTrouble(error.message));
      }}
    >
      <h2>{words.add}</h2>
      <div className="person-fields">
        <TextField
          className="react-aria-TextField"
          value={person.name}
          onChange={(name) => change({ name })}
        >
          <Label>{words.name}</Label>
          <Input maxLength={120} autoComplete="off" />
        </TextField>
        <PinField label={words.pinDigits} value={person.pin} onChange={(pin) => change({ pin })} />
      </div>
      <Choice
        label={words.role}
        value={person.role}
        options={personRoles.map((value) => ({ value, text: words.roles[value] }))}
        onChoose={(role) => change({ role })}
      />
      <p className="quiet">{words.may[person.role]}</p>
      <Choice
        label={words.kind}
        value={person.kind}
        options={personKinds.map((value) => ({ value, text: words.kinds[value] }))}
        onChoose={(kind) => change({ kind })}
      />
      <p role="alert">{trouble}</p>
      <p role="status">{said}</p>
      <Button className="key strong" type="submit">
        {words.enter}
      </Button>
    </Form>
  );
}
