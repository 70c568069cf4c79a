/** A weight set down with no bowl in hand: which open bowl it may be, the likeliest first. */
import { useEffect, useRef } from 'react';
import type { VisitView } from '../../../shared/contract/visits.js';
import { canonical, decimal, round } from '../../../shared/decimal.js';
import { fittingBowls, type BowlFit } from '../../../shared/weighing/which-bowl.js';
import { useVessels } from '../catalogue/catalogue.js';
import { benchScale } from '../scales/bench-scale.js';
import { useWeighing } from '../scales/weighing-state.js';
import { addressOf, goTo } from '../shell/place.js';
import { whoIs } from '../visits/visits.js';
import { bowlInWords } from './bowl-lines.js';
import { knownBowls } from './known-tare.js';
import { contentsGrams, type Sheet } from './sheet.js';
import { bowlTexts } from './texts.js';

const { plate: words } = bowlTexts;

/** What fits the weight on the plate; a bowl that weighs what it weighed goes on by itself. */
export default function OnThePlate(props: {
  bowls: readonly Sheet[];
  visits: readonly VisitView[];
}) {
  const gross = useWeighing(({ plate, weight }) =>
    plate === 'unidentified' && weight?.stable ? weight.grams.toFixed() : undefined,
  );
  const vessels = useVessels();
  const stood = useStoodBefore();
  const interval = benchScale.weighing.get().intervalGrams;
  const fit =
    gross === undefined
      ? undefined
      : fittingBowls(
          decimal(gross),
          interval,
          knownBowls(props.bowls, vessels),
          vessels.map(({ id, tare }) => ({ id, tareGrams: decimal(tare.quantity) })),
        );
  const resumes = stood ? undefined : fit?.resumes;
  useEffect(() => {
    if (resumes !== undefined) goTo('bowl', resumes);
  }, [resumes]);
  if (gross === undefined || !fit) return null;
  return (
    <section className="page on-the-plate" aria-labelledby="plate-title">
      <h2 id="plate-title">{words.title}</h2>
      <p role="status">{resumes === undefined ? words.which(gross) : words.goesOn}</p>
      <Offered fit={fit} gross={gross} {...props} />
      <ul className="plain">
        {fit.newIn.map((id) => {
          const vessel = vessels.find((each) => each.id === id);
          return (
            <li key={id}>
              <a className="line-key" href={addressOf('plan', 'none', id)}>
                {words.newIn(words.vessel(vessel?.label ?? '', vessel?.mark ?? null))}
              </a>
            </li>
          );
        })}
        {fit.newIn.length === 0 && fit.offered.length === 0 && (
          <li>
            <p>{words.none}</p>
            <a className="line-key" href={addressOf('plan')}>
              {words.newBowl}
            </a>
          </li>
        )}
      </ul>
    </section>
  );
}

/** The open bowls; one that came back lighter leads to what is left, and is settled with a yes. */
function Offered(props: {
  fit: BowlFit;
  gross: string;
  bowls: readonly Sheet[];
  visits: readonly VisitView[];
}) {
  const { fit, bowls, visits } = props;
  const vessels = useVessels();
  const interval = benchScale.weighing.get().intervalGrams;
  const known = knownBowls(bowls, vessels);
  return (
    <ul className="plain lines">
      {fit.offered.map((id) => {
        const sheet = bowls.find((each) => each.id === id);
        const last = known.find((each) => each.id === id)?.lastGrossGrams;
        if (!sheet || !last) return null;
        const visit = visits.find((each) => each.id === sheet.visitId);
        const lighter = last.minus(props.gross).greaterThan(interval.times(2));
        const held = canonical(round(contentsGrams(sheet), 1, 'half_even'));
        return (
          <li key={id}>
            <a
              className="line-key"
              href={lighter ? addressOf('bowl', id, 'left') : addressOf('bowl', id)}
            >
              <strong>{bowlInWords(sheet)}</strong>
              <span>{visit ? whoIs(visit) : ''}</span>
              <span className="quiet">{words.before(held)}</span>
            </a>
          </li>
        );
      })}
    </ul>
  );
}

/** True while what stands on the plate stood there before this page was open. */
function useStoodBefore(): boolean {
  const stood = useRef(benchScale.weighing.get().plate !== 'empty');
  const plate = useWeighing((state) => state.plate);
  if (plate === 'empty') stood.current = false;
  return stood.current;
}
