/** Closing the day on one page: bowls not weighed, visits still open, what is not sent. */
import { useQueryClient } from '@tanstack/react-query';
import { Button } from 'react-aria-components';
import { outbox } from '../api/outbox.js';
import { useStudio } from '../catalogue/catalogue.js';
import { addressOf } from '../shell/place.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import { OpenVisit } from '../visits/open-visit.js';
import { useVisitsToday } from '../visits/visits.js';
import { ageInWords, bowlInWords, useMinutes } from './bowl-lines.js';
import { takeUpBowl, useOpenBowls } from './open-bowls.js';
import { settleUnweighed } from './settling.js';
import type { Sheet } from './sheet.js';

const { day: words } = texts;

/** The page; nothing on it closes by itself. */
export default function DayPage() {
  useMinutes();
  const visits = useVisitsToday(useStudio()?.timeZone).filter((each) => each.closedAt === null);
  const bowls = useOpenBowls();
  const { waiting } = useStore(outbox.state);
  return (
    <>
      <h1>
        {words.title} <small>{words.nothing}</small>
      </h1>
      <div className="two-pages">
        <section className="page" aria-labelledby="not-weighed">
          <h2 id="not-weighed">{words.notWeighed}</h2>
          {bowls.length === 0 && <p className="quiet">{words.allWeighed}</p>}
          <ul className="plain">
            {bowls.map((sheet) => (
              <OpenBowl key={sheet.id} sheet={sheet} />
            ))}
          </ul>
        </section>
        <section className="page" aria-labelledby="open-visits">
          <h2 id="open-visits">{words.visits}</h2>
          {visits.length === 0 && <p className="quiet">{words.noVisits}</p>}
          <ul className="plain">
            {visits.map((visit) => (
              <OpenVisit key={visit.id} visit={visit} />
            ))}
          </ul>
          <h2>{words.notSent}</h2>
          {waiting.length === 0 && <p className="quiet">{words.allSent}</p>}
          <ul>
            {waiting.map(({ id, what }) => (
              <li key={id}>{what}</li>
            ))}
          </ul>
        </section>
      </div>
    </>
  );
}

/** A bowl that nobody weighed: weigh it now, or say what was left. */
function OpenBowl({ sheet }: { sheet: Sheet }) {
  const queries = useQueryClient();
  const settle = async (leftoverShare: string) => {
    settleUnweighed(await takeUpBowl(sheet.id), leftoverShare);
    await queries.invalidateQueries({ queryKey: ['bowls'] });
  };
  const named = bowlInWords(sheet);
  return (
    <li className="day-line">
      <p>
        <strong>{named}</strong> {ageInWords(sheet)}
      </p>
      <div className="keys">
        <a
          className="key strong"
          href={addressOf('bowl', sheet.id, 'left')}
          aria-label={`${words.weigh}: ${named}`}
        >
          {words.weigh}
        </a>
        <Button
          className="key"
          aria-label={`${words.empty}: ${named}`}
          onPress={() => void settle('0')}
        >
          {words.empty}
        </Button>
        <Button
          className="key"
          aria-label={`${words.rinsed}: ${named}`}
          onPress={() => void settle('0.1')}
        >
          {words.rinsed}
        </Button>
      </div>
    </li>
  );
}
