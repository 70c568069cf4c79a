/** Signing in: tap a name, type the PIN. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { texts } from '../shell/texts.js';
import { PinPad } from './pin-pad.js';
import { useNames, useSigning, type AtBench } from './session.js';

/** The names of the studio, and the PIN of the one that was tapped. */
export function SignInPage({ studio, onDone }: { studio: string; onDone?: () => void }) {
  const names = useNames().data ?? [];
  const [person, choose] = useState<AtBench>();
  const { signIn } = useSigning();
  return (
    <main className="entrance">
      <h1>{studio}</h1>
      {person ? (
        <PinPad
          name={person.name}
          onPin={async (pin) => {
            await signIn(person, pin);
            onDone?.();
          }}
          onBack={() => choose(undefined)}
        />
      ) : (
        <>
          <p id="who">{texts.signIn.who}</p>
          <ul className="names" aria-labelledby="who">
            {names.map((each) => (
              <li key={each.id}>
                <Button className="line-key" onPress={() => choose(each)}>
                  {each.name}
                </Button>
              </li>
            ))}
          </ul>
        </>
      )}
    </main>
  );
}
