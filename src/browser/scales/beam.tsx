/** The beam: one graduated rule over the full width, the target a notch, the weight a poise. */
import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { decimal, zero, type Decimal } from '../../../shared/decimal.js';
import { viewOf } from '../../../shared/weighing.js';
import { number } from '../shell/figures.js';
import { benchScale } from './bench-scale.js';
import { marksOf, shareOf, spanFor, type Span } from './beam-rule.js';

/** What is in the bowl of the pour that is due, in grams; 0 before it begins. */
function pouredNow(): Decimal {
  return viewOf(benchScale.weighing.get()).pouredGrams ?? zero;
}

/** Grams to the end of the span, as a percentage of the width. */
function percent(grams: Decimal, span: Span): string {
  return `${shareOf(grams, span) * 100}%`;
}

/**
 * The rule for a target in grams. The poise is moved outside of React, so that a reading is drawn
 * in the frame it comes in.
 */
export function Beam({ target, band }: { target: Decimal; band: Decimal }) {
  const [span, setSpan] = useState(() => spanFor(target, pouredNow()));
  const poise = useRef<HTMLDivElement>(null);
  const shown = useRef(span);
  const draw = () => {
    const poured = pouredNow();
    const next = spanFor(target, poured);
    if (next.from !== shown.current.from || next.to !== shown.current.to) {
      shown.current = next;
      setSpan(next);
    }
    poise.current?.style.setProperty('--at', percent(poured, shown.current));
  };
  useLayoutEffect(draw);
  useEffect(() => benchScale.weighing.listen(draw), [target.toFixed()]);
  const bandFrom = percent(target.minus(band), span);
  const bandTo = percent(target.plus(band), span);
  return (
    <div className={span.from > 0 ? 'beam near' : 'beam'} aria-hidden="true">
      <div className="rule">
        <div className="band" style={{ left: bandFrom, width: `calc(${bandTo} - ${bandFrom})` }} />
        {marksOf(span).map(({ at, label, rank }) => (
          <span
            key={at}
            className={`mark ${rank}`}
            style={{ left: percent(decimal(`${at}`), span) }}
          >
            {label !== undefined && <b>{number(`${label}`)}</b>}
          </span>
        ))}
        {!target.isZero() && <div className="notch" style={{ left: percent(target, span) }} />}
      </div>
      <div className="poise" ref={poise} />
    </div>
  );
}
