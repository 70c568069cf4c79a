/** One order as the slip that is read out or sent; ticked while speaking, cancelled if need be. */
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { OrderLineView, OrderView } from '../../../shared/contract/purchasing.js';
import { send } from '../api/calls.js';
import { dayInFull } from '../pricing/days.js';
import { countInWords, money } from '../pricing/money.js';
import { deviceNow } from '../shell/clock.js';
import { addressOf } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { texts } from './texts.js';

const { orders: words } = texts;

/** The page; lines by the supplier's number, as a voice on the phone reads them. */
export default function OrderPage({ orderId }: { orderId: string }) {
  const { data, error, isPending } = useQuery({
    queryKey: ['orders', orderId],
    queryFn: async () => (await send('GET', `/orders/${orderId}`)) as OrderView,
  });
  return (
    <section className="page" aria-labelledby="order-title">
      <h1 id="order-title">
        {data ? words.named(data.number) : words.title}{' '}
        {data && (
          <small>
            {data.supplier}, {dayInFull(data.orderedOn)}, {words.states[data.state]}
          </small>
        )}
      </h1>
      <div className="keys">
        <a className="key" href={addressOf('ordering', 'orders')}>
          {words.back}
        </a>
        {(['pdf', 'csv'] as const).map((format) => (
          <a key={format} className="key" href={`/api/v1/orders/${orderId}/slip?format=${format}`}>
            {words[format]}
          </a>
        ))}
      </div>
      {isPending && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data && <Slip order={data} />}
      {data && (data.state === 'sent' || data.state === 'partly received') && (
        <CancelOrder order={data} />
      )}
    </section>
  );
}

function Slip({ order }: { order: OrderView }) {
  const { currency, goods, freight } = order;
  const key = ({ orderCode, name }: OrderLineView) => `${orderCode ?? '\uffff'} ${name}`;
  const lines = order.lines.toSorted((a, b) => key(a).localeCompare(key(b)));
  return (
    <>
      <table className="book read-out">
        <thead>
          <tr>
            <th scope="col">{words.pack}</th>
            <th scope="col">{words.packs}</th>
            <th scope="col">{words.code}</th>
            <th scope="col">{words.price}</th>
            <th scope="col">{words.received}</th>
            <th scope="col">{words.awaited}</th>
            <th scope="col">{words.said}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={`${line.productId} ${line.packLabel}`}>
              <th scope="row">
                {line.name} <small>{line.packLabel}</small>
              </th>
              <td>
                <strong>{line.packs}</strong>
              </td>
              <td>{line.orderCode}</td>
              <td>{line.packPrice === null ? '' : money(line.packPrice, currency)}</td>
              <td>{countInWords(line.received.quantity, line.received.unit)}</td>
              <td>{countInWords(line.awaited.quantity, line.awaited.unit)}</td>
              <td>
                <input type="checkbox" className="tick" aria-label={words.saidOf(line.name)} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {goods === null
          ? words.noPrice
          : words.total(money(goods, currency), money(freight, currency))}
      </p>
    </>
  );
}

/** Asked once more: what is cancelled is not awaited any longer. */
function CancelOrder({ order }: { order: OrderView }) {
  const queries = useQueryClient();
  const [asked, ask] = useState(false);
  const [trouble, setTrouble] = useState('');
  const cancel = async () => {
    await send('POST', `/orders/${order.id}/cancel`, { id: uuidv7(), sentAt: deviceNow() });
    await queries.invalidateQueries({ queryKey: ['orders'] });
    queries.removeQueries({ queryKey: ['order-plan'] });
  };
  if (!asked) {
    return (
      <Button className="key" onPress={() => ask(true)}>
        {words.cancel}
      </Button>
    );
  }
  return (
    <div className="question" role="group" aria-label={words.cancel}>
      <p>{words.sure}</p>
      <div className="keys">
        <Button
          className="key strong"
          autoFocus
          onPress={() => void cancel().catch((error: Error) => setTrouble(error.message))}
        >
          {words.yes}
        </Button>
        <Button className="key" onPress={() => ask(false)}>
          {words.no}
        </Button>
      </div>
      <p role="alert">{trouble}</p>
    </div>
  );
}
