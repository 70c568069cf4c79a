/** "As last time": one key plans all bowls of the last visit, sized by what was applied. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { FormulaView } from '../../../shared/contract/catalogue.js';
import type { VisitView } from '../../../shared/contract/visits.js';
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import { useFormulas, useProducts, useStudio } from '../catalogue/catalogue.js';
import { studioDay, dateInWords } from '../shell/clock.js';
import { useClientBowls, useClientFormulas } from '../visits/clients.js';
import { visitTexts } from '../visits/texts.js';
import { planOf, sheetFrom } from './draft.js';
import { lastTime, type Repeat } from './last-time.js';
import type { MixJson } from './mix-json.js';
import { totalOf } from './planned-bowls.js';
import { sheets } from './sheets.js';

const { last: words, formula: formulaWords } = visitTexts;

/** What is planned at once. */
interface Wanted {
  readonly purpose: string;
  readonly mix: Omit<MixJson, 'size'>;
  readonly grams: Decimal;
}

/** The last visit's bowls, and the client's saved formulas. */
export function LastTimePart({ visit }: { visit: VisitView }) {
  const products = useProducts().byId;
  const studio = useStudio();
  const bowls = useClientBowls(visit.clientId);
  const [troubles, setTroubles] = useState<readonly string[]>([]);
  if (visit.clientId === null) return null;
  const last = lastTime(bowls, visit.id, products);
  const plan = (wanted: readonly Wanted[]) => {
    const failed = wanted.map((each) => {
      const request = { ...each.mix, size: totalOf(each.grams) };
      const made = planOf(request, products, studio?.country ?? undefined);
      if (typeof made === 'string') return `${each.purpose}: ${made}`;
      const facts = { visitId: visit.id, purpose: each.purpose, vesselId: null, mark: null };
      sheets.put(sheetFrom({ ...facts, contact: each.mix.contact ?? null }, request, made));
      return '';
    });
    setTroubles(failed.filter((each) => each !== ''));
  };
  return (
    <>
      {last && (
        <>
          <h2>{words.title(dateInWords(studioDay(studio?.timeZone, last.startedAt)))}</h2>
          <ul className="plain">
            {last.repeats.map((each) => (
              <li key={each.purpose} className="book-line">
                <strong>{each.purpose}</strong> <span className="grow">{inWords(each)}</span>
              </li>
            ))}
          </ul>
          <Button
            className="key wide"
            onPress={() => plan(last.repeats.map((each) => ({ ...each, grams: each.size.plan_g })))}
          >
            {words.key}
          </Button>
        </>
      )}
      {!last && <p className="quiet">{words.none}</p>}
      <SavedOf clientId={visit.clientId} onPlan={(wanted) => plan([wanted])} />
      {troubles.map((each) => (
        <p key={each} role="alert">
          {each}
        </p>
      ))}
    </>
  );
}

/** "the last 4 like this took 48 to 54 g; plan 55 g" */
function inWords({ size }: Repeat): string {
  const { visits, low_g, high_g, ranOut, plan_g } = size;
  const took = words.size(visits, canonical(low_g), canonical(high_g));
  return [took, ...(ranOut ? [words.ranOut] : []), words.plan(canonical(plan_g))].join('; ');
}

/** Formulas of the client, and of the studio; a tap plans a bowl of the size that is kept. */
function SavedOf(props: { clientId: string; onPlan: (wanted: Wanted) => void }) {
  const own = useClientFormulas(props.clientId);
  const studios = useFormulas().filter(({ clientId }) => clientId === null);
  const formulas = own.length > 0 ? own : studios;
  if (formulas.length === 0) return null;
  return (
    <>
      <h2>{formulaWords.saved}</h2>
      <div className="keys">
        {formulas.map((formula) => {
          const { mix, grams } = readFormula(formula);
          const size = grams === null ? null : canonical(grams);
          return (
            <Button
              key={formula.id}
              className="key"
              onPress={() =>
                props.onPlan({
                  ...{ purpose: formula.purpose ?? formula.name.slice(0, 60), mix },
                  grams: grams ?? decimal('60'),
                })
              }
            >
              {formulaWords.ofClient(formula.name, size)}
            </Button>
          );
        })}
      </div>
    </>
  );
}

/** A formula's mix as it was poured, else as it was planned, and its size in grams. */
export function readFormula({ poured, plan }: Pick<FormulaView, 'poured' | 'plan'>) {
  const { size, ...mix } = (poured ?? plan) as unknown as MixJson;
  const grams = size.total?.unit === 'g' ? decimal(size.total.quantity) : null;
  return { mix, grams };
}
