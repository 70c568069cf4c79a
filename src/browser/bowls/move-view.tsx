/** A bowl that was entered under the wrong visit goes to the right one; what was poured stays. */
import { Button } from 'react-aria-components';
import { caution } from '../../../shared/cautions.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { useOtherVisits, whoIs } from '../visits/visits.js';
import { bookMove, bookNoted } from './bookings.js';
import { bowlInWords } from './bowl-lines.js';
import type { Sheet } from './sheet.js';
import { sheets } from './sheets.js';
import { bowlTexts } from './texts.js';

const { move: words } = bowlTexts;

/** The view: one tap on the visit that it belongs to. */
export default function MoveView({ sheet }: { sheet: Sheet }) {
  const visits = useOtherVisits(sheet.visitId);
  const move = (visitId: string) => {
    if (sheet.opened) {
      bookMove(sheet, visitId);
      if (sheet.visitId !== null) bookNoted(sheet, 'stays_with_client');
    }
    sheets.put({ ...sheet, visitId });
    goTo('bowl', sheet.id);
  };
  return (
    <section className="page narrow" aria-labelledby="move-title">
      <h1 id="move-title">
        {words.title} <small>{bowlInWords(sheet)}</small>
      </h1>
      <p>{words.how}</p>
      {sheet.visitId !== null && sheet.pours.length > 0 && (
        <p className="caution">{caution('stays_with_client', {}).text}</p>
      )}
      {visits.length === 0 && <p className="quiet">{words.none}</p>}
      <ul className="plain">
        {visits.map((visit) => (
          <li key={visit.id}>
            <Button className="line-key" onPress={() => move(visit.id)}>
              <strong>{whoIs(visit)}</strong>
              <span>{visit.services.map(({ name }) => name).join(', ')}</span>
            </Button>
          </li>
        ))}
      </ul>
      <Button className="key" onPress={() => goTo('bowl', sheet.id)}>
        {texts.cancel}
      </Button>
    </section>
  );
}
