/** The lines of a price sheet, each with its inputs, its formula in words, and its amount. */
import { Fragment } from 'react';
import type { SheetLineView, SheetView } from '../../../shared/contract/pricing.js';
import type { LineKind } from '../../../shared/pricing-lines.js';
import { inputInWords, money, percent } from './money.js';
import { texts } from './texts.js';

const { sheet: words } = texts;

type Group = keyof typeof words.groups;

const groupOf: Record<LineKind, Group> = {
  menu: 'price',
  on_top: 'price',
  discount: 'price',
  net: 'price',
  tax: 'price',
  gross: 'price',
  product: 'cost',
  not_charged: 'cost',
  sundry: 'cost',
  time: 'cost',
  overhead: 'cost',
  fee: 'cost',
  commission: 'cost',
  contribution: 'left',
  profit: 'left',
  deposit: 'till',
  tip: 'till',
  cash_rounding: 'till',
  to_the_till: 'till',
};

const groups = Object.keys(words.groups) as Group[];

/** Lines that sum up those above them. */
const sums: ReadonlySet<LineKind> = new Set([
  'net',
  'gross',
  'contribution',
  'profit',
  'to_the_till',
]);

/** The book; what is bought again is a column of its own. */
export function SheetBook({ sheet }: { sheet: SheetView }) {
  const { currency, totals, lines } = sheet;
  return (
    <>
      <table className="book account">
        <thead>
          <tr>
            <th scope="col">{words.line}</th>
            <th scope="col">{words.amount}</th>
            <th scope="col">{words.again}</th>
          </tr>
        </thead>
        {groups.map((group) => {
          const own = lines.filter(({ kind }) => groupOf[kind] === group);
          if (own.length === 0) return null;
          return (
            <tbody key={group}>
              <tr className="group">
                <th scope="rowgroup" colSpan={3}>
                  {words.groups[group]}
                </th>
              </tr>
              {own.map((line, index) => (
                <Line key={`${line.kind} ${index}`} line={line} currency={currency} />
              ))}
              {group === 'left' && (
                <tr className="total">
                  <th scope="row">
                    {words.margin} <small>{words.marginHow}</small>
                  </th>
                  <td>{totals.margin === null ? words.noMargin : percent(totals.margin)}</td>
                  <td />
                </tr>
              )}
            </tbody>
          );
        })}
      </table>
      <p className="quiet">{words.notTill}</p>
    </>
  );
}

function Line({ line, currency }: { line: SheetLineView; currency: string }) {
  const { inputs, formula, label, replacementAmount } = line;
  return (
    <tr className={sums.has(line.kind) ? 'total' : undefined}>
      <th scope="row">
        {label}
        <small>
          {inputs.map(({ name, value, unit }, index) => (
            <Fragment key={name}>
              {index > 0 && ' · '}
              {name} {inputInWords(value, unit, currency)}
            </Fragment>
          ))}
          {formula !== inputs[0]?.name && <i>{formulaInWords(formula)}</i>}
        </small>
      </th>
      <td>{money(line.amount, currency)}</td>
      <td>{againInWords(replacementAmount, currency)}</td>
    </tr>
  );
}

/** Signs of arithmetic instead of letters of the keyboard. */
function formulaInWords(formula: string): string {
  return `= ${formula.replaceAll(' x ', ' × ').replaceAll(' - ', ' − ')}`;
}

function againInWords(amount: string | null | undefined, currency: string): string {
  if (amount === undefined) return '';
  return amount === null ? words.again0 : money(amount, currency);
}
