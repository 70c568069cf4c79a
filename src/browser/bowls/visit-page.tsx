/** A visit at the bench: the line for today, what is asked first, and all of its bowls. */
import type { VisitView } from '../../../shared/contract/visits.js';
import { canonical, decimal, sum } from '../../../shared/decimal.js';
import { useStudio } from '../catalogue/catalogue.js';
import { AtTheScale } from '../scales/at-the-scale.js';
import { timeOfDay } from '../shell/clock.js';
import { addressOf } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { useAskedVisit, usePastTheQuote } from '../visits/answers.js';
import { useNextTime } from '../visits/clients.js';
import { Questions } from '../visits/questions.js';
import { visitTexts } from '../visits/texts.js';
import { useVisitsToday, whoIs } from '../visits/visits.js';
import { BowlLines } from './bowl-lines.js';
import { CautionLines } from './caution-lines.js';
import { KeepFormulas } from './keep-formula.js';
import { LastTimePart } from './last-time-part.js';
import { useOpenBowls } from './open-bowls.js';
import { PlannedBowls } from './planned-bowls.js';
import type { Sheet } from './sheet.js';

const { page: words } = visitTexts;

/** The page of one visit of today. */
export default function VisitPage({ id }: { id: string }) {
  const visits = useVisitsToday(useStudio()?.timeZone);
  const visit = visits.find((each) => each.id === id);
  if (!visit) return <p role="status">{visits.length > 0 ? words.gone : texts.loading}</p>;
  return (
    <>
      <div className="two-pages">
        <Bowls visit={visit} />
        <Questions visitId={id}>
          <Cautions visitId={id} />
        </Questions>
      </div>
      <AtTheScale />
    </>
  );
}

/** What the answers call for, as lines; the worst of them interrupts when a bowl is begun. */
function Cautions({ visitId }: { visitId: string }) {
  const { cautions } = useAskedVisit(visitId);
  return <CautionLines cautions={cautions} />;
}

function Bowls({ visit }: { visit: VisitView }) {
  const timeZone = useStudio()?.timeZone;
  const bowls = useOpenBowls().filter((sheet) => sheet.visitId === visit.id);
  const planned = bowls.filter((sheet) => sheet.pours.length === 0);
  const open = bowls.filter((sheet) => sheet.pours.length > 0);
  const nextTime = useNextTime(visit.clientId);
  const past = usePastTheQuote(visit.id, canonical(sum(planned.map(plannedGrams))));
  return (
    <section className="page" aria-labelledby="visit-title">
      <h1 id="visit-title">
        {whoIs(visit)}{' '}
        <small>
          {visit.services.map(({ name }) => name).join(', ')}{' '}
          {words.since(timeOfDay(visit.startedAt, timeZone))}
        </small>
      </h1>
      {nextTime !== undefined && (
        <p className="next-time">
          <small>{words.nextTime}</small> {nextTime}
        </p>
      )}
      {past && (
        <p className="caution" role="status">
          {words.pastTheQuote}
        </p>
      )}
      <h2>{words.bowls}</h2>
      {bowls.length === 0 && <p className="quiet">{words.noBowls}</p>}
      <PlannedBowls sheets={planned} />
      <BowlLines bowls={open} visits={[]} />
      <LastTimePart visit={visit} />
      <div className="keys">
        <a className="key strong" href={addressOf('plan', visit.id)}>
          {words.planAnother}
        </a>
      </div>
      <KeepFormulas visit={visit} />
    </section>
  );
}

/** Grams of a bowl that is planned and not begun. */
export function plannedGrams(sheet: Sheet) {
  return sum(sheet.planned.map(({ grams }) => decimal(grams)));
}
