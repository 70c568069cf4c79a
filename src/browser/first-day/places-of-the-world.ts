/** Countries, currencies and time zones by the names that the device's language has for them. */
import { currencyCodes } from '../../../shared/currency.js';

export interface Choosable {
  readonly id: string;
  readonly text: string;
}

const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
/** Codes that have a name and are no country: unions, outlying and unknown territories. */
const noCountries: ReadonlySet<string> = new Set(['EU', 'EZ', 'UN', 'ZZ', 'QO', 'XA', 'XB']);

/** Country codes (ISO 3166-1) with their names, by name. */
export function countries(): Choosable[] {
  const names = new Intl.DisplayNames(undefined, { type: 'region', fallback: 'none' });
  const codes = letters.flatMap((first) => letters.map((second) => first + second));
  return codes
    .filter((code) => !noCountries.has(code))
    .flatMap((id) => {
      const text = names.of(id);
      return text === undefined ? [] : [{ id, text }];
    })
    .toSorted(byText);
}

/** Currencies (ISO 4217) with their names: "EUR, Euro". */
export function currencies(): Choosable[] {
  const names = new Intl.DisplayNames(undefined, { type: 'currency', fallback: 'code' });
  return currencyCodes().map((id) => {
    const name = names.of(id) ?? id;
    return { id, text: name === id ? id : `${id}, ${name}` };
  });
}

/** Time zones (IANA): "Europe/Lisbon". */
export function timeZones(): Choosable[] {
  const own = deviceTimeZone();
  const all = new Set([own, ...Intl.supportedValuesOf('timeZone')]);
  return [...all].map((id) => ({ id, text: id.replaceAll('_', ' ') })).toSorted(byText);
}

/** The time zone that this device is set to. */
export function deviceTimeZone(): string {
  return new Intl.DateTimeFormat().resolvedOptions().timeZone;
}

/** The country of the device's language, where it names one: "pt-PT" -> "PT". */
export function deviceCountry(): string | undefined {
  return new Intl.Locale(navigator.language).region;
}

function byText(a: Choosable, b: Choosable): number {
  return a.text.localeCompare(b.text);
}
