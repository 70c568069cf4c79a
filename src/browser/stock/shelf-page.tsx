/** The shelf: a line a product, packs in words, what wants a look. */
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import type { ShelfItemView } from '../../../shared/contract/stock.js';
import { send } from '../api/calls.js';
import { useSession } from '../people/session.js';
import { number, quantity } from '../shell/figures.js';
import { addressOf } from '../shell/place.js';
import { texts } from '../shell/texts.js';

const { shelf: words } = texts;

/** The page; those that want a look come first. */
export default function ShelfPage() {
  const [find, setFind] = useState('');
  const { data, error, isPending } = useQuery({ queryKey: ['shelf'], queryFn: readShelf });
  const role = useSession().data?.role;
  const manages = role === 'manager' || role === 'owner';
  const letters = find.trim().toLocaleLowerCase();
  const items = (data ?? [])
    .filter(({ name }) => name.toLocaleLowerCase().includes(letters))
    .toSorted((a, b) => b.flags.length - a.flags.length || a.name.localeCompare(b.name));
  return (
    <section className="page" aria-labelledby="shelf-title">
      <h1 id="shelf-title">{words.title}</h1>
      <SearchField value={find} onChange={setFind} className="react-aria-TextField find">
        <Label>{words.find}</Label>
        <Input />
      </SearchField>
      {manages && (
        <div className="keys">
          <a className="key" href={addressOf('first-day', 'products')}>
            {words.newProducts}
          </a>
        </div>
      )}
      {isPending && <p>{texts.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data && (
        <table className="book">
          <thead>
            <tr>
              <th scope="col">{words.product}</th>
              <th scope="col">{words.onHand}</th>
              <th scope="col">{words.packs}</th>
              <th scope="col">{words.lasts}</th>
              <th scope="col">{words.flags}</th>
            </tr>
          </thead>
          <tbody>
            {items.map((item) => (
              <tr key={item.productId}>
                <th scope="row">{item.name}</th>
                <td>{quantity(item.onHand.quantity, item.onHand.unit)}</td>
                <td>{packsInWords(item)}</td>
                <td>{item.daysOfCover ? words.days(number(item.daysOfCover)) : ''}</td>
                <td>{item.flags.map((flag) => words.words[flag]).join(', ')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

async function readShelf(): Promise<ShelfItemView[]> {
  return ((await send('GET', '/shelf')) as { items: ShelfItemView[] }).items;
}

/** "2 sealed, 1 started, about 22 g" */
function packsInWords({ sealed, startedHolds }: ShelfItemView): string {
  if (sealed === null) return '';
  const started = startedHolds && words.started(quantity(startedHolds.quantity, startedHolds.unit));
  return [words.sealed(sealed), started].filter(Boolean).join(', ');
}
