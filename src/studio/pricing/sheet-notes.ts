/** What a reader of a sheet should know of the rows it was worked out from. */
import { minorDigits } from '../../../shared/currency.js';
import type { SheetView } from '../../../shared/contract/pricing.js';
import { decimal, fixed, sum } from '../../../shared/decimal.js';
import type { PriceSheet } from '../../../shared/pricing.js';
import { minutesOf } from '../visits/visits.service.js';
import type { SheetRows } from './sheet-input.js';

type Note = SheetView['notes'][number];

/** Notes beyond those of the arithmetic itself. */
export function notesOf(rows: SheetRows, sheet: PriceSheet): Note[] {
  return [...openBowls(rows), ...estimatedBowls(rows), ...unpaidHours(rows), ...paid(rows, sheet)];
}

function openBowls({ visit }: SheetRows): Note[] {
  const open = visit.bowls.filter((bowl) => bowl.state === 'open').length;
  if (open === 0) return [];
  const bowls = open === 1 ? '1 bowl is' : `${open} bowls are`;
  return [{ code: 'bowls_open', text: `${bowls} still open; all that is in them is counted.` }];
}

function estimatedBowls({ visit }: SheetRows): Note[] {
  const bowls = visit.bowls.filter((bowl) => bowl.state === 'settled' && bowl.estimated).length;
  if (bowls === 0) return [];
  const text = `${bowls === 1 ? '1 bowl was' : `${bowls} bowls were`} not weighed at the end.`;
  return [{ code: 'not_weighed', text }];
}

function unpaidHours({ visit, terms }: SheetRows): Note[] {
  if (terms.pricing.hourRate !== null) return [];
  const people = minutesOf(visit)
    .map(({ personId }) => terms.people.find((person) => person.id === personId))
    .filter((person) => person?.hourRate === null && person.kind === 'employed')
    .map((person) => person?.name ?? '');
  if (people.length === 0) return [];
  const names = people.join(', ');
  return [
    { code: 'no_hour_rate', text: `No rate of the hour is known of ${names}: it is 0 here.` },
  ];
}

/** The tip may be within what was paid, or beside it. */
function paid({ visit, currency }: SheetRows, { totals }: PriceSheet): Note[] {
  if (visit.payments.length === 0) return [];
  const all = sum(visit.payments.map((payment) => decimal(payment.amount)));
  const due = totals.due.plus(totals.cashRounding);
  if (all.equals(due) || all.equals(due.plus(totals.tip))) return [];
  const show = (amount: typeof all) => `${fixed(amount, minorDigits(currency))} ${currency}`;
  return [{ code: 'payments_differ', text: `${show(all)} was paid and ${show(due)} is due.` }];
}
