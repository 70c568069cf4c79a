/** Signing in: tap a name, type the PIN; without the service, tap a name. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { texts } from '../shell/texts.js';
import { PinPad } from './pin-pad.js';
import { useHands, useNames, useSession, useSigning, type AtBench } from './session.js';

const { signIn: words } = texts;

/** The names of the studio, and the PIN of the one that was tapped. */
export function SignInPage({ studio, onDone }: { studio: string; onDone?: () => void }) {
  const live = useSession().data?.live ?? true;
  const names = useNames().data ?? [];
  const [person, choose] = useState<AtBench>();
  return (
    <main className="entrance">
      <h1>{studio}</h1>
      {!person && (
        <>
          <p id="who">{live ? words.who : words.whoAway}</p>
          <Names names={names} live={live} onDone={onDone} onChoose={choose} />
        </>
      )}
      {person && live && <Pin person={person} onDone={onDone} onBack={() => choose(undefined)} />}
      {person && !live && (
        <ByName person={person} onDone={onDone} onBack={() => choose(undefined)} />
      )}
    </main>
  );
}

/** The names; those who signed in today go on at once while nobody can check a PIN. */
function Names(props: {
  names: readonly AtBench[];
  live: boolean;
  onDone: (() => void) | undefined;
  onChoose: (person: AtBench) => void;
}) {
  const { others: today } = useHands();
  const { takeOver } = useSigning();
  const { names, live, onDone, onChoose } = props;
  const tap = (person: AtBench) => {
    const known = today.find(({ id }) => id === person.id);
    if (live || !known) return onChoose(person);
    takeOver(known);
    onDone?.();
  };
  return (
    <ul className="names" aria-labelledby="who">
      {names.map((each) => (
        <li key={each.id}>
          <Button className="line-key" onPress={() => tap(each)}>
            {each.name}
          </Button>
        </li>
      ))}
    </ul>
  );
}

interface One {
  readonly person: AtBench;
  readonly onDone: (() => void) | undefined;
  readonly onBack: () => void;
}

function Pin({ person, onDone, onBack }: One) {
  const { signIn } = useSigning();
  return (
    <PinPad
      name={person.name}
      onPin={async (pin) => {
        await signIn(person, pin);
        onDone?.();
      }}
      onBack={onBack}
    />
  );
}

/** Without the service nobody can check a PIN: the bowls carry the name, to be confirmed. */
function ByName({ person: { id, name }, onDone, onBack }: One) {
  const { takeOver } = useSigning();
  return (
    <>
      <p>{words.byName(name)}</p>
      <div className="keys">
        <Button
          className="key strong"
          onPress={() => {
            takeOver({ id, name, unconfirmed: true });
            onDone?.();
          }}
        >
          {words.goOnAs(name)}
        </Button>
        <Button className="key" onPress={onBack}>
          {words.otherName}
        </Button>
      </div>
    </>
  );
}
