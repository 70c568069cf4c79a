/** What a quote comes to, where that is from, and how good such quotes were. */
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { uuidv7 } from 'uuidv7';
import type { PointsView, QuoteView } from '../../../shared/contract/quotes.js';
import { send } from '../api/calls.js';
import { deviceNow } from '../shell/clock.js';
import { number, weight } from '../shell/figures.js';
import { money } from './money.js';
import { texts } from './texts.js';

const { quotes: words } = texts;

/** The figures; a key keeps the quote, so that it can be shown and held to. */
export function QuoteFound({ quote, request }: { quote: QuoteView; request: object }) {
  const queries = useQueryClient();
  const [trouble, setTrouble] = useState('');
  const give = async () => {
    await send('POST', '/quotes', { ...request, id: uuidv7(), sentAt: deviceNow() });
    await queries.invalidateQueries({ queryKey: ['quotes', 'given'] });
  };
  const { price, currency, held, visits } = quote;
  const amount = (value: string) => money(value, currency);
  return (
    <>
      <h2>{quote.services.map(({ name }) => name).join(', ')}</h2>
      <p className="till">
        <strong>{words.range(amount(price.low), amount(price.high))}</strong>{' '}
        {price.low !== price.high && words.likely(amount(price.likely))}
      </p>
      <p>{words.menu(amount(quote.menu.gross))}</p>
      <p>
        {words.basis[quote.basis](visits)} {visits > 0 && !quote.enough && words.few}
      </p>
      {held.visits > 0 && <p>{words.held(held.atOrUnder, held.inside, held.visits)}</p>}
      <Takes quote={quote} />
      {quote.onTop.length > 0 && (
        <>
          <h3>{words.onTop}</h3>
          <ul>
            {onTopInWords(quote).map((rule) => (
              <li key={rule}>{rule}</li>
            ))}
          </ul>
        </>
      )}
      <Button
        className="key strong"
        onPress={() => void give().catch((error: Error) => setTrouble(error.message))}
      >
        {words.give}
      </Button>
      <p role="alert">{trouble}</p>
    </>
  );
}

/** Rules as this device writes money; older quotes have their words only. */
function onTopInWords({ onTop, onTopRules, currency }: QuoteView): string[] {
  if (!onTopRules) return onTop;
  return onTopRules.map(({ kind, label, by, rate }) =>
    words.onTopRule(label ?? kind, words.onTopBy[by](money(rate, currency))),
  );
}

function Takes({ quote }: { quote: QuoteView }) {
  const minutes = (value: string) => words.minutesUnit(number(value));
  const rows: readonly (readonly [string, PointsView | null, (value: string) => string])[] = [
    [words.price, quote.price, (value) => money(value, quote.currency)],
    [words.grams, quote.grams, (value) => weight(value, 0)],
    [words.bowls, quote.bowls, (value) => number(value)],
    [words.minutes, quote.minutes, minutes],
    [words.handsOn, quote.handsOnMinutes, minutes],
  ];
  if (quote.grams === null) return null;
  return (
    <table className="book small">
      <caption>{words.taken}</caption>
      <thead>
        <tr>
          <th scope="col">{words.what}</th>
          <th scope="col">{words.one}</th>
          <th scope="col">{words.mid}</th>
          <th scope="col">{words.nine}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(
          ([name, points, shown]) =>
            points && (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{shown(points.low)}</td>
                <td>{shown(points.likely)}</td>
                <td>{shown(points.high)}</td>
              </tr>
            ),
        )}
      </tbody>
    </table>
  );
}
