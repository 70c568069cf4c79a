/** The rows of earnings as a book, and their sum. */
import type {
  EarningsKey,
  EarningsReportView,
  EarningsView,
} from '../../../shared/contract/earnings.js';
import { monthInWords } from './days.js';
import { money, percent, rounded } from './money.js';
import { texts } from './texts.js';

const { earnings: words } = texts;
const amounts = ['net', 'product', 'time', 'contribution', 'overhead'] as const;

/** A line a service, month or person; what was left over stands under product. */
export function EarningsBook({ report, by }: { report: EarningsReportView; by: EarningsKey }) {
  const { rows, totals, currency } = report;
  return (
    <table className="book earnings">
      <thead>
        <tr>
          <th scope="col">{words.bys[by]}</th>
          <th scope="col">{words.visits}</th>
          {amounts.map((name) => (
            <th key={name} scope="col">
              {words[name]}
            </th>
          ))}
          <th scope="col">{words.margin}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            <th scope="row">{by === 'month' ? monthInWords(row.key) : row.label}</th>
            <Figures of={row} currency={currency} />
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{words.all}</th>
          <Figures of={totals} currency={currency} />
        </tr>
      </tfoot>
    </table>
  );
}

function Figures({ of, currency }: { of: EarningsView; currency: string }) {
  return (
    <>
      <td>{of.visits}</td>
      {amounts.map((name) => (
        <td key={name}>
          {money(of[name], currency)}
          {name === 'product' && (
            <small>
              {words.leftOver} {rounded(of.ledger.leftOver, currency)}
            </small>
          )}
        </td>
      ))}
      <td>{of.margin === null ? '' : percent(of.margin)}</td>
    </>
  );
}
