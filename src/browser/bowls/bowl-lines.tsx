/** Open bowls as lines: "front, 13 vol, triangle, mixed 14 min ago". */
import { useEffect, useState } from 'react';
import { canonical, round } from '../../../shared/decimal.js';
import type { VisitView } from '../../../shared/contract/visits.js';
import { minutesSince } from '../shell/clock.js';
import { vol } from '../shell/figures.js';
import { addressOf } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { whoIs } from '../visits/visits.js';
import { contentsGrams, type Sheet } from './sheet.js';

/** Redraws now and then, so that ages go on. */
export function useMinutes(): void {
  const [, turn] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => turn((times) => times + 1), 15_000);
    return () => clearInterval(timer);
  }, []);
}

/** A bowl in words: purpose, strength, mark. */
export function bowlInWords(sheet: Sheet): string {
  const parts = [sheet.purpose, sheet.strength && vol(sheet.strength.volume), sheet.mark];
  return parts.filter(Boolean).join(', ');
}

/** How old the mix is, in words. */
export function ageInWords({ firstContactAt }: Sheet): string {
  if (firstContactAt === null) return texts.bench.notMixed;
  return texts.bench.mixed(minutesSince(firstContactAt));
}

/** The lines; each leads to its bowl. */
export function BowlLines(props: { bowls: readonly Sheet[]; visits: readonly VisitView[] }) {
  useMinutes();
  return (
    <ul className="plain lines">
      {props.bowls.map((sheet) => {
        const visit = props.visits.find((each) => each.id === sheet.visitId);
        const grams = canonical(round(contentsGrams(sheet), 1, 'half_even'));
        return (
          <li key={sheet.id}>
            <a className="line-key" href={addressOf('bowl', sheet.id)}>
              <strong>{bowlInWords(sheet)}</strong>
              <span>{visit ? whoIs(visit) : ''}</span>
              <span>{ageInWords(sheet)}</span>
              <span className="quiet">{texts.bench.holds(grams)}</span>
            </a>
          </li>
        );
      })}
    </ul>
  );
}
