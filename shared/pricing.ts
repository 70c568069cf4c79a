/** The price sheet of one visit: what was charged, what it cost, what is left, line by line. */
import { zero, type Decimal } from './decimal.js';
import { charges, taxLines, type Charges } from './pricing-charges.js';
import { costs, type Costs, type UncostedProduct } from './pricing-costs.js';
import { dueOf, paidByCard, type CardPaid } from './pricing-due.js';
import { checkSheetInput, type SheetInput } from './pricing-input.js';
import { given, type LineInput, type SheetLine } from './pricing-lines.js';
import { cardFeeOn, commissionBase, outcomeOf, type Outcome } from './pricing-outcome.js';

/** Amounts in the currency's minor digits; `margin` is a share of net. */
export interface SheetTotals {
  readonly product: Decimal;
  readonly sundries: Decimal;
  readonly time: Decimal;
  readonly overhead: Decimal;
  readonly cost: Decimal;
  readonly net: Decimal;
  readonly tax: Decimal;
  readonly gross: Decimal;
  readonly fee: Decimal;
  readonly commission: Decimal;
  readonly contribution: Decimal;
  readonly profit: Decimal;
  /** Null while a product has no cost (it would be too high), and where net is zero. */
  readonly margin: Decimal | null;
  readonly notCharged: Decimal;
  readonly replacementProduct: Decimal | null;
  readonly due: Decimal;
  readonly tip: Decimal;
  readonly cashRounding: Decimal;
  readonly toTheTill: Decimal;
}

/** Something that a reader of the sheet should know. */
export interface SheetNote {
  readonly code: 'no_cost' | 'charged_by_weight' | 'card_assumed' | 'no_replacement_cost';
  readonly text: string;
}

export interface PriceSheet {
  readonly currency: string;
  readonly lines: readonly SheetLine[];
  readonly totals: SheetTotals;
  readonly noCost: readonly UncostedProduct[];
  readonly notes: readonly SheetNote[];
}

/**
 * Works out a visit's price sheet. Charges in the studio's price mode (B = menu + on top -
 * discounts), taxes, costs, fee, commissions, contribution = net - product - sundries - time -
 * fee - commission, profit = contribution - overhead, margin = profit / net. Totals are rounded
 * once from exact values by the studio's rule, lines are set to them by largest remainder; taxes
 * and commissions are rounded themselves. All in the currency of `input.money`.
 * @throws Problem `unknown_currency`, `no_tax_rule`, `negative_amount`, `rate_out_of_range`,
 *   `discount_above_price`
 */
export function priceSheet(input: SheetInput): PriceSheet {
  checkSheetInput(input);
  const charged = charges(input);
  const cost = costs(input);
  const card = paidByCard(charged.gross, input);
  const fee = cardFeeOn(card.amount, card.payments, input.cardFee, input.money);
  const outcome = outcomeOf(charged, cost, fee, input.commissions ?? [], input.money);
  const due = dueOf(charged.gross, input);
  return {
    currency: input.money.currency,
    lines: [
      ...charged.lines,
      ...priceLines(charged, input),
      ...cost.lines,
      ...feeLines(card, fee, input),
      ...commissionLines(charged, cost, outcome, input),
      ...resultLines(charged, cost, outcome, input.money.currency),
      ...due.lines,
    ],
    totals: {
      product: cost.product,
      sundries: cost.sundries,
      time: cost.time,
      overhead: cost.overhead,
      cost: cost.cost,
      net: charged.net,
      tax: charged.tax,
      gross: charged.gross,
      fee: outcome.fee,
      commission: outcome.commission,
      contribution: outcome.contribution,
      profit: outcome.profit,
      margin: cost.noCost.length > 0 ? null : outcome.margin,
      notCharged: cost.notCharged,
      replacementProduct: cost.replacementProduct,
      due: due.due,
      tip: due.tip,
      cashRounding: due.cashRounding,
      toTheTill: due.toTheTill,
    },
    noCost: cost.noCost,
    notes: notesOf(input, cost, card),
  };
}

