/** What becomes of the net price of a visit: one hatched strip, its parts in words below it. */
import { useId } from 'react';
import type { SheetTotalsView } from '../../../shared/contract/pricing.js';
import { decimal, larger, one, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { share } from '../shell/figures.js';
import { hatches, Hatch } from './hatch.js';
import { money } from './money.js';
import { texts } from './texts.js';

const { buildUp: words } = texts;
const costs = ['product', 'sundries', 'time', 'overhead', 'fee', 'commission'] as const;
const width = 600;
const height = 46;

/** The strip; a loss is said, and the strip then reaches beyond the mark of net. */
export function BuildUp({ totals, currency }: { totals: SheetTotalsView; currency: string }) {
  const id = useId();
  const net = decimal(totals.net);
  const profit = decimal(totals.profit);
  const parts = [
    ...costs.map((name) => ({ name, value: larger(decimal(totals[name]), zero) })),
    { name: 'profit' as const, value: larger(profit, zero) },
  ].filter(({ value }) => value.greaterThan(zero));
  const whole = larger(larger(sum(parts.map(({ value }) => value)), net), one);
  const place = (value: Decimal) => value.dividedBy(whole).times(width).toNumber();
  let from = zero;
  const drawn = parts.map((part, index) => {
    const x = place(from);
    from = from.plus(part.value);
    return { ...part, x, across: place(part.value), hatch: hatches[index % hatches.length] };
  });
  return (
    <figure className="build-up" aria-labelledby={`${id}-title`}>
      <figcaption id={`${id}-title`}>{words.title(money(totals.net, currency))}</figcaption>
      <svg viewBox={`-1 0 ${width + 2} ${height}`} aria-hidden="true">
        {drawn.map(({ name, x, across, hatch }) => (
          <Hatch key={name} id={`${id}-${name}`} hatch={hatch} box={{ x, across, height }} />
        ))}
        {profit.lessThan(zero) && (
          <line className="net-mark" x1={place(net)} x2={place(net)} y1="0" y2={height} />
        )}
      </svg>
      <ul>
        {drawn.map(({ name, value, hatch }) => (
          <li key={name}>
            <svg viewBox="0 0 26 20" aria-hidden="true">
              <Hatch
                id={`${id}-${name}-key`}
                hatch={hatch}
                box={{ x: 1, across: 24, height: 20 }}
              />
            </svg>
            {words.part(
              words.parts[name],
              money(value.toFixed(), currency),
              net.greaterThan(zero) ? share(value.dividedBy(net)) : '',
            )}
          </li>
        ))}
      </ul>
      {profit.lessThan(zero) && <p>{words.loss(money(profit.negated().toFixed(), currency))}</p>}
    </figure>
  );
}
