/** A visit that is still open at the end of the day: its minutes proposed, closed with one key. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { VisitView } from '../../../shared/contract/visits.js';
import { outbox } from '../api/outbox.js';
import { useStudio } from '../catalogue/catalogue.js';
import { deviceNow, timeOfDay } from '../shell/clock.js';
import { texts } from '../shell/texts.js';
import { whoIs } from './visits.js';

const { visits: words } = texts;
const step = 5;

/** The visit's line; a refusal is said below it. */
export function OpenVisit({ visit }: { visit: VisitView }) {
  const timeZone = useStudio()?.timeZone;
  const [minutes, setMinutes] = useState(() => visit.minutes);
  const [trouble, setTrouble] = useState('');
  const first = minutes[0];
  const add = (more: number) =>
    setMinutes(([own, ...others]) =>
      own ? [{ ...own, minutes: Math.max(0, own.minutes + more) }, ...others] : [],
    );
  const who = whoIs(visit);
  const close = async () => {
    const id = uuidv7();
    const entered = minutes.length > 0 ? { minutes } : {};
    const body = { id, closedAt: deviceNow(), openBowls: 'refuse', ...entered };
    const path = `/visits/${visit.id}/close`;
    await outbox.ask({ id, method: 'POST', path, body, what: texts.bookings.closing(who) });
  };
  return (
    <li className="day-line">
      <p>
        <strong>{who}</strong> {texts.bench.began(timeOfDay(visit.startedAt, timeZone))}{' '}
        {visit.services.map(({ name }) => name).join(', ')}
      </p>
      <div className="keys">
        {first && (
          <>
            <Button className="key" aria-label={words.fewer(who)} onPress={() => add(-step)}>
              −5
            </Button>
            <span className="minutes" role="status">
              {words.minutes(first.minutes)}
            </span>
            <Button className="key" aria-label={words.more(who)} onPress={() => add(step)}>
              +5
            </Button>
          </>
        )}
        <Button
          className="key strong"
          aria-label={words.close(who)}
          onPress={() => void close().catch((error: Error) => setTrouble(error.message))}
        >
          {words.closeShort}
        </Button>
      </div>
      <p role="alert">{trouble}</p>
    </li>
  );
}
