/** Planning a bowl: products as lines of the book, ratio, strength on a ruler, size, contact. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { VisitView } from '../../../shared/contract/visits.js';
import { useFormulas, useProducts, useStudio } from '../catalogue/catalogue.js';
import { usedNow } from '../catalogue/lately.js';
import { goTo } from '../shell/place.js';
import { texts } from '../shell/texts.js';
import { useClientFormulas } from '../visits/clients.js';
import { useVisitsToday, whoIs } from '../visits/visits.js';
import { draftOf, freshDraft, mixOf, planOf, sheetFrom, type Draft } from './draft.js';
import { PlanLines } from './plan-lines.js';
import { Additives, Powders } from './plan-products.js';
import {
  ContactChoice,
  MarkChoice,
  PurposeField,
  Ratio,
  SavedFormula,
  Size,
} from './plan-fields.js';
import { VesselChoice, VisitChoice } from './plan-vessel.js';
import { StrengthRule } from '../catalogue/strength-rule.js';
import { sheets } from './sheets.js';

/** The page, for a visit and in a vessel that are meant already, or not. */
export default function PlanPage(props: Pick<Draft, 'visitId' | 'vesselId'>) {
  const [draft, setDraft] = useState<Draft>({ ...freshDraft, ...props });
  const change = (part: Partial<Draft>) => setDraft((before) => ({ ...before, ...part }));
  const products = useProducts();
  const studio = useStudio();
  const visits = useVisitsToday(studio?.timeZone).filter((each) => each.closedAt === null);
  const visit = visits.find((each) => each.id === draft.visitId);
  const formulas = [...useClientFormulas(visit?.clientId ?? null), ...useFormulas()];
  const developers = products.inOrder.filter(({ kind }) => kind === 'developer');
  const mix = mixOf(
    draft,
    developers.filter(({ strength }) => strength !== null).map(({ id }) => id),
  );
  const plan =
    draft.powders.length === 0
      ? texts.plan.unfinished
      : planOf(mix, products.byId, studio?.country ?? undefined);
  const ready = typeof plan !== 'string' && draft.purpose.trim() !== '';
  const make = (then: 'bowl' | 'visit') => {
    if (typeof plan === 'string') return;
    const used = { ...mix, developers: plan.pours.filter(isDeveloper).map((p) => p.productId) };
    const sheet = sheetFrom(draft, draft.ratio === null ? mix : used, plan);
    sheets.put(sheet);
    usedNow(plan.pours.map(({ productId }) => productId));
    goTo(then, then === 'bowl' ? sheet.id : (draft.visitId ?? ''));
  };
  return (
    <div className="two-pages plan">
      <section className="page" aria-labelledby="plan-title">
        <h1 id="plan-title">
          {texts.plan.title} <small>{visit && texts.plan.forWhom(whoIs(visit))}</small>
        </h1>
        <SavedFormula
          formulas={formulas}
          onChoose={(formula) => setDraft((before) => draftOf(formula, before))}
        />
        <Powders draft={draft} products={products.inOrder} onChange={change} />
        <Ratio ratio={draft.ratio} onChange={(ratio) => change({ ratio })} />
        {draft.ratio !== null && (
          <StrengthRule
            strength={draft.strength}
            developers={developers}
            onChange={(strength) => change({ strength })}
          />
        )}
        <Additives draft={draft} products={products.inOrder} onChange={change} />
      </section>
      <section className="page" aria-labelledby="plan-page-title">
        <h2 id="plan-page-title">{texts.plan.page}</h2>
        <Size grams={draft.grams} onChange={(grams) => change({ grams })} />
        <PlanLines plan={plan} products={products.byId} />
        <WhichBowl draft={draft} visits={props.visitId === null ? visits : []} onChange={change} />
        <PlanKeys isReady={ready} ofVisit={draft.visitId !== null} onMake={make} />
      </section>
    </div>
  );
}

/** Pours it now; a bowl of a visit may wait among the visit's planned ones. */
function PlanKeys(props: {
  isReady: boolean;
  ofVisit: boolean;
  onMake: (then: 'bowl' | 'visit') => void;
}) {
  return (
    <>
      <Button
        className="key strong wide"
        isDisabled={!props.isReady}
        onPress={() => props.onMake('bowl')}
      >
        {texts.plan.pour}
      </Button>
      {props.ofVisit && (
        <Button
          className="key wide"
          isDisabled={!props.isReady}
          onPress={() => props.onMake('visit')}
        >
          {texts.plan.later}
        </Button>
      )}
    </>
  );
}

/** What the bowl is for, where it goes, whose it is, and in which vessel it is mixed. */
function WhichBowl(props: {
  draft: Draft;
  /** Those it may be for; none where that is settled. */
  visits: readonly VisitView[];
  onChange: (part: Partial<Draft>) => void;
}) {
  const { draft, onChange } = props;
  return (
    <>
      <PurposeField purpose={draft.purpose} onChange={(purpose) => onChange({ purpose })} />
      <ContactChoice contact={draft.contact} onChange={(contact) => onChange({ contact })} />
      <VisitChoice
        visitId={draft.visitId}
        visits={props.visits}
        onChange={(visitId) => onChange({ visitId })}
      />
      <VesselChoice vesselId={draft.vesselId} onChange={onChange} />
      {draft.vesselId === null && (
        <MarkChoice mark={draft.mark} onChange={(mark) => onChange({ mark })} />
      )}
    </>
  );
}

function isDeveloper({ side }: { side: string }): boolean {
  return side === 'developer';
}
