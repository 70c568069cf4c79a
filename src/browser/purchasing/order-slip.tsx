/** One order slip: a ruled page, a line a product, the reason beside it, a pack fewer in words. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { OrderView } from '../../../shared/contract/purchasing.js';
import { send } from '../api/calls.js';
import { dayInFull } from '../pricing/days.js';
import { countInWords, money } from '../pricing/money.js';
import { deviceNow } from '../shell/clock.js';
import { goTo } from '../shell/place.js';
import type { KeptPacks, Wish } from './order-plan.js';
import { keptOf, type Slip, type SlipLine } from './slips.js';
import { texts } from './texts.js';

const { plan: words } = texts;

/** The slip of a supplier; only that of the next order day is changed and written. */
export function OrderSlip(props: {
  slip: Slip;
  wish: Wish;
  currency: string;
  onKeep: (kept: KeptPacks) => void;
  onLetGo: (kept: KeptPacks) => void;
  /** False while another plan is being worked out. */
  isSettled: boolean;
}) {
  const { slip, currency } = props;
  const supplier = slip.supplier ?? words.noSupplier;
  const day = dayInFull(slip.orderDay);
  return (
    <section className="slip" aria-label={`${words.slip(supplier)}, ${day}`}>
      <h2>
        {words.slip(supplier)} <small>{(slip.isFirst ? words.on : words.later)(day)}</small>
      </h2>
      <table className="book">
        <thead>
          <tr>
            <th scope="col">{words.product}</th>
            <th scope="col">{words.packs}</th>
            <th scope="col">{words.cost}</th>
            <th scope="col" className="reason">
              {words.why}
            </th>
          </tr>
        </thead>
        <tbody>
          {slip.lines.map((line) => (
            <Line
              key={`${line.productId} ${line.packLabel}`}
              line={line}
              slip={slip}
              currency={currency}
              kept={keptOf(props.wish.keep, line)}
              onKeep={props.onKeep}
              onLetGo={props.onLetGo}
            />
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" colSpan={2}>
              {words.sum(money(slip.goods, currency), money(slip.freight, currency))}
            </th>
            <td colSpan={2} className="reason">
              {slip.words}
            </td>
          </tr>
        </tfoot>
      </table>
      {slip.isFirst && <WriteOrder slip={slip} isSettled={props.isSettled} />}
    </section>
  );
}

function Line(props: {
  line: SlipLine;
  slip: Slip;
  currency: string;
  kept: number | undefined;
  onKeep: (kept: KeptPacks) => void;
  onLetGo: (kept: KeptPacks) => void;
}) {
  const { line, slip, kept, currency } = props;
  const { productId, packLabel } = line;
  const packs = kept ?? line.packs;
  const set = (next: number) => props.onKeep({ productId, packLabel, packs: next });
  return (
    <tr>
      <th scope="row">
        {line.name}
        <small>{line.packLabel}</small>
      </th>
      <td>
        <Packs packs={packs} name={line.name} canChange={slip.isFirst} onSet={set} />
        <small>
          {words.otherColumn(words.columns[slip.other], words.packsOf(line.otherPacks))}
        </small>
      </td>
      <td>
        {money(line.cost, currency)}
        <small>{countInWords(line.quantity.quantity, line.quantity.unit)}</small>
      </td>
      <td className="reason">
        {kept !== undefined && (
          <p>
            {words.byHand(kept)}{' '}
            <Button
              className="key"
              aria-label={words.asPlannedOf(line.name)}
              onPress={() => props.onLetGo({ productId, packLabel, packs })}
            >
              {words.asPlanned}
            </Button>
          </p>
        )}
        <p>{line.why}</p>
        <p className="fewer">{line.onePackFewer.words}</p>
      </td>
    </tr>
  );
}

/** So many packs, with keys for one fewer and one more. */
function Packs(props: {
  packs: number;
  name: string;
  canChange: boolean;
  onSet: (next: number) => void;
}) {
  const { packs, name, canChange, onSet } = props;
  return (
    <div className="packs">
      {canChange && (
        <Button
          className="key"
          aria-label={words.fewer(name)}
          isDisabled={packs === 0}
          onPress={() => onSet(packs - 1)}
        >
          −
        </Button>
      )}
      <output>{packs}</output>
      {canChange && (
        <Button className="key" aria-label={words.more(name)} onPress={() => onSet(packs + 1)}>
          +
        </Button>
      )}
    </div>
  );
}

/** Turns the slip into an order, and shows it. */
function WriteOrder({ slip, isSettled }: { slip: Slip; isSettled: boolean }) {
  const queries = useQueryClient();
  const [trouble, setTrouble] = useState('');
  const lines = slip.lines.filter(({ packs }) => packs > 0);
  const write = async () => {
    const order = (await send('POST', '/orders', {
      id: uuidv7(),
      sentAt: deviceNow(),
      ...(slip.supplierId === null ? {} : { supplierId: slip.supplierId }),
      lines: lines.map(({ productId, packLabel, packs, packPrice }) => ({
        ...{ productId, packLabel, packs },
        ...(packPrice === null ? {} : { packPrice }),
      })),
    })) as OrderView;
    await queries.invalidateQueries({ queryKey: ['orders'] });
    queries.removeQueries({ queryKey: ['order-plan'] });
    goTo('ordering', 'orders', order.id);
  };
  return (
    <div className="keys">
      <Button
        className="key strong"
        isDisabled={!isSettled || lines.length === 0}
        onPress={() => void write().catch((error: Error) => setTrouble(error.message))}
      >
        {words.write(slip.supplier ?? words.noSupplier)}
      </Button>
      <p className="grow quiet">{words.writeHow}</p>
      <p role="alert">{trouble}</p>
    </div>
  );
}
