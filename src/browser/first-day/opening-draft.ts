/** The first page as it is typed: what is missing in it, and the request that it makes. */
import { uuidv7 } from 'uuidv7';
import type { SupplierPrices } from '../../../shared/supplier-prices.js';
import { currencyOfCountry } from '../../../shared/country-currency.js';
import { canonical } from '../../../shared/decimal.js';
import { readFigure } from '../shell/figures.js';
import { deviceCountry, deviceTimeZone } from './places-of-the-world.js';
import { words } from './texts.js';

export interface OpeningDraft {
  readonly id: string;
  readonly name: string;
  readonly country: string | undefined;
  readonly currency: string | undefined;
  readonly timeZone: string;
  readonly prices: SupplierPrices['are'] | undefined;
  /** In per cent, as typed. */
  readonly taxRate: string;
  readonly owner: string;
}

/** What is never kept on the device. */
export interface Secrets {
  readonly pin: string;
  readonly code: string;
}

export type Trouble = keyof OpeningDraft | keyof Secrets;
export type Troubles = Partial<Record<Trouble, string>>;

/** Nothing typed yet; country, currency and time zone as the device is set. */
export function freshOpening(): OpeningDraft {
  const country = deviceCountry();
  return {
    id: uuidv7(),
    name: '',
    country,
    currency: country && currencyOfCountry(country),
    timeZone: deviceTimeZone(),
    prices: undefined,
    taxRate: '',
    owner: '',
  };
}

/** What keeps the studio from being opened, a sentence a field. */
export function troublesOf(draft: OpeningDraft, secrets: Secrets, needsCode: boolean): Troubles {
  const { open } = words;
  const rateNeeded = draft.prices === 'tax got back' && !rateOf(draft);
  return {
    ...(draft.name.trim() === '' ? { name: open.nameNeeded } : {}),
    ...(draft.currency === undefined ? { currency: open.currencyNeeded } : {}),
    ...(draft.prices === undefined ? { prices: open.pricesNeeded } : {}),
    ...(rateNeeded ? { taxRate: open.rateNeeded } : {}),
    ...(draft.owner.trim() === '' ? { owner: open.ownerNeeded } : {}),
    ...(/^\d{4,8}$/.test(secrets.pin) ? {} : { pin: open.pinNeeded }),
    ...(needsCode && secrets.code.trim() === '' ? { code: open.codeNeeded } : {}),
  };
}

/** The request of a draft without troubles. */
export function openingRequest(draft: OpeningDraft, { pin, code }: Secrets) {
  const { id, name, country, currency, timeZone, prices: are, owner } = draft;
  const taxRate = are === 'tax got back' ? rateOf(draft) : undefined;
  return {
    ...{ id, name: name.trim(), currency, timeZone, bench: words.open.firstBench },
    ...(country === undefined ? {} : { country }),
    ...(code.trim() === '' ? {} : { code: code.trim() }),
    supplierPrices: { are, ...(taxRate === undefined ? {} : { taxRate }) },
    owner: { name: owner.trim(), pin },
  };
}

/** "23" per cent -> "0.23" */
function rateOf({ taxRate }: OpeningDraft): string | undefined {
  const figure = readFigure(taxRate);
  if (!figure || figure.isZero() || figure.greaterThan(100)) return undefined;
  return canonical(figure.dividedBy(100));
}
