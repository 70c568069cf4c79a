/** What will be used, a line a product or a strength: this month and the next, with their range. */
import { useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import type { ForecastView } from '../../../shared/contract/purchasing.js';
import { Choice } from '../shell/choice.js';
import { number } from '../shell/figures.js';
import { addressOf } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { keyOf, use, useForecasts, type ForecastBy } from './forecasts.js';
import { texts } from './texts.js';

const { forecast: words } = texts;
const bys = ['product', 'strength'] as const;

/** The page. */
export default function ForecastsPage() {
  const [by, setBy] = useState<ForecastBy>('product');
  const [find, setFind] = useState('');
  const { data, error, isPending } = useForecasts(by);
  const letters = find.trim().toLocaleLowerCase();
  const items = (data ?? []).filter(({ name }) => name.toLocaleLowerCase().includes(letters));
  return (
    <section className="page" aria-labelledby="forecasts-title">
      <h1 id="forecasts-title">{words.title}</h1>
      <div className="side-by-side">
        <Choice
          label={words.by}
          value={by}
          options={bys.map((value) => ({ value, text: words.bys[value] }))}
          onChoose={setBy}
        />
        {by === 'product' && (
          <SearchField value={find} onChange={setFind} className="react-aria-TextField">
            <Label>{words.find}</Label>
            <Input />
          </SearchField>
        )}
      </div>
      <p className="quiet">{words.rangeHow}</p>
      {isPending && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data && items.length === 0 && <p className="quiet">{words.noUse}</p>}
      {items.length > 0 && <Rows items={items} by={by} />}
    </section>
  );
}

function Rows({ items, by }: { items: readonly ForecastView[]; by: ForecastBy }) {
  return (
    <table className="book">
      <thead>
        <tr>
          <th scope="col">{words[by]}</th>
          <th scope="col">{words.last}</th>
          <th scope="col">{words.soFar}</th>
          <th scope="col">{words.this}</th>
          <th scope="col">{words.next}</th>
        </tr>
      </thead>
      <tbody>
        {items.map((item) => (
          <tr key={keyOf(item)}>
            <th scope="row">
              <a className="line-link" href={addressOf('ordering', 'forecast', keyOf(item))}>
                {item.name}
              </a>
            </th>
            <td>{use(item.history.at(-1)?.quantity ?? '0', item.unit)}</td>
            <td>{use(item.usedThisMonth, item.unit)}</td>
            <Month item={item} at={0} />
            <Month item={item} at={1} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Month({ item, at }: { item: ForecastView; at: number }) {
  const month = item.months[at];
  if (!month) return <td />;
  return (
    <td>
      {use(month.mean, item.unit)}
      <small>{words.range(number(month.low80), use(month.high80, item.unit))}</small>
    </td>
  );
}
