/** Money is shown only while the hands that work are those of who is signed in. */
import { useState, type ReactNode } from 'react';
import { Button } from 'react-aria-components';
import { SignInPage } from '../people/sign-in-page.js';
import { useHands, useSession } from '../people/session.js';
import { texts } from './texts.js';

/** What is inside, else a key to sign in: taking over a bench takes no PIN, money does. */
export function MoneyGate({ children }: { children: ReactNode }) {
  const session = useSession().data;
  const hands = useHands().at;
  const [signing, sign] = useState(false);
  const person = session?.person;
  if (!session || !person) return null;
  if (hands === undefined || hands.id === person.id) return children;
  if (signing) return <SignInPage studio={session.studio.name} onDone={() => sign(false)} />;
  return (
    <section className="page narrow">
      <p>{texts.gate(person.name)}</p>
      <Button className="key strong" onPress={() => sign(true)}>
        {texts.signIn}
      </Button>
    </section>
  );
}
