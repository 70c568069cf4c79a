/** What is entered while a visit is being closed, and the request that it makes. */
import { useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { uuidv7 } from 'uuidv7';
import { minorDigits } from '../../../shared/currency.js';
import type {
  ClosedVisitView,
  PaidBy,
  VisitMinutes,
  VisitPrice,
  VisitView,
} from '../../../shared/contract/visits.js';
import { canonical, decimal, fixed, sum } from '../../../shared/decimal.js';
import { send } from '../api/calls.js';
import { deviceNow } from '../shell/clock.js';
import { readFigure } from '../shell/figures.js';

export interface UsedLine {
  readonly productId: string;
  readonly quantity: string;
  readonly unit: string;
}

/** The form as it stands; figures are as they were typed. */
export interface Closing {
  readonly minutes: readonly VisitMinutes[];
  readonly chairMinutes: number;
  /** Undefined: by the kits of the services. */
  readonly uses: readonly UsedLine[] | undefined;
  readonly discount: 'none' | 'share' | 'amount';
  readonly discountTyped: string;
  readonly discountOf: 'menu' | 'all';
  readonly paidBy: PaidBy | 'later';
  readonly depositTyped: string;
  readonly tipTyped: string;
}

/** The form at the beginning: what the visit and its services say, and an earlier closing. */
export function firstClosing(visit: VisitView): Closing {
  const { discount, payments = [], deposits = [], tip } = visit.money ?? {};
  const before = sum(deposits.map(({ amount }) => decimal(amount)));
  return {
    minutes: visit.minutes,
    chairMinutes: visit.chairMinutes,
    uses: undefined,
    discount: discount?.share ? 'share' : discount ? 'amount' : 'none',
    discountTyped: discount?.share
      ? canonical(decimal(discount.share).times(100))
      : (discount?.amount ?? ''),
    discountOf: discount?.of ?? 'menu',
    paidBy: payments[0]?.method ?? 'card',
    depositTyped: before.isZero() ? '' : canonical(before),
    tipTyped: tip?.amount ?? '',
  };
}

/** The request; where the payment is not known yet, it is nothing by the method that is meant. */
function requestOf(closing: Closing, payment: string, openBowls: 'refuse' | 'all-applied') {
  const { discount, discountOf, paidBy, uses } = closing;
  const off = readFigure(closing.discountTyped);
  const deposit = readFigure(closing.depositTyped);
  const tip = readFigure(closing.tipTyped);
  const discounted =
    discount === 'none' || !off
      ? {}
      : discount === 'share'
        ? { discount: { share: canonical(off.dividedBy(100)), of: discountOf } }
        : { discount: { amount: canonical(off), of: discountOf } };
  return {
    ...{ minutes: closing.minutes, chairMinutes: closing.chairMinutes, openBowls },
    ...(uses === undefined ? {} : { uses }),
    ...discounted,
    payments: paidBy === 'later' ? [] : [{ method: paidBy, amount: payment }],
    deposits: deposit && !deposit.isZero() ? [{ amount: canonical(deposit) }] : [],
    ...(tip && !tip.isZero() ? { tip: { amount: canonical(tip) } } : {}),
  };
}

/** True while each figure is empty or can be read: none is left out by mistake. */
export function isReadable(closing: Closing): boolean {
  const { discount, discountTyped, depositTyped, tipTyped } = closing;
  const typed = [depositTyped, tipTyped].filter((text) => text.trim() !== '');
  return [...typed, ...(discount === 'none' ? [] : [discountTyped])].every(
    (text) => readFigure(text) !== undefined,
  );
}

/** What is paid: all that is due, and in cash what coins make of it. */
function paymentOf({ due, cashRounding, currency }: VisitPrice): string {
  return fixed(decimal(due).plus(cashRounding), minorDigits(currency));
}

const quietMs = 400;

/** How the visit would be closed now: worked out by the service, nothing is kept. */
export function useClosingPreview(visit: VisitView, closing: Closing) {
  const now = JSON.stringify(requestOf(closing, '0', 'all-applied'));
  const text = useSettled(now);
  const query = useQuery({
    queryKey: ['closing', visit.id, text],
    retry: false,
    placeholderData: (before: ClosedVisitView | undefined) => before,
    queryFn: async () => {
      const now = deviceNow();
      const body = { ...(JSON.parse(text) as object), closedAt: now, sentAt: now };
      return (await send('POST', `/visits/${visit.id}/close?dry=true`, body)) as ClosedVisitView;
    },
  });
  /** False while what was typed last is still being worked out. */
  const isCurrent = text === now && !query.isFetching;
  return { data: query.data, error: query.error, isPending: query.isPending, isCurrent };
}

/** A text once it has not changed for a moment. */
function useSettled(text: string): string {
  const [settled, settle] = useState(text);
  useEffect(() => {
    const timer = setTimeout(() => settle(text), quietMs);
    return () => clearTimeout(timer);
  }, [text]);
  return settled;
}

/**
 * Closes the visit.
 * @throws Refused with the service's sentence
 */
export async function closeVisit(
  visit: VisitView,
  closing: Closing,
  { price, openBowls }: { price: VisitPrice | undefined; openBowls: 'refuse' | 'all-applied' },
): Promise<void> {
  const now = deviceNow();
  const request = requestOf(closing, price ? paymentOf(price) : '0', openBowls);
  const payments = price ? request.payments : [];
  const body = { id: uuidv7(), closedAt: now, sentAt: now, ...request, payments };
  await send('POST', `/visits/${visit.id}/close`, body);
}
