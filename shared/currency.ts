/** Currencies: how many decimals an amount has, and the smallest amount payable in coins. */
import { Decimal, decimal } from './decimal.js';
import { Problem } from './problems/problem.js';

/**
 * Codes by minor-unit digits. Source: ISO 4217 list one (maintenance agency SIX; as in
 * datasets/currency-codes codes-all.csv). The codes of two digits are those in use: `memory`,
 * cross-checked with Unicode CLDR 48 supplemental currency data.
 */
const codesByDigits: readonly (readonly [number, string])[] = [
  [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'],
  [3, 'BHD IQD JOD KWD LYD OMR TND'],
  [4, 'CLF UYW'],
  [
    2,
    'AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN ' +
      'BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP ' +
      'GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT ' +
      'LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN ' +
      'NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE ' +
      'SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES ' +
      'WST XCD XCG YER ZAR ZMW ZWG',
  ],
];

/** Codes of ISO 4217 that are no money of a studio: metals, funds, tests, no currency at all. */
export const codesWithoutMinorUnit: readonly string[] =
  'XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX'.split(' ');

const digitsOf: ReadonlyMap<string, number> = new Map(
  codesByDigits.flatMap(([digits, codes]) =>
    codes.split(' ').map((code): [string, number] => [code, digits]),
  ),
);

/** All codes in which a studio can keep its account, in alphabetical order. */
export function currencyCodes(): string[] {
  return [...digitsOf.keys()].sort();
}

/**
 * Decimals of an amount in a currency: EUR -> 2, JPY -> 0, TND -> 3.
 * @throws Problem `unknown_currency` for anything that is not an ISO 4217 code of a currency
 */
export function minorDigits(currency: string): number {
  const digits = digitsOf.get(currency);
  if (digits === undefined) throw new Problem('unknown_currency', { currency });
  return digits;
}

/** The smallest amount on an account: EUR -> 0.01, JPY -> 1. */
export function minorUnit(currency: string): Decimal {
  return new Decimal(10).pow(-minorDigits(currency));
}

/** How the coins of a country round, as published for its currency. */
export interface CashData {
  /** Smallest step in minor units (of `digits`), where it is not one: CAD 5, CHF 5, DKK 50. */
  readonly stepInMinorUnits?: number;
  /** Decimals of an amount in coins, where fewer than on an account: SEK 0. */
  readonly digits?: number;
  /** An amount just between two steps goes up, unless said otherwise. */
  readonly tie?: 'half_down';
}

/**
 * Source: Unicode CLDR 48 supplemental currency data, fractions (cashRounding, cashDigits);
 * AUD: Australian Competition and Consumer Commission, "Rounding and EFTPOS transactions";
 * NZD: Reserve Bank coins of 10 cents and more, an amount ending in 5 is left to the seller and
 * advised to go down (New Zealand retailers' association). SEK: Lag (1970:1029).
 */
const cashDataOf: Readonly<Record<string, CashData>> = {
  AMD: { digits: 0 },
  AUD: { stepInMinorUnits: 5 },
  CAD: { stepInMinorUnits: 5 },
  CHF: { stepInMinorUnits: 5 },
  CRC: { digits: 0 },
  CZK: { digits: 0 },
  DKK: { stepInMinorUnits: 50 },
  GYD: { digits: 0 },
  HUF: { digits: 0, stepInMinorUnits: 5 },
  MNT: { digits: 0 },
  MUR: { digits: 0 },
  NOK: { digits: 0 },
  NZD: { stepInMinorUnits: 10, tie: 'half_down' },
  RSD: { digits: 0 },
  SEK: { digits: 0 },
  TWD: { digits: 0 },
  TZS: { digits: 0 },
  UZS: { digits: 0 },
};

/** What is published about coins of a currency; nothing where coins go down to its minor unit. */
export function cashData(currency: string): CashData {
  minorDigits(currency);
  return cashDataOf[currency] ?? {};
}

/** The smallest amount payable in coins: CAD -> 0.05, SEK -> 1, HUF -> 5, EUR -> 0.01. */
export function cashStep(currency: string): Decimal {
  const { stepInMinorUnits, digits } = cashData(currency);
  const unit = new Decimal(10).pow(-(digits ?? minorDigits(currency)));
  return unit.times(decimal(String(stepInMinorUnits ?? 1)));
}
