/** The bench: who is here today, and which bowls are open. */
import { lazy, Suspense, useState } from 'react';
import { Button } from 'react-aria-components';
import { useBookedToday } from '../bookings/bookings.js';
import { useStudio } from '../catalogue/catalogue.js';
import { dayInWords, timeOfDay } from '../shell/clock.js';
import { AtTheScale } from '../scales/at-the-scale.js';
import { addressOf, goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { useVisitsToday, useWalkIn, whoIs } from '../visits/visits.js';
import { BowlLines } from './bowl-lines.js';
import { useOpenBowls } from './open-bowls.js';

const OnThePlate = lazy(() => import('./on-the-plate.js'));
const BookedToday = lazy(() => import('../bookings/booked-today.js'));

/** Today's visits on the left, open bowls on the right. */
export function BenchPage() {
  const timeZone = useStudio()?.timeZone;
  const visits = useVisitsToday(timeZone);
  const bowls = useOpenBowls();
  const booked = useBookedToday(timeZone);
  const nameOf = (visitId: string) => booked.find((each) => each.visitId === visitId)?.who;
  return (
    <>
      <Suspense fallback={null}>
        <OnThePlate bowls={bowls} visits={visits} />
      </Suspense>
      <div className="two-pages">
        <section className="page" aria-labelledby="today">
          <h1 id="today">
            {texts.bench.today} <small>{dayInWords(timeZone)}</small>
          </h1>
          <ul className="plain lines">
            {visits
              .filter((visit) => visit.closedAt === null)
              .map((visit) => (
                <li key={visit.id}>
                  <a className="line-key" href={addressOf('visit', visit.id)}>
                    <strong>
                      {visit.client ? whoIs(visit) : (nameOf(visit.id) ?? whoIs(visit))}
                    </strong>
                    <span>{visit.services.map((service) => service.name).join(', ')}</span>
                    <span className="quiet">
                      {texts.bench.began(timeOfDay(visit.startedAt, timeZone))}
                    </span>
                  </a>
                </li>
              ))}
            {visits.length === 0 && <li className="quiet">{texts.bench.noVisits}</li>}
          </ul>
          <div className="keys">
            <WalkIn />
            <a className="key strong" href={addressOf('plan')}>
              {texts.bench.plan}
            </a>
          </div>
          <p className="quiet">{texts.bench.noVisit}</p>
          <Suspense fallback={null}>
            <BookedToday bookings={booked} timeZone={timeZone} />
          </Suspense>
        </section>
        <section className="page" aria-labelledby="open-bowls">
          <h2 id="open-bowls">{texts.bench.open}</h2>
          {bowls.length === 0 && <p className="quiet">{texts.bench.noneOpen}</p>}
          <BowlLines bowls={bowls} visits={visits} />
          {bowls.some((bowl) => bowl.firstContactAt !== null) && (
            <p className="quiet">{texts.bench.ageOnce}</p>
          )}
        </section>
      </div>
      <AtTheScale />
    </>
  );
}

function WalkIn() {
  const start = useWalkIn();
  const [trouble, setTrouble] = useState('');
  return (
    <>
      <Button
        className="key"
        onPress={() =>
          void start().then(
            (id) => goTo('visit', id),
            (error: Error) => setTrouble(error.message),
          )
        }
      >
        {texts.bench.walkIn}
      </Button>
      <p role="alert">{trouble}</p>
    </>
  );
}
