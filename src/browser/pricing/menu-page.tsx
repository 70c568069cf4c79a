/** The menu: what each service is today, what comes next; one service with its versions. */
import { useQuery } from '@tanstack/react-query';
import type { MenuRowView, MenuView } from '../../../shared/contract/menu.js';
import { send } from '../api/calls.js';
import { addressOf } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { dayInFull } from './days.js';
import { MenuService, NewService } from './menu-service.js';
import { inWords } from './menu-state.js';
import { words } from './menu-texts.js';
import { money } from './money.js';

/** The page; `id` is a service, "new", or nothing for the whole menu. */
export default function MenuPage({ id }: { id: string | undefined }) {
  if (id === 'new') return <NewService />;
  if (id !== undefined) return <MenuService key={id} serviceId={id} />;
  return <WholeMenu />;
}

function WholeMenu() {
  const { data, error } = useQuery({
    queryKey: ['menu'],
    queryFn: async () => (await send('GET', '/menu')) as MenuView,
  });
  return (
    <section className="page" aria-labelledby="menu-title">
      <h1 id="menu-title">
        {words.title} <small>{words.how}</small>
      </h1>
      {error && <p role="alert">{error.message}</p>}
      {!data && !error && <p>{shell.loading}</p>}
      {data && <MenuBook menu={data} />}
      <a className="key" href={addressOf('pricing', 'menu', 'new')}>
        {words.add}
      </a>
    </section>
  );
}

function MenuBook({ menu: { rows, currency } }: { menu: MenuView }) {
  const notes = rows.flatMap(({ name, notes: own }) =>
    own.map(({ text }) => ({ name, text: `${name}: ${text}` })),
  );
  if (rows.length === 0) return <p className="quiet">{words.none}</p>;
  return (
    <>
      <table className="book menu">
        <thead>
          <tr>
            <th scope="col">{words.service}</th>
            <th scope="col">{words.price}</th>
            <th scope="col">{words.minutes}</th>
            <th scope="col">{words.within}</th>
            <th scope="col">{words.next}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Line key={row.serviceId} row={row} currency={currency} />
          ))}
        </tbody>
      </table>
      {notes.map(({ text }) => (
        <p key={text} className="noted">
          {text}
        </p>
      ))}
    </>
  );
}

function Line({ row, currency }: { row: MenuRowView; currency: string }) {
  const within = inWords(row, 'inThePrice', { currency, nameOf: () => '' });
  return (
    <tr>
      <th scope="row">
        <a className="line-link" href={addressOf('pricing', 'menu', row.serviceId)}>
          {row.name}
        </a>
      </th>
      <td>{money(row.price, currency)}</td>
      <td>{words.time(row.handsOnMinutes, row.chairMinutes)}</td>
      <td>{row.inThePrice.length === 0 ? '' : within}</td>
      <td>
        {row.next && words.nextLine(money(row.next.price, currency), dayInFull(row.next.startsOn))}
      </td>
    </tr>
  );
}
