/** Who is booked for today and not here yet: one key begins the visit with its services. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { BookingView } from '../../../shared/contract/bookings.js';
import { Unreached } from '../api/calls.js';
import { timeOfDay } from '../shell/clock.js';
import { goTo } from '../shell/place.js';
import { useBegin } from './bookings.js';
import { texts } from './texts.js';

const { today: words } = texts;

/** The list; nothing where nobody is booked. */
export default function BookedToday(props: {
  bookings: readonly BookingView[];
  timeZone: string | undefined;
}) {
  const begin = useBegin();
  const [trouble, setTrouble] = useState('');
  const toCome = props.bookings.filter(({ state }) => state === 'booked');
  if (toCome.length === 0) return null;
  const here = (id: string) =>
    void begin(id).then(
      (visitId) => goTo('visit', visitId),
      (error: Error) => setTrouble(error instanceof Unreached ? words.noNetwork : error.message),
    );
  return (
    <>
      <h2>{words.title}</h2>
      <ul className="plain lines">
        {toCome.map((booking) => (
          <li key={booking.id}>
            <Button
              className="line-key"
              aria-label={`${words.beginOf(whoOf(booking))}: ${whatOf(booking)}`}
              onPress={() => here(booking.id)}
            >
              <span className="quiet">
                {booking.startsAt === null
                  ? words.anyTime
                  : timeOfDay(booking.startsAt, props.timeZone)}
              </span>
              <strong>{whoOf(booking)}</strong>
              <span>{whatOf(booking)}</span>
              <span className="quiet">{words.begin}</span>
            </Button>
          </li>
        ))}
      </ul>
      <p role="alert">{trouble}</p>
    </>
  );
}

function whoOf({ who }: BookingView): string {
  return who ?? words.noName;
}

function whatOf({ services, what }: BookingView): string {
  if (services.length > 0) return services.map(({ name }) => name).join(', ');
  return what === '' ? words.unread : what;
}
