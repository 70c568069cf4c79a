/** The order plan: what is wished, the slips it makes, what stays short; packs can be changed. */
import { useState } from 'react';
import { Radio, RadioGroup } from 'react-aria-components';
import type { OrderPlanView } from '../../../shared/contract/purchasing.js';
import { decimal } from '../../../shared/decimal.js';
import { countInWords, money, percent } from '../pricing/money.js';
import { ByHand } from './by-hand.js';
import { OrderSlip } from './order-slip.js';
import { slipsOf, type ColumnName, type Slip } from './slips.js';
import { PlanWishes } from './plan-wishes.js';
import { firstWish, useOrderPlan, type KeptPacks, type Wish } from './order-plan.js';
import { texts } from './texts.js';

const { plan: words } = texts;
const columns = ['bare', 'comfortable'] as const;

/** The page. */
export default function PlanPage() {
  const [wish, setWish] = useState<Wish>(firstWish);
  const [column, setColumn] = useState<ColumnName>('comfortable');
  const { data, error, isPending, isPlaceholderData } = useOrderPlan(wish);
  const letGo = ({ productId, packLabel }: KeptPacks) =>
    setWish((before) => ({
      ...before,
      keep: before.keep.filter(
        (each) => each.productId !== productId || each.packLabel !== packLabel,
      ),
    }));
  const keep = (kept: KeptPacks) => {
    letGo(kept);
    setWish((before) => ({ ...before, keep: [...before.keep, kept] }));
  };
  return (
    <section className="page" aria-labelledby="plan-title">
      <h1 id="plan-title">{words.title}</h1>
      <PlanWishes wish={wish} onWish={setWish} currency={data?.currency ?? ''} />
      <p role="status">
        {isPending && !error && words.working}
        {isPlaceholderData && words.again}
      </p>
      {error && <p role="alert">{error.message}</p>}
      {data && (
        <div aria-busy={isPlaceholderData}>
          <Columns plan={data} column={column} onColumn={setColumn} />
          {slipsOf(data, column).map((slip) => (
            <OrderSlip
              key={`${slip.supplierId} ${slip.orderDay}`}
              slip={slip}
              wish={wish}
              currency={data.currency}
              onKeep={keep}
              onLetGo={letGo}
              isSettled={!isPlaceholderData}
            />
          ))}
          <ByHand plan={data} column={column} wish={wish} onKeep={keep} onLetGo={letGo} />
          <Below plan={data} column={column} slips={slipsOf(data, column)} />
        </div>
      )}
    </section>
  );
}

/** The two columns side by side in money and in words; one of them writes the slips. */
function Columns(props: {
  plan: OrderPlanView;
  column: ColumnName;
  onColumn: (column: ColumnName) => void;
}) {
  const { plan } = props;
  const amount = (value: string) => money(value, plan.currency);
  return (
    <>
      <RadioGroup
        aria-label={words.column}
        className="columns"
        orientation="horizontal"
        value={props.column}
        onChange={(value) => props.onColumn(value as ColumnName)}
      >
        {columns.map((name) => {
          const { total, goods, freight, words: said } = plan[name];
          return (
            <Radio key={name} value={name} className="column">
              <strong>{words.columns[name]}</strong> <strong>{amount(total)}</strong>
              <span>
                {said} <span className="quiet">{words.total(amount(goods), amount(freight))}</span>
              </span>
            </Radio>
          );
        })}
      </RadioGroup>
      <p>{plan.difference.words}</p>
    </>
  );
}

function Below(props: { plan: OrderPlanView; column: ColumnName; slips: readonly Slip[] }) {
  const { short, proof } = props.plan[props.column];
  return (
    <>
      {props.slips.length === 0 && <p className="blank-page">{words.nothing}</p>}
      <h2>{words.short}</h2>
      {short.length === 0 && <p>{words.noneShort}</p>}
      <ul>
        {short.map(({ productId, name, missing, words: said }) => (
          <li key={productId}>
            <strong>{name}</strong> {said}{' '}
            {decimal(missing.quantity).isZero()
              ? ''
              : words.missing(countInWords(missing.quantity, missing.unit))}
          </li>
        ))}
      </ul>
      {props.plan.remarks.length > 0 && <h2>{words.remarks}</h2>}
      <ul>
        {props.plan.remarks.map(({ productId, words: said }) => (
          <li key={`${productId} ${said}`}>{said}</li>
        ))}
      </ul>
      <p className="quiet">{words.proof(percent(proof.gap))}</p>
    </>
  );
}
