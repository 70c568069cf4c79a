/** A visit that is still open at the end of the day: its minutes proposed, closed with one key. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { VisitView } from '../../../shared/contract/visits.js';
import { send } from '../api/calls.js';
import { useStudio } from '../catalogue/catalogue.js';
import { deviceNow, timeOfDay } from '../shell/clock.js';
import { texts } from '../shell/texts.js';
import { whoIs } from './visits.js';

const { visits: words } = texts;
const step = 5;

/** The visit's line; a refusal is said below it. */
export function OpenVisit({ visit }: { visit: VisitView }) {
  const queries = useQueryClient();
  const timeZone = useStudio()?.timeZone;
  const [minutes, setMinutes] = useState(() => visit.minutes);
  const [trouble, setTrouble] = useState('');
  const first = minutes[0];
  const add = (more: number) =>
    setMinutes(([own, ...others]) =>
      own ? [{ ...own, minutes: Math.max(0, own.minutes + more) }, ...others] : [],
    );
  const close = async () => {
    const now = deviceNow();
    const body = { id: uuidv7(), closedAt: now, sentAt: now, openBowls: 'refuse' };
    const entered = minutes.length > 0 ? { minutes } : {};
    await send('POST', `/visits/${visit.id}/close`, { ...body, ...entered });
    await queries.invalidateQueries({ queryKey: ['visits'] });
  };
  const who = whoIs(visit);
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
