/** Published minor units and cash rounding, against shared/currency.ts and shared/money.ts. */
import {
  cashData,
  codesWithoutMinorUnit,
  minorDigits,
  minorUnit,
} from '../../../shared/currency.js';
import { Decimal, sum } from '../../../shared/decimal.js';
import { roundForCash, roundMoney, roundToCoins } from '../../../shared/money.js';
import { grossOf } from '../../../shared/tax.js';
import { asFigure, figure, figures, shareOf, text } from './inputs.js';
import { NotYetSupported, type Answer, type Got, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

/** Currencies by the country in a row's id ("CASH-CA-EX"), where the inputs name none. */
const currencyOfCountry: Readonly<Record<string, string>> = {
  AU: 'AUD',
  CA: 'CAD',
  CH: 'CHF',
  CZ: 'CZK',
  DK: 'DKK',
  HU: 'HUF',
  NO: 'NOK',
  NZ: 'NZD',
  SE: 'SEK',
};

function currencyOf(row: ValueRow): string {
  const stated = text(row.inputs, 'currency', 'code');
  if (stated !== undefined) return stated;
  const country = row.id.split('-').find((part) => part in currencyOfCountry);
  const known = currencyOfCountry[country ?? ''];
  if (known === undefined) throw new NotYetSupported('no currency named');
  return known;
}

function iso4217(row: ValueRow): Answer {
  const currency = currencyOf(row);
  if (codesWithoutMinorUnit.includes(currency)) {
    const word = text(row.expected, 'minor_units');
    return { minor_units: word !== undefined && /^(none|n\.?a\.?|-)$/i.test(word) ? word : null };
  }
  return { minor_units: minorDigits(currency), minor_unit: minorUnit(currency) };
}

function cashRoundingData(row: ValueRow): Answer {
  const currency = currencyOf(row);
  const data = cashData(currency);
  return {
    cashRounding_minor_units: data.stepInMinorUnits ?? 1,
    cashRounding: data.stepInMinorUnits ?? 0,
    cashDigits: data.digits ?? minorDigits(currency),
    digits: minorDigits(currency),
  };
}

/** The interval of coins that a row states itself, such as "0.50 (1992-2010)". */
function statedStep(row: ValueRow): Decimal | undefined {
  const stated = figure(row.inputs, 'step', 'increment', 'interval', 'smallest_coin');
  if (stated) return stated;
  return asFigure(/^\s*(\d+(?:\.\d+)?)/.exec(text(row.inputs, 'interval', 'step') ?? '')?.[1]);
}

function cashRounding(row: ValueRow): Answer {
  const currency = currencyOf(row);
  const step = statedStep(row);
  const paid = (amount: Decimal): Decimal =>
    step ? roundToCoins(amount, step) : roundForCash(amount, currency);
  const amounts = figures(row.inputs, 'amounts');
  if (amounts) return { cash: amounts.map(paid) };
  const total = totalOf(row, currency);
  const cash = paid(total);
  const difference: Got = cash.minus(total);
  return { total, cash, difference, rounding: difference, rounding_difference: difference };
}

function totalOf(row: ValueRow, currency: string): Decimal {
  const items = figures(row.inputs, 'items', 'lines', 'prices');
  const net = items ? sum(items) : figure(row.inputs, 'amount', 'total', 'price');
  if (!net) throw new NotYetSupported('no amount');
  const rate = shareOf(row.inputs, 'tax_percent', 'rate_percent') ?? new Decimal(0);
  return roundMoney(grossOf(net, rate), currency, 'half_up');
}

export const currencyTopics: readonly Topic[] = [
  { name: 'iso4217', answer: iso4217 },
  { name: 'cash-rounding-data', answer: cashRoundingData },
  { name: 'cash-rounding', answer: cashRounding },
];
