/** Quotes that were given, the newest first; each can be turned to the client. */
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { ClientQuoteView, QuoteView } from '../../../shared/contract/quotes.js';
import { send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { quoteToShow } from './client-facts.js';
import { dayInFull, instantInWords } from './days.js';
import { money } from './money.js';
import { show } from './showing.js';
import { texts } from './texts.js';

const { quotes: words } = texts;

/** The latest twenty. */
export function GivenQuotes() {
  const timeZone = useStudio()?.timeZone;
  const [trouble, setTrouble] = useState('');
  const { data } = useQuery({
    queryKey: ['quotes', 'given'],
    queryFn: async () => ((await send('GET', '/quotes?limit=20')) as { items: QuoteView[] }).items,
  });
  const turn = async (id: string) =>
    show(quoteToShow((await send('GET', `/quotes/${id}/client`)) as ClientQuoteView));
  return (
    <section className="page" aria-labelledby="given-title">
      <h2 id="given-title">{words.given}</h2>
      {data?.length === 0 && <p className="quiet">{words.none}</p>}
      <ul className="plain">
        {data?.map(({ id, services, price, currency, madeAt, validUntil, expired }) => {
          const named = services.map(({ name }) => name).join(', ');
          const until = dayInFull(validUntil);
          return (
            <li key={id} className="day-line">
              <p>
                <strong>{named}</strong>{' '}
                {words.range(money(price.low, currency), money(price.high, currency))}
                <br />
                <span className="quiet">
                  {words.made} {instantInWords(madeAt, timeZone)}, {words.until}{' '}
                  {expired ? words.over(until) : until}
                </span>
              </p>
              <div className="keys">
                <Button
                  className="key"
                  aria-label={words.show(named)}
                  onPress={() => void turn(id).catch((error: Error) => setTrouble(error.message))}
                >
                  {texts.client.key}
                </Button>
              </div>
            </li>
          );
        })}
      </ul>
      <p role="alert">{trouble}</p>
    </section>
  );
}
