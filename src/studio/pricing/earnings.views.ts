/** Sums of earnings as they travel. */
import { minorDigits } from '../../../shared/currency.js';
import type {
  EarningsRowView,
  EarningsView,
  RedoneView,
} from '../../../shared/contract/earnings.js';
import { canonical, decimal, fixed, round, zero, type Decimal } from '../../../shared/decimal.js';

/** Figures that add up. */
const names = [
  ...['net', 'tax', 'product', 'sundries', 'time', 'fee', 'commission', 'contribution'],
  ...['overhead', 'profit', 'costedNet', 'costedProfit'],
  ...['productValue', 'leftOverValue', 'sundriesValue', 'notChargedValue'],
] as const;

/** A row of `readEarnings`; figures as text. */
export interface EarningsRow extends Record<string, unknown> {
  readonly key: string | null;
  readonly label: string | null;
  readonly kind: 'client' | 'redo';
  readonly visits: number;
  readonly noCost: number;
}

/** Rows added up. */
export interface Sums {
  readonly visits: number;
  readonly noCost: number;
  readonly of: (name: string) => Decimal;
}

/** Adds rows up; zero for none. */
export function sumsOf(rows: readonly EarningsRow[]): Sums {
  const totals = new Map<string, Decimal>();
  for (const row of rows) {
    for (const name of names) {
      totals.set(name, (totals.get(name) ?? zero).plus(decimal(row[name] as string)));
    }
  }
  return {
    visits: rows.reduce((all, row) => all + row.visits, 0),
    noCost: rows.reduce((all, row) => all + row.noCost, 0),
    of: (name) => totals.get(name) ?? zero,
  };
}

export function earningsView({ visits, noCost, of }: Sums, currency: string): EarningsView {
  const amount = (name: string) => fixed(of(name), minorDigits(currency));
  const net = of('costedNet');
  const margin = net.isZero() ? null : round(of('costedProfit').dividedBy(net), 6, 'half_even');
  return {
    ...{ visits, noCost },
    gross: fixed(of('net').plus(of('tax')), minorDigits(currency)),
    net: amount('net'),
    product: amount('product'),
    sundries: amount('sundries'),
    time: amount('time'),
    fee: amount('fee'),
    commission: amount('commission'),
    contribution: amount('contribution'),
    overhead: amount('overhead'),
    profit: amount('profit'),
    margin: margin && canonical(margin),
    ledger: ledgerView(of),
  };
}

export function redoneView({ visits, of }: Sums, currency: string): RedoneView {
  const contribution = fixed(of('contribution'), minorDigits(currency));
  return { visits, contribution, ledger: ledgerView(of) };
}

function ledgerView(of: Sums['of']): EarningsView['ledger'] {
  return {
    product: fixed(of('productValue'), 6),
    leftOver: fixed(of('leftOverValue'), 6),
    sundries: fixed(of('sundriesValue'), 6),
    notCharged: fixed(of('notChargedValue'), 6),
  };
}

/** One row a key, what was done again beside it; `none` names what has no key. */
export function rowViews(
  rows: readonly EarningsRow[],
  options: { readonly currency: string; readonly redone: boolean; readonly none: string },
): EarningsRowView[] {
  const keys = [...new Set(rows.map((row) => row.key))];
  return keys.flatMap((key) => {
    const own = rows.filter((row) => row.key === key);
    const [clients, redone] = [ofKind(own, 'client'), ofKind(own, 'redo')];
    if (clients.visits === 0 && !options.redone) return [];
    const label = own[0]?.label ?? options.none;
    return {
      ...{ key: key ?? 'none', label },
      ...earningsView(clients, options.currency),
      ...(options.redone ? { redone: redoneView(redone, options.currency) } : {}),
    };
  });
}

/** Sums of the rows of one kind of visit. */
export function ofKind(rows: readonly EarningsRow[], kind: EarningsRow['kind']): Sums {
  return sumsOf(rows.filter((row) => row.kind === kind));
}
