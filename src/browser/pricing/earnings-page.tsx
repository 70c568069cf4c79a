/** Earnings: what the newest price sheets add up to, by service, month, or for owners person. */
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import type { EarningsKey, EarningsReportView } from '../../../shared/contract/earnings.js';
import { send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { useSession } from '../people/session.js';
import { Choice } from '../shell/choice.js';
import { dayAfter, studioDay } from '../shell/clock.js';
import { EarningsBook } from './earnings-book.js';
import { money, rounded } from './money.js';
import { texts } from './texts.js';

const { earnings: words } = texts;

/** The page; twelve months, unless other days are chosen. */
export default function EarningsPage() {
  const isOwner = useSession().data?.role === 'owner';
  const today = studioDay(useStudio()?.timeZone);
  const [by, setBy] = useState<EarningsKey>('service');
  const [from, setFrom] = useState(() => `${parseInt(today, 10) - 1}${today.slice(4)}`);
  const [last, setLast] = useState(today);
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(from) && /^\d{4}-\d{2}-\d{2}$/.test(last);
  const { data, error, isFetching } = useQuery({
    queryKey: ['earnings', by, from, last],
    enabled: isDay,
    staleTime: 60_000,
    queryFn: async () =>
      (await send(
        'GET',
        `/earnings?by=${by}&from=${from}&to=${dayAfter(last)}`,
      )) as EarningsReportView,
  });
  const bys = isOwner ? (['service', 'month', 'person'] as const) : (['service', 'month'] as const);
  return (
    <section className="page" aria-labelledby="earnings-title">
      <h1 id="earnings-title">{words.title}</h1>
      <div className="side-by-side">
        <Choice
          label={words.by}
          value={by}
          options={bys.map((value) => ({ value, text: words.bys[value] }))}
          onChoose={setBy}
        />
        <DayField label={words.from} value={from} onChange={setFrom} />
        <DayField label={words.to} value={last} onChange={setLast} />
      </div>
      <p role="status">{isFetching && words.working}</p>
      {error && <p role="alert">{error.message}</p>}
      {data && data.rows.length === 0 && <p className="quiet">{words.none}</p>}
      {data && data.rows.length > 0 && <EarningsBook report={data} by={by} />}
      {data && <Beside report={data} />}
    </section>
  );
}

function DayField(props: { label: string; value: string; onChange: (day: string) => void }) {
  const id = useId();
  return (
    <div className="small-field">
      <label htmlFor={id}>{props.label}</label>
      <input
        id={id}
        className="date"
        type="date"
        value={props.value}
        onChange={(event) => props.onChange(event.target.value)}
      />
    </div>
  );
}

function Beside({ report }: { report: EarningsReportView }) {
  const { redone, house, running, totals, currency } = report;
  const amount = (value: string) => money(value, currency);
  const inCoins = (value: string) => rounded(value, currency);
  return (
    <>
      <p className="quiet">{words.how}</p>
      {totals.noCost > 0 && <p className="noted">{words.noCost(totals.noCost)}</p>}
      {running > 0 && <p>{words.running(running)}</p>}
      {redone.visits > 0 && (
        <>
          <h2>{words.redone}</h2>
          <p>{words.redoneLine(redone.visits, amount(redone.contribution))}</p>
          <ul>
            {report.rows.map(
              ({ key, label, redone: own }) =>
                own &&
                own.visits > 0 && (
                  <li key={key}>{words.redoneOf(label, own.visits, amount(own.contribution))}</li>
                ),
            )}
          </ul>
        </>
      )}
      <h2>{words.house}</h2>
      <ul>
        {house.rows.map(({ kind, bowls, value }) => (
          <li key={kind}>{words.houseLine(kind, bowls, inCoins(value))}</li>
        ))}
        <li>{words.uses(inCoins(house.uses))}</li>
        <li>{words.discards(inCoins(house.discards))}</li>
      </ul>
    </>
  );
}