/** Net, taxes and gross, in the order in which they are worked out. */
function priceLines(charged: Charges, input: SheetInput): SheetLine[] {
  const { currency, priceMode } = input.money;
  const gross = given('gross', charged.gross, currency);
  const net = given('net', charged.net, currency);
  const tax = given('taxes', charged.tax, currency);
  const grossLine = (inputs: LineInput[], formula: string): SheetLine => ({
    kind: 'gross',
    label: 'Gross',
    inputs,
    formula,
    amount: charged.gross,
  });
  const netLine = (inputs: LineInput[], formula: string): SheetLine => ({
    kind: 'net',
    label: 'Net',
    inputs,
    formula,
    amount: charged.net,
  });
  const taxes = taxLines(charged, input.money);
  return priceMode === 'inclusive'
    ? [grossLine([], 'menu + on top - discounts'), ...taxes, netLine([gross, tax], 'gross - taxes')]
    : [netLine([], 'menu + on top - discounts'), ...taxes, grossLine([net, tax], 'net + taxes')];
}

function feeLines(card: CardPaid, fee: Decimal, input: SheetInput): SheetLine[] {
  if (!input.cardFee) return [];
  const { currency } = input.money;
  return [
    {
      kind: 'fee',
      label: 'Card fee',
      inputs: [
        given('paid by card', card.amount, currency),
        given('fee', input.cardFee.share, 'share'),
        given('fixed', input.cardFee.fixed, currency),
        given('payments', card.payments, 'payment'),
      ],
      formula: 'paid by card x fee + fixed x payments',
      amount: fee,
    },
  ];
}

const baseNames = {
  gross: 'gross',
  net: 'net',
  net_less_product: 'net - product',
} as const;

function commissionLines(
  charged: Charges,
  cost: Costs,
  outcome: Outcome,
  input: SheetInput,
): SheetLine[] {
  return (input.commissions ?? []).map((commission, index) => ({
    kind: 'commission' as const,
    label: commission.label,
    inputs: [
      given(
        baseNames[commission.base],
        commissionBase(commission, charged, cost.product),
        input.money.currency,
      ),
      given('rate', commission.rate, 'share'),
    ],
    formula: `(${baseNames[commission.base]}) x rate`,
    amount: outcome.commissions[index] ?? zero,
  }));
}

function resultLines(
  charged: Charges,
  cost: Costs,
  outcome: Outcome,
  currency: string,
): SheetLine[] {
  return [
    {
      kind: 'contribution',
      label: 'Contribution',
      inputs: [
        given('net', charged.net, currency),
        given('product', cost.product, currency),
        given('sundries', cost.sundries, currency),
        given('time', cost.time, currency),
        given('fee', outcome.fee, currency),
        given('commission', outcome.commission, currency),
      ],
      formula: 'net - product - sundries - time - fee - commission',
      amount: outcome.contribution,
    },
    {
      kind: 'profit',
      label: 'Profit',
      inputs: [
        given('contribution', outcome.contribution, currency),
        given('overhead', cost.overhead, currency),
      ],
      formula: 'contribution - overhead',
      amount: outcome.profit,
    },
  ];
}

function notesOf(input: SheetInput, cost: Costs, card: CardPaid): SheetNote[] {
  const notes: SheetNote[] = [];
  const uncosted = cost.noCost.length;
  if (uncosted > 0) {
    const products = uncosted === 1 ? '1 product has' : `${uncosted} products have`;
    notes.push({
      code: 'no_cost',
      text: `${products} no cost yet. No margin is shown until then.`,
    });
  }
  if ((input.onTop ?? []).some((rule) => rule.by === 'gram')) {
    notes.push({
      code: 'charged_by_weight',
      text: 'Charging the public by weight may need a scale verified for trade where you work.',
    });
  }
  if (card.assumed && input.cardFee) {
    notes.push({
      code: 'card_assumed',
      text: 'Taken as all paid by card until payments are known.',
    });
  }
  if (cost.replacementProduct === null) {
    notes.push({
      code: 'no_replacement_cost',
      text: 'Not every product has a price to buy it again at; none is shown for those.',
    });
  }
  return notes;
}
