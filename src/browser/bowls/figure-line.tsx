/** The one line that is read at arm's length: figure to go, strength, product. */
import { useEffect, useRef } from 'react';
import { decimal } from '../../../shared/decimal.js';
import { nameOf } from '../../../shared/mix.js';
import { viewOf } from '../../../shared/weighing.js';
import { benchScale } from '../scales/bench-scale.js';
import { useWeighing } from '../scales/weighing-state.js';
import { number, placesOf, weight, weightFigure, weightUnit } from '../shell/figures.js';
import { texts } from '../shell/texts.js';
import type { Due } from './next.js';

const { pour: words } = texts;

/** What the figure says of the due pour. */
interface Shown {
  readonly figure: string;
  readonly state: string;
}

function shownNow(due: Due): Shown {
  const weighing = benchScale.weighing.get();
  const places = placesOf(weighing.intervalGrams);
  const poured = viewOf(weighing).pouredGrams ?? decimal('0');
  if (due.grams === null) return { figure: weightFigure(poured, places), state: words.poured };
  const toGo = due.grams.minus(poured);
  const figure = weightFigure(toGo.abs(), places);
  if (toGo.abs().lessThanOrEqualTo(due.band)) return { figure, state: words.inNotch };
  return { figure, state: toGo.isNegative() ? words.over : words.toGo };
}

/** The line; its figure is written outside of React, in the frame its reading comes in. */
export function FigureLine({ due, poured }: { due: Due | null; poured: boolean }) {
  const plate = useWeighing((state) => state.plate);
  const figure = useRef<HTMLElement>(null);
  const state = useRef<HTMLElement>(null);
  const spoken = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    if (!due) return undefined;
    const draw = () => {
      const shown = shownNow(due);
      if (figure.current) figure.current.textContent = shown.figure;
      if (state.current && state.current.textContent !== shown.state) {
        state.current.textContent = shown.state;
        if (spoken.current) spoken.current.textContent = shown.state;
      }
    };
    draw();
    return benchScale.weighing.listen(draw);
  }, [due?.product.id, due?.grams?.toFixed(), due?.band.toFixed()]);
  if (!due) {
    return <p className="figure-line done">{poured ? words.done : words.nothingDue}</p>;
  }
  const { product } = due;
  const name = nameOf(product);
  const begin = due.grams ? words.next(name, weight(due.grams)) : name;
  return (
    <div className="figure-line" role="group" aria-label={words.figures}>
      <span className="to-go" aria-hidden="true">
        <b className="large" ref={figure} />
        <span>
          {weightUnit()}
          <br />
          <i ref={state} />
        </span>
      </span>
      {product.kind === 'developer' && product.strength && (
        <span className="bottle-strength">
          <b className="large">{number(product.strength, 1)}</b>
          <span>
            VOL.
            <br />
            {words.look}
          </span>
        </span>
      )}
      <span className="what">
        {name}
        {plate === 'empty' && !poured && <small>{words.setDown}</small>}
      </span>
      <span className="hidden" role="status">
        {begin} <span ref={spoken} />
      </span>
    </div>
  );
}
