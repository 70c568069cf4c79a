/** What the diary's words mean: those not known, to be told by one tap, and the rules. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { BookingRuleView, DiaryWordsView } from '../../../shared/contract/bookings.js';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import { texts as shell } from '../shell/texts.js';
import { useKeepRules, useMenu, useRules } from './bookings.js';
import { MeaningKey } from './meaning-key.js';
import { NewRule } from './new-rule.js';
import { RuleLines } from './rule-lines.js';
import { texts } from './texts.js';

const { words } = texts;

/** The part of the page. */
export function DiaryWords() {
  const { data, error, isPending } = useRules();
  const menu = useMenu();
  const keep = useKeepRules();
  const [trouble, setTrouble] = useState('');
  const put = async (rules: readonly BookingRuleView[]): Promise<boolean> => {
    setTrouble('');
    try {
      await keep(rules);
      return true;
    } catch (refused) {
      setTrouble((refused as Error).message);
      return false;
    }
  };
  if (isPending) return <p>{shell.loading}</p>;
  if (error) return <p role="alert">{error.message}</p>;
  const { rules, words: all } = data;
  const unread = all.filter(({ services, notAVisit }) => services.length === 0 && !notAVisit);
  const read = all.filter((each) => !unread.includes(each));
  return (
    <>
      <p className="quiet">{words.why}</p>
      <p role="alert">{trouble}</p>
      <h2>{words.unreadTitle}</h2>
      {all.length === 0 && <p className="quiet">{words.noWords}</p>}
      {all.length > 0 && unread.length === 0 && <p className="quiet">{words.allRead}</p>}
      {unread.map((each) => (
        <Unread
          key={each.what}
          {...{ each, menu }}
          onMeans={(serviceIds) => void put([...rules, { words: each.what, serviceIds }])}
        />
      ))}
      <h2>{words.rules}</h2>
      <RuleLines {...{ rules, menu, all }} onRules={(next) => void put(next)} />
      <NewRule {...{ menu, all }} onRule={(rule) => put([...rules, rule])} />
      {read.length > 0 && <Read of={read} />}
    </>
  );
}

function Unread(props: {
  each: DiaryWordsView;
  menu: readonly ServiceView[];
  onMeans: (serviceIds: string[]) => void;
}) {
  const { what, upcoming, bookings } = props.each;
  if (what === '') {
    return (
      <div className="book-line">
        <span className="grow">{words.saidNothing}</span>
        <span className="quiet">{words.booked(upcoming, bookings)}</span>
      </div>
    );
  }
  return (
    <div className="book-line">
      <span className="grow">
        “{what}” <small className="quiet">{words.booked(upcoming, bookings)}</small>
      </span>
      <MeaningKey
        label={words.means(what)}
        menu={props.menu}
        onChoose={(id) => props.onMeans([id])}
      />
      <Button
        className="key"
        aria-label={words.notAVisitOf(what)}
        onPress={() => props.onMeans([])}
      >
        {words.notAVisit}
      </Button>
    </div>
  );
}

function Read({ of }: { of: readonly DiaryWordsView[] }) {
  return (
    <>
      <h2>{words.readTitle}</h2>
      <table className="book small left">
        <thead>
          <tr>
            <th scope="col">{words.word}</th>
            <th scope="col">{words.meaning}</th>
            <th scope="col">{words.count}</th>
          </tr>
        </thead>
        <tbody>
          {of.map(({ what, services, upcoming, bookings }) => (
            <tr key={what}>
              <th scope="row">{what}</th>
              <td>
                {services.length === 0
                  ? words.notAVisit
                  : services.map(({ name }) => name).join(', ')}
              </td>
              <td>{words.booked(upcoming, bookings)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
