/** Closed days: typed in, taken from a calendar of holidays, opened again. */
import { useState } from 'react';
import { Button, FileTrigger, Input, Label, TextField } from 'react-aria-components';
import type { ClosureView, ImportedClosuresView } from '../../../shared/contract/bookings.js';
import { send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { dateInWords, studioDay } from '../shell/clock.js';
import { texts as shell } from '../shell/texts.js';
import { useAnew, useClosures } from './bookings.js';
import { DayField } from './day-field.js';
import { texts } from './texts.js';

const { closed: words } = texts;

/** The part of the page. */
export function ClosedDays() {
  const { data, error, isPending } = useClosures();
  const today = studioDay(useStudio()?.timeZone);
  const anew = useAnew();
  const [trouble, setTrouble] = useState('');
  const [told, tell] = useState('');
  const act = async (work: () => Promise<unknown>): Promise<boolean> => {
    setTrouble('');
    tell('');
    try {
      await work();
      await anew();
      return true;
    } catch (refused) {
      setTrouble((refused as Error).message);
      return false;
    }
  };
  const open = ({ id }: ClosureView) => void act(() => send('DELETE', `/closures/${id}`));
  const holidays = (text: string) =>
    void act(async () => {
      const taken = (await send('POST', '/closures/import', { text })) as ImportedClosuresView;
      tell(words.taken(taken.added, taken.same));
    });
  const coming = (data ?? []).filter(({ to }) => to >= today);
  const gone = (data ?? []).filter(({ to }) => to < today);
  return (
    <>
      <p className="quiet">{words.why}</p>
      <NewClosure onClose={(closure) => act(() => send('POST', '/closures', closure))} />
      <FileTrigger
        acceptedFileTypes={['.ics', 'text/calendar']}
        onSelect={(files) => {
          const [first] = files ?? [];
          if (first) void first.text().then(holidays);
        }}
      >
        <Button className="key">{words.holidays}</Button>
      </FileTrigger>
      <p role="alert">{trouble}</p>
      <p role="status">{told}</p>
      {isPending && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data && coming.length === 0 && <p className="quiet">{words.none}</p>}
      <Lines of={coming} onOpen={open} />
      {gone.length > 0 && <h2>{words.past}</h2>}
      <Lines of={gone.toReversed()} onOpen={open} />
    </>
  );
}

function NewClosure({ onClose }: { onClose: (closure: object) => Promise<boolean> }) {
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [name, setName] = useState('');
  const [trouble, setTrouble] = useState('');
  const close = async () => {
    setTrouble('');
    if (from === '') return setTrouble(words.needed);
    if (to !== '' && to < from) return setTrouble(words.order);
    if (!(await onClose({ from, name, ...(to === '' ? {} : { to }) }))) return;
    setFrom('');
    setTo('');
    setName('');
  };
  return (
    <>
      <div className="side-by-side">
        <DayField label={words.from} value={from} onChange={setFrom} />
        <DayField label={words.to} value={to} onChange={setTo} />
        <TextField className="react-aria-TextField" value={name} onChange={setName} maxLength={100}>
          <Label>{words.name}</Label>
          <Input />
        </TextField>
        <Button className="key strong" onPress={() => void close()}>
          {words.add}
        </Button>
      </div>
      <p role="alert">{trouble}</p>
    </>
  );
}

function Lines(props: { of: readonly ClosureView[]; onOpen: (closure: ClosureView) => void }) {
  return (
    <ul className="plain">
      {props.of.map((closure) => (
        <li key={closure.id} className="book-line">
          <span className="grow">
            {daysInWords(closure)} <span className="quiet">{closure.name}</span>
          </span>
          <Button
            className="key"
            aria-label={words.awayOf(daysInWords(closure))}
            onPress={() => props.onOpen(closure)}
          >
            {words.away}
          </Button>
        </li>
      ))}
    </ul>
  );
}

function daysInWords({ from, to }: ClosureView): string {
  return from === to ? dateInWords(from) : `${dateInWords(from)} – ${dateInWords(to)}`;
}
