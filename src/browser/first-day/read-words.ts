/** What people write in a cell of a list: a pack, a strength, a kind, an amount of money. */
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';

const units: readonly (readonly [RegExp, string])[] = [
  [/^(kg|kilo|kilos)$/, 'kg'],
  [/^(g|gr|grams?)$/, 'g'],
  [/^(l|lt|ltr|lit(er|re)s?)$/, 'l'],
  [/^(ml|cc)$/, 'ml'],
  [/^fl\.? ?oz$/, '[foz_us]'],
  [/^oz$/, '[oz_av]'],
  [/^(pc|pcs|pieces?|x)$/, 'piece'],
];

const packPattern = /(\d+(?:[.,]\d+)?) ?(fl\.? ?oz|[a-z]+)/i;
const boxPattern = /\b(?:box|roll|pack) of (\d+)\b/i;

/**
 * How much is in a pack, of a text such as "500 g tub", "1 l", "60ml", "box of 500".
 * Its unit is a UCUM code or piece; undefined where no quantity with a unit is found.
 */
export function readPack(text: string): { quantity: Decimal; unit: string } | undefined {
  const [, boxed] = boxPattern.exec(text) ?? [];
  if (boxed !== undefined) return { quantity: decimal(plain(boxed)), unit: 'piece' };
  const [, figure = '', word = ''] = packPattern.exec(text) ?? [];
  const unit = units.find(([known]) => known.test(word.toLowerCase()))?.[1];
  if (unit === undefined) return undefined;
  const quantity = decimal(plain(figure));
  return quantity.isZero() ? undefined : { quantity, unit };
}

/** Strength of a text: "20 vol" or a bare "20" -> vol, "6 %" -> per cent; with comma or point. */
export function readStrength(text: string): { strength?: string; percent?: string } | undefined {
  const found = /^(\d{1,3}(?:[.,]\d{1,3})?) ?(vol\.?|volumes?|v|%|per ?cent|percent)?$/i.exec(
    text.trim(),
  );
  if (!found) return undefined;
  const [, figure = '', word = 'vol'] = found;
  const value = canonical(decimal(plain(figure)));
  return /^(%|per)/i.test(word) ? { percent: value } : { strength: value };
}

/** An amount of money with comma or point, with or without a sign: "€ 12,50" -> 12.5. */
export function readMoney(text: string): Decimal | undefined {
  const bare = text.replace(/[\p{Sc}\s]|[A-Z]{3}/gu, '');
  return /^\d{1,7}([.,]\d{1,4})?$/.test(bare) ? decimal(plain(bare)) : undefined;
}

/** Words of the trade by kind; the first that is found decides. */
const kinds: readonly (readonly [ProductKind, RegExp])[] = [
  ['developer', /develop|peroxid|oxid|activator|\bvol\b/i],
  ['lightener', /lighten|bleach|powder|clay/i],
  ['toner', /toner|gloss|demi|acidic/i],
  ['direct', /direct|semi|pigment/i],
  ['additive', /additive|bond|plex|drops|booster|accelerat/i],
  ['care', /shampoo|conditioner|mask|treatment|care/i],
  ['sundry', /foil|glove|cotton|cape|cap\b|towel|brush|sundry|film/i],
  ['permanent', /permanent|colou?r|tint|tube/i],
];

/** The kind that a text speaks of: "Peroxide 20 vol" -> developer. */
export function readKind(text: string): ProductKind | undefined {
  return kinds.find(([, words]) => words.test(text))?.[0];
}

/** "1,5" -> "1.5"; "007" -> "7" */
function plain(figure: string): string {
  return figure.replace(',', '.').replace(/^0+(?=\d)/, '');
}
