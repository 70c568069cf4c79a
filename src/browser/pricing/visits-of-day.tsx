/** The visits of a day as lines of a book; each leads to its price sheet. */
import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import type { VisitView } from '../../../shared/contract/visits.js';
import { send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { dayAfter, studioDay, timeOfDay } from '../shell/clock.js';
import { addressOf, goTo } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { dayBefore, dayInFull } from './days.js';
import { fullNameOf } from './who.js';
import { texts } from './texts.js';

const { visits: words } = texts;

/** Visits of `day` (2026-03-02), of today unless told. */
export function VisitsOfDay({ day: chosen }: { day: string | undefined }) {
  const timeZone = useStudio()?.timeZone;
  const today = studioDay(timeZone);
  const day = chosen ?? today;
  const { data, error, isPending } = useQuery({
    queryKey: ['visits', 'day', day],
    enabled: timeZone !== undefined,
    queryFn: async () => {
      const path = `/visits?from=${day}&to=${dayAfter(day)}&limit=200`;
      return ((await send('GET', path)) as { items: VisitView[] }).items;
    },
  });
  return (
    <section className="page" aria-labelledby="visits-title">
      <h1 id="visits-title">
        {texts.title} <small>{dayInFull(day)}</small>
      </h1>
      <ChooseDay day={day} today={today} />
      {isPending && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data?.length === 0 && <p className="quiet">{texts.noVisits}</p>}
      {data && data.length > 0 && <Visits visits={data.toReversed()} timeZone={timeZone} />}
    </section>
  );
}

function ChooseDay({ day, today }: { day: string; today: string }) {
  const field = useId();
  const go = (to: string) => {
    if (/^\d{4}-\d{2}-\d{2}$/.test(to)) goTo('pricing', 'visits', to);
  };
  return (
    <div className="side-by-side">
      <a className="key" href={addressOf('pricing', 'visits', dayBefore(day))}>
        {texts.dayBefore}
      </a>
      <div className="small-field">
        <label htmlFor={field}>{texts.day}</label>
        <input
          id={field}
          className="date"
          type="date"
          value={day}
          max={today}
          onChange={(event) => go(event.target.value)}
        />
      </div>
      {day < today && (
        <>
          <a className="key" href={addressOf('pricing', 'visits', dayAfter(day))}>
            {texts.dayAfter}
          </a>
          <a className="key" href={addressOf('pricing', 'visits')}>
            {texts.today}
          </a>
        </>
      )}
    </div>
  );
}

function Visits(props: { visits: readonly VisitView[]; timeZone: string | undefined }) {
  return (
    <table className="book">
      <thead>
        <tr>
          <th scope="col">{words.who}</th>
          <th scope="col">{words.time}</th>
          <th scope="col">{words.services}</th>
          <th scope="col">{words.state}</th>
        </tr>
      </thead>
      <tbody>
        {props.visits.map((visit) => (
          <tr key={visit.id}>
            <th scope="row">
              <a className="line-link" href={addressOf('pricing', 'visit', visit.id)}>
                {fullNameOf(visit)}
              </a>
            </th>
            <td>{timeOfDay(visit.startedAt, props.timeZone)}</td>
            <td>{visit.services.map(({ name }) => name).join(', ')}</td>
            <td>{stateOf(visit, props.timeZone)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function stateOf(visit: VisitView, timeZone: string | undefined): string {
  const open = visit.bowls.filter(({ state }) => state === 'open').length;
  const state =
    visit.closedAt === null ? words.open : words.closed(timeOfDay(visit.closedAt, timeZone));
  return open === 0 ? state : `${state}, ${words.openBowls(open)}`;
}
