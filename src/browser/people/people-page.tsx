/** People: who works here, in which role; and the devices that the studio is opened with. */
import { useState } from 'react';
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import type { PersonView } from '../../../shared/contract/people.js';
import { Choice } from '../shell/choice.js';
import { AddPerson } from './add-person.js';
import { Devices } from './devices.js';
import { personKinds, personRoles, usePeople, usePeopleChanges } from './people-list.js';
import { words } from './people-texts.js';
import { PinField } from './pin-field.js';
import { useSession } from './session.js';
import './people.css';

/** The page; managers read it, owners change it. */
export default function PeoplePage() {
  const isOwner = useSession().data?.role === 'owner';
  const people = usePeople();
  return (
    <div className="two-pages">
      <section className="page" aria-labelledby="people-title">
        <h1 id="people-title">{words.title}</h1>
        {!isOwner && <p>{words.ownerOnly}</p>}
        <table className="book">
          <thead>
            <tr>
              <th scope="col">{words.name}</th>
              <th scope="col">{words.role}</th>
              <th scope="col">{words.kind}</th>
              <th scope="col">{words.pin}</th>
              {isOwner && <td />}
            </tr>
          </thead>
          <tbody>
            {people.map((person) => (
              <tr key={person.id}>
                <th scope="row">{person.name}</th>
                <td>{words.roles[person.role]}</td>
                <td>{words.kinds[person.kind]}</td>
                <td>{person.hasPin ? words.hasPin : words.noPin}</td>
                {isOwner && (
                  <td className="act">
                    <ChangePerson person={person} />
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
        {isOwner && <AddPerson />}
      </section>
      {isOwner && <Devices />}
    </div>
  );
}

function ChangePerson({ person }: { person: PersonView }) {
  return (
    <DialogTrigger>
      <Button className="key" aria-label={words.changeOf(person.name)}>
        {words.change}
      </Button>
      <Popover className="sheet" placement="bottom end">
        <Dialog>{({ close }) => <Changes person={person} onDone={close} />}</Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function Changes({ person, onDone }: { person: PersonView; onDone: () => void }) {
  const { change, retire } = usePeopleChanges();
  const [pin, setPin] = useState('');
  const [leaving, leave] = useState(false);
  const [trouble, setTrouble] = useState('');
  const act = (work: Promise<void>) =>
    void work.then(onDone, (error: Error) => setTrouble(error.message));
  return (
    <>
      <Heading slot="title">{person.name}</Heading>
      <Choice
        label={words.role}
        value={personRoles.find((role) => role === person.role)}
        options={personRoles.map((value) => ({ value, text: words.roles[value] }))}
        onChoose={(role) => act(change(person.id, { role }))}
      />
      <Choice
        label={words.kind}
        value={person.kind}
        options={personKinds.map((value) => ({ value, text: words.kinds[value] }))}
        onChoose={(kind) => act(change(person.id, { kind }))}
      />
      <PinField label={words.newPin} value={pin} onChange={setPin} />
      <p className="quiet">{words.newPinHow}</p>
      <div className="keys">
        <Button
          className="key strong"
          isDisabled={pin.length < 4}
          onPress={() => act(change(person.id, { pin }))}
        >
          {words.givePin}
        </Button>
        {leaving ? (
          <Button className="key" onPress={() => act(retire(person.id))}>
            {words.leaveYes(person.name)}
          </Button>
        ) : (
          <Button className="key" onPress={() => leave(true)}>
            {words.leave}
          </Button>
        )}
      </div>
      <p role="alert">{trouble}</p>
    </>
  );
}
