/** Orders that were written, the newest first, with what became of them. */
import { useInfiniteQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { OrderState, OrderView } from '../../../shared/contract/purchasing.js';
import { send } from '../api/calls.js';
import { dayInFull } from '../pricing/days.js';
import { money } from '../pricing/money.js';
import { Choice } from '../shell/choice.js';
import { addressOf } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { texts } from './texts.js';

const { orders: words } = texts;
const states = ['all', 'sent', 'partly received', 'received', 'cancelled'] as const;
type Shown = 'all' | OrderState;

interface Listed {
  readonly items: readonly OrderView[];
  readonly next: string | null;
}

/** The page. */
export default function OrdersPage() {
  const [shown, show] = useState<Shown>('all');
  const { data, error, isPending, hasNextPage, fetchNextPage } = useInfiniteQuery({
    queryKey: ['orders', 'list', shown],
    initialPageParam: '',
    queryFn: async ({ pageParam }) => {
      const state = shown === 'all' ? '' : `&state=${encodeURIComponent(shown)}`;
      const cursor = pageParam === '' ? '' : `&cursor=${encodeURIComponent(pageParam)}`;
      return (await send('GET', `/orders?limit=30${state}${cursor}`)) as Listed;
    },
    getNextPageParam: ({ next }) => next,
  });
  const orders = data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <section className="page" aria-labelledby="orders-title">
      <h1 id="orders-title">{words.title}</h1>
      <Choice
        label={words.show}
        value={shown}
        options={states.map((value) => ({
          value,
          text: value === 'all' ? words.all : words.states[value],
        }))}
        onChoose={show}
      />
      {isPending && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data && orders.length === 0 && <p className="quiet">{words.none}</p>}
      {orders.length > 0 && <Rows orders={orders} />}
      {hasNextPage && (
        <Button className="key" onPress={() => void fetchNextPage()}>
          {words.more}
        </Button>
      )}
    </section>
  );
}

function Rows({ orders }: { orders: readonly OrderView[] }) {
  return (
    <table className="book">
      <thead>
        <tr>
          <th scope="col">{words.number}</th>
          <th scope="col">{words.supplier}</th>
          <th scope="col">{words.on}</th>
          <th scope="col">{words.state}</th>
          <th scope="col">{words.goods}</th>
        </tr>
      </thead>
      <tbody>
        {orders.map((order) => (
          <tr key={order.id}>
            <th scope="row">
              <a className="line-link" href={addressOf('ordering', 'orders', order.id)}>
                {words.named(order.number)}
              </a>
            </th>
            <td>{order.supplier}</td>
            <td>{dayInFull(order.orderedOn)}</td>
            <td>{words.states[order.state]}</td>
            <td>{order.goods === null ? '' : money(order.goods, order.currency)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
