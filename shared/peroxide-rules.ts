/** The most hydrogen peroxide in what is ready for use on hair, country by country. */
import { decimal, type Decimal } from './decimal.js';

export interface PeroxideRule {
  /** "the European Union" */
  readonly region: string;
  /** Per cent by weight of the whole bowl; the figure itself is still under the rule */
  readonly limitPercent: Decimal;
  readonly source: string;
}

const europeanUnion = (
  'AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE ' + 'SI SK'
).split(' ');

const source =
  'Regulation (EC) 1223/2009, Annex III, entry 12a, as replaced by Regulation (EU) 2019/831';
const limitPercent = decimal('12');

const rules: ReadonlyMap<string, PeroxideRule> = new Map([
  ...europeanUnion.map(
    (country) => [country, { region: 'the European Union', limitPercent, source }] as const,
  ),
  ['GB', { region: 'the United Kingdom', limitPercent, source }],
]);

/** The rule of a country (ISO 3166-1, two letters), where one is known here. */
export function peroxideRule(country: string): PeroxideRule | undefined {
  return rules.get(country.toUpperCase());
}
