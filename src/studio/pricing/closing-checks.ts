/** What cannot be meant at a closing. */
import { minorDigits } from '../../../shared/currency.js';
import type { Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { MalformedRequest } from '../../platform/http/unreadable.js';
import type { VisitRow } from '../visits/visits.service.js';
import type { ClosingRequest } from './pricing.requests.js';

/**
 * Refuses a closing that cannot be.
 * @throws Problem `visit_closed_already`, `closed_before_start`, `bowls_still_open`,
 *   `one_of_two`, `malformed_request`
 */
export function refuseClosing(
  visit: VisitRow,
  request: ClosingRequest,
  closedAt: string,
  currency: string,
): void {
  const { closed_at: already, started_at: startedAt } = visit;
  if (already !== null) throw new Problem('visit_closed_already', { closedAt: already });
  if (closedAt < startedAt) {
    throw new Problem('closed_before_start', { startedAt, closedAt }, '/closedAt');
  }
  const { discount } = request;
  if (discount && (discount.share === undefined) === (discount.amount === undefined)) {
    throw new Problem('one_of_two', { one: 'share', other: 'amount' }, '/discount');
  }
  refuseTwice(request);
  refuseFractions(request, currency);
  const open = visit.bowls.filter((bowl) => bowl.state === 'open');
  if (open.length > 0 && request.openBowls === 'refuse') {
    const purposes = open.map((bowl) => bowl.purpose);
    throw new Problem('bowls_still_open', { bowls: open.length, purposes }, '/openBowls');
  }
}

function refuseTwice({ minutes = [] }: ClosingRequest): void {
  const people = minutes.map((each) => each.personId);
  const index = people.findIndex((id, place) => people.indexOf(id) !== place);
  if (index < 0) return;
  const detail = 'This person is there already. Add the minutes up.';
  throw new MalformedRequest([{ pointer: `/minutes/${index}/personId`, code: 'twice', detail }]);
}

/** Money that changes hands has no smaller parts than the currency. */
function refuseFractions(request: ClosingRequest, currency: string): void {
  const places = minorDigits(currency);
  const amounts: readonly (readonly [string, Decimal | undefined])[] = [
    ...request.payments.map((paid, index) => [`/payments/${index}/amount`, paid.amount] as const),
    ...request.deposits.map((paid, index) => [`/deposits/${index}/amount`, paid.amount] as const),
    ['/discount/amount', request.discount?.amount],
    ['/tip/amount', request.tip?.amount],
  ];
  const errors = amounts.flatMap(([pointer, value]) =>
    value !== undefined && value.decimalPlaces() > places
      ? [
          {
            pointer,
            code: 'too_many_decimals',
            detail: `Give at most ${places} digits after the point: the currency is ${currency}.`,
          },
        ]
      : [],
  );
  if (errors.length > 0) throw new MalformedRequest(errors);
}
