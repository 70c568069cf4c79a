/** The page turned to the client: service, time, price with tax; out of it by PIN only. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { PinPad } from '../people/pin-pad.js';
import { useSession, useSigning } from '../people/session.js';
import { dayInFull } from './days.js';
import { money } from './money.js';
import { stopShowing, type ClientFacts } from './showing.js';
import { texts } from './texts.js';
import './pricing.css';

const { client: words } = texts;

/** The page; no head, no names, no way back but the PIN of who is signed in. */
export default function ClientPage({ facts }: { facts: ClientFacts }) {
  const [leaving, leave] = useState(false);
  const session = useSession().data;
  const { signIn } = useSigning();
  const person = session?.person;
  return (
    <main className="entrance for-client">
      <h1>{session?.studio.name}</h1>
      {leaving && person ? (
        <PinPad
          name={person.name}
          back={words.back}
          onPin={async (pin) => {
            await signIn(person, pin);
            stopShowing();
          }}
          onBack={() => leave(false)}
        />
      ) : (
        <>
          <Price facts={facts} />
          <Button className="key" onPress={() => leave(true)}>
            {words.done}
          </Button>
        </>
      )}
    </main>
  );
}

function Price({ facts }: { facts: ClientFacts }) {
  const { currency, minutes, price, inThePrice, promise, validUntil, expired, more } = facts;
  const amount = (value: string) => money(value, currency);
  const lines: readonly (readonly [string, string])[] = [
    ...(minutes.to > 0 ? [[words.time, words.minutes(minutes.from, minutes.to)] as const] : []),
    [words.price, words.range(amount(price.from), amount(price.to))],
    ...(inThePrice.length > 0 ? [[words.within, inThePrice.join(', ')] as const] : []),
    ...more.map(({ label, amount: value }) => [label, amount(value)] as const),
  ];
  return (
    <section className="page">
      <h2>{facts.services.join(', ')}</h2>
      <dl className="client-lines">
        {lines.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {promise !== null && <p className="promise">{promise}</p>}
      {validUntil !== null && (
        <p>{(expired ? words.expired : words.until)(dayInFull(validUntil))}</p>
      )}
    </section>
  );
}
