/** A price that reaches a margin, a contribution or a markup, with the other two beside it. */
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button, Form, Input, Label, TextField } from 'react-aria-components';
import type { PriceSheetView, TargetView } from '../../../shared/contract/pricing.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { send } from '../api/calls.js';
import { Choice } from '../shell/choice.js';
import { readFigure } from '../shell/figures.js';
import { money, percent } from './money.js';
import { texts } from './texts.js';

const { target: words } = texts;
const wishes = ['margin', 'contributionPerHour', 'productMarkup'] as const;
type Wish = (typeof wishes)[number];

/** The margin of the page: what is wanted, and the price that it takes. */
export function TargetPrice({ visitId, currency }: { visitId: string; currency: string }) {
  const [wish, setWish] = useState<Wish>('margin');
  const [typed, type] = useState('');
  const [asked, ask] = useState<string>();
  const [trouble, setTrouble] = useState('');
  const { data, error } = useQuery({
    queryKey: ['visits', visitId, 'target', asked],
    enabled: asked !== undefined,
    retry: false,
    queryFn: async () =>
      ((await send('GET', `/visits/${visitId}/price-sheet?${asked}`)) as PriceSheetView).target,
  });
  const work = () => {
    const figure = readFigure(typed);
    setTrouble(figure ? '' : words.figure);
    if (!figure) return;
    const value = wish === 'contributionPerHour' ? figure : figure.dividedBy(100);
    ask(`${wish}=${canonical(value)}`);
  };
  const { fields } = words;
  return (
    <section className="page" aria-labelledby="target-title">
      <h2 id="target-title">{words.title}</h2>
      <Form
        onSubmit={(event) => {
          event.preventDefault();
          work();
        }}
      >
        <Choice
          label={words.by}
          value={wish}
          options={wishes.map((value) => ({ value, text: words.wishes[value] }))}
          onChoose={setWish}
        />
        <div className="side-by-side">
          <TextField className="react-aria-TextField" value={typed} onChange={type}>
            <Label>{wish === 'contributionPerHour' ? fields[wish](currency) : fields[wish]}</Label>
            <Input inputMode="decimal" autoComplete="off" />
          </TextField>
          <Button className="key strong" type="submit">
            {words.work}
          </Button>
        </div>
      </Form>
      <p role="alert">{trouble || error?.message}</p>
      {data && !trouble && !error && <Found target={data} currency={currency} />}
    </section>
  );
}

function Found({ target, currency }: { target: TargetView; currency: string }) {
  const rows: readonly (readonly [string, string | null])[] = [
    [words.net, money(target.net, currency)],
    [words.tax, money(target.tax, currency)],
    [words.gross, money(target.gross, currency)],
    [words.margin, target.margin && percent(target.margin)],
    [words.perHour, target.contributionPerHour && money(target.contributionPerHour, currency)],
    [words.markup, target.productMarkup && percent(target.productMarkup)],
  ];
  return (
    <div role="status">
      <p className="till">
        <strong>
          {words.price}: {money(canonical(decimal(target.price)), currency)}
        </strong>
      </p>
      <table className="book small">
        <tbody>
          {rows.map(([name, value]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">{words.how}</p>
    </div>
  );
}
