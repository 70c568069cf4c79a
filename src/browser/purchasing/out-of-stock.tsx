/** Days on which there was none of a product, as a person marks them: their use is not known. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { OutOfStockView } from '../../../shared/contract/purchasing.js';
import { send } from '../api/calls.js';
import { DayField } from '../bookings/day-field.js';
import { dateInWords } from '../shell/clock.js';
import { texts } from './texts.js';

const { out: words } = texts;

/** The marks of a product, and a new one. */
export function OutOfStock({ productId }: { productId: string }) {
  const queries = useQueryClient();
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [trouble, setTrouble] = useState('');
  const key = ['out-of-stock', productId];
  const { data } = useQuery({
    queryKey: key,
    queryFn: async () => {
      const path = `/out-of-stock?productId=${productId}`;
      return ((await send('GET', path)) as { items: OutOfStockView[] }).items;
    },
  });
  const act = async (work: Promise<unknown>) => {
    setTrouble('');
    await work;
    await queries.invalidateQueries({ queryKey: key });
    await queries.invalidateQueries({ queryKey: ['forecasts'] });
  };
  const told = (error: Error) => setTrouble(error.message);
  const mark = async () => {
    if (from === '') return setTrouble(words.needed);
    const until = to === '' ? {} : { to };
    await act(send('POST', '/out-of-stock', { productId, from, ...until }));
    setFrom('');
    setTo('');
  };
  return (
    <>
      <h2>{words.title}</h2>
      <p className="quiet">{words.why}</p>
      <ul className="plain">
        {(data ?? []).map((each) => (
          <li key={each.id} className="book-line">
            <span className="grow">{daysInWords(each)}</span>
            <Button
              className="key"
              aria-label={words.awayOf(daysInWords(each))}
              onPress={() => void act(send('DELETE', `/out-of-stock/${each.id}`)).catch(told)}
            >
              {words.away}
            </Button>
          </li>
        ))}
      </ul>
      <div className="side-by-side">
        <DayField label={words.from} value={from} onChange={setFrom} />
        <DayField label={words.to} value={to} onChange={setTo} />
        <Button className="key" onPress={() => void mark().catch(told)}>
          {words.mark}
        </Button>
      </div>
      <p role="alert">{trouble}</p>
    </>
  );
}

function daysInWords({ from, to }: OutOfStockView): string {
  return from === to ? dateInWords(from) : `${dateInWords(from)} – ${dateInWords(to)}`;
}
