/** Products stated on a command line, read into what the mixing arithmetic takes. */
import { amount, type Amount } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { Additive, MixProduct, ProductKind, SharedPart } from '../../../shared/mix.js';
import { productKinds } from '../../../shared/product-card.js';
import { statedNumber, WrongWord } from './words.js';

/** One stated product, and its share of its side where one was said. */
export interface StatedPart {
  readonly product: MixProduct;
  readonly part: SharedPart;
}

const figure = String.raw`(\d+(?:\.\d+)?)`;
const share = String.raw`(?:\s+x\s+${figure})?`;
const powderWay = new RegExp(String.raw`^(.*?\S)${share}$`, 'i');
const developerWay = new RegExp(
  String.raw`^${figure}\s*(vol|%)?(?:\s+at\s+${figure})?${share}$`,
  'i',
);

/**
 * "lightener", or "Shade 6 x 2" with its share. A name that is a kind says the kind.
 * @param kind of the powders whose names do not say it
 */
export function statedPowder(text: string, kind: ProductKind): StatedPart {
  const [, name = text, part] = powderWay.exec(text.trim()) ?? [];
  const said = productKinds.find((known) => known === name.toLowerCase());
  const product: MixProduct = { ...named(name), unit: 'g', kind: said ?? kind };
  return { product, part: shared(product.id, part) };
}

/**
 * "20", "20 vol", "6 %" as printed, "20 at 1.02" with its g/ml, "20 x 2" with its share by volume.
 * @param density g/ml of developers that do not say their own
 * @throws WrongWord
 */
export function statedDeveloper(text: string, density?: Decimal): StatedPart {
  const [, number, unit, own, part] = developerWay.exec(text.trim()) ?? [];
  if (number === undefined) {
    throw new WrongWord(`"${text}" is no developer. Write its strength: 20, "6 %", or "20 x 2".`);
  }
  const strength = statedNumber(number);
  const known = own === undefined ? density : statedNumber(own);
  const product: MixProduct = {
    ...named(`developer ${number} ${unit === '%' ? '%' : 'vol'}`),
    ...(unit === '%' ? { percent: strength } : { strength }),
    ...(known ? { density: known } : {}),
    ...{ unit: 'ml', kind: 'developer' },
  };
  return { product, part: shared(product.id, part) };
}

/**
 * "Drops 2 % of powder", "Drops 3 g", "Drops 2 g per 30 g" of powder; with "counted" behind it,
 * it is part of the bowl's size.
 * @throws WrongWord
 */
export function statedAdditive(text: string): { product: MixProduct; additive: Additive } {
  const counted = /\s+counted$/i.test(text);
  const words = text.trim().replace(/\s+counted$/i, '');
  for (const { way, read } of additiveWays) {
    const [, name, ...figures] = way.exec(words) ?? [];
    if (name === undefined) continue;
    const { measure, dose } = read(figures);
    const product: MixProduct = {
      ...named(name),
      ...{ unit: 'g', kind: 'additive' },
      ...(dose ? { dose } : {}),
    };
    return { product, additive: { productId: product.id, counted, ...measure } };
  }
  throw new WrongWord(
    `"${text}" says no amount. Write 3 g, 2 % of powder, or 2 g per 30 g behind the name.`,
  );
}

type Measure = { percent: Decimal; of: 'powder' | 'developer' | 'total' } | OtherMeasure;
type OtherMeasure = { grams: Decimal } | { dosesPer: Decimal };

interface AdditiveWay {
  readonly way: RegExp;
  readonly read: (figures: string[]) => { measure: Measure; dose?: Amount<'g'> };
}

const behind = (words: string) => new RegExp(String.raw`^(.*\S)\s+${figure}\s*${words}$`, 'i');

const additiveWays: readonly AdditiveWay[] = [
  {
    way: behind(String.raw`%\s+of\s+(powder|developer|total)`),
    read: ([percent = '', of = '']) => ({
      measure: {
        percent: statedNumber(percent),
        of: of.toLowerCase() as 'powder' | 'developer' | 'total',
      },
    }),
  },
  {
    way: behind(String.raw`g\s+per\s+${figure}\s*g`),
    read: ([dose = '', step = '']) => ({
      measure: { dosesPer: statedNumber(step) },
      dose: amount(statedNumber(dose), 'g'),
    }),
  },
  {
    way: behind('g'),
    read: ([quantity = '']) => ({ measure: { grams: statedNumber(quantity) } }),
  },
];

/** The name as it was written, and the same in lower case to tell products apart by. */
function named(name: string): { id: string; name: string } {
  return { id: name.toLowerCase(), name };
}

function shared(productId: string, part: string | undefined): SharedPart {
  return part === undefined ? { productId } : { productId, share: statedNumber(part) };
}
