/** In which bowl it is mixed, and for whom, while it is planned. */
import { useEffect } from 'react';
import type { VisitView } from '../../../shared/contract/visits.js';
import { useVessels } from '../catalogue/catalogue.js';
import { Choice } from '../shell/choice.js';
import { whoIs } from '../visits/visits.js';
import type { Draft } from './draft.js';
import { sheets } from './sheets.js';
import { bowlTexts } from './texts.js';

const none = 'none';

/** The studio's bowls that stand in no open one, with empty weight and mark; or any other. */
export function VesselChoice(props: {
  vesselId: string | null;
  onChange: (part: Pick<Draft, 'vesselId' | 'mark'>) => void;
}) {
  const inUse = new Set(sheets.useAll().map(({ vesselId }) => vesselId));
  const vessels = useVessels().filter(({ id }) => id === props.vesselId || !inUse.has(id));
  const choose = (id: string) => {
    const vessel = vessels.find((each) => each.id === id);
    props.onChange({ vesselId: vessel?.id ?? null, mark: vessel?.mark ?? null });
  };
  const given = vessels.find(({ id }) => id === props.vesselId);
  useEffect(() => {
    if (given) choose(given.id);
  }, [given?.id]);
  if (vessels.length === 0) return null;
  return (
    <Choice
      label={bowlTexts.vessel.label}
      value={props.vesselId ?? none}
      options={[
        { value: none, text: bowlTexts.vessel.any },
        ...vessels.map(({ id, label, mark, tare }) => ({
          value: id,
          text: bowlTexts.vessel.of(label, mark, tare.quantity),
        })),
      ]}
      onChoose={choose}
    />
  );
}

/** The visit that the bowl is for, or none. */
export function VisitChoice(props: {
  visitId: string | null;
  visits: readonly VisitView[];
  onChange: (visitId: string | null) => void;
}) {
  if (props.visits.length === 0) return null;
  return (
    <Choice
      label={bowlTexts.visit.label}
      value={props.visitId ?? none}
      options={[
        { value: none, text: bowlTexts.visit.none },
        ...props.visits.map((visit) => ({ value: visit.id, text: whoIs(visit) })),
      ]}
      onChoose={(next) => props.onChange(next === none ? null : next)}
    />
  );
}
