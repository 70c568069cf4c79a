/** Bowls that are planned for a visit, to be mixed one by one. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { canonical, decimal, larger, sum, type Decimal } from '../../../shared/decimal.js';
import { nameOf } from '../../../shared/mix.js';
import { useProducts, useStudio } from '../catalogue/catalogue.js';
import { weight } from '../shell/figures.js';
import { goTo } from '../shell/place.js';
import { visitTexts } from '../visits/texts.js';
import { bookVoid } from './bookings.js';
import { bowlInWords } from './bowl-lines.js';
import { resized } from './draft.js';
import { productIn } from './next.js';
import type { Sheet } from './sheet.js';
import { sheets } from './sheets.js';

const { page: words } = visitTexts;
const step = decimal('5');

/** A line a bowl: what goes into it, its size in steps, "mix now". */
export function PlannedBowls(props: { sheets: readonly Sheet[] }) {
  return (
    <ul className="plain">
      {props.sheets.map((sheet) => (
        <Planned key={sheet.id} sheet={sheet} />
      ))}
    </ul>
  );
}

function Planned({ sheet }: { sheet: Sheet }) {
  const products = useProducts().byId;
  const country = useStudio()?.country ?? undefined;
  const [trouble, setTrouble] = useState('');
  const named = bowlInWords(sheet);
  const total = sum(sheet.planned.map(({ grams }) => decimal(grams)));
  const resize = (by: Decimal) => {
    const next = resized(sheet, larger(step, total.plus(by)), products, country);
    if (typeof next === 'string') setTrouble(next);
    else sheets.put(next);
  };
  const key = (text: string, label: string, act: () => void, strong = '') => (
    <Button className={`key ${strong}`} aria-label={label} onPress={act}>
      {text}
    </Button>
  );
  return (
    <li className="day-line">
      <p>
        <strong>{named}</strong> {weight(total)}{' '}
        <span className="quiet">
          {sheet.planned
            .map(({ productId, grams }) => {
              const name = nameOf(productIn(products, productId));
              return `${name} ${weight(grams)}`;
            })
            .join(', ')}
        </span>
      </p>
      <div className="keys">
        {key(words.mixNow, words.mixNowOf(named), () => goTo('bowl', sheet.id), 'strong')}
        {sheet.request && !sheet.opened && (
          <>
            {key('−5', words.fewer(named), () => resize(step.negated()))}
            {key('+5', words.more(named), () => resize(step))}
          </>
        )}
        {key('×', words.takeOff(named), () => {
          if (sheet.opened) bookVoid(sheet);
          sheets.remove(sheet.id);
        })}
      </div>
      <p role="alert">{trouble}</p>
    </li>
  );
}

/** A size as it travels. */
export function totalOf(grams: Decimal) {
  return { total: { quantity: canonical(grams), unit: 'g' as const } };
}
