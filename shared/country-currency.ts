/** The currency that a studio of a country most likely keeps its account in: a first proposal. */

/** Currency by countries (ISO 3166-1, ISO 4217). Source: `memory`; a person may choose another. */
const countriesOf: Readonly<Record<string, string>> = {
  EUR: 'AT BE BG CY DE EE ES FI FR GR HR IE IT LT LU LV MC ME MT NL PT SI SK SM VA XK AD',
  GBP: 'GB GG IM JE',
  CHF: 'CH LI',
  USD: 'US PR EC SV PA',
  DKK: 'DK FO GL',
  NOK: 'NO SJ',
  SEK: 'SE',
  ISK: 'IS',
  PLN: 'PL',
  CZK: 'CZ',
  HUF: 'HU',
  RON: 'RO',
  UAH: 'UA',
  TRY: 'TR',
  CAD: 'CA',
  AUD: 'AU',
  NZD: 'NZ',
  JPY: 'JP',
  KRW: 'KR',
  CNY: 'CN',
  INR: 'IN',
  BRL: 'BR',
  MXN: 'MX',
  ZAR: 'ZA',
  ILS: 'IL',
  AED: 'AE',
  SGD: 'SG',
};

const currencyOf: ReadonlyMap<string, string> = new Map(
  Object.entries(countriesOf).flatMap(([currency, countries]) =>
    countries.split(' ').map((country): [string, string] => [country, currency]),
  ),
);

/** The proposal for a country of two capital letters: PT -> EUR; undefined where none is known. */
export function currencyOfCountry(country: string): string | undefined {
  return currencyOf.get(country);
}
