/** Plans a mix of products that are stated outright, and tells the plan in lines. */
import { canonical, round, type Decimal } from '../../../shared/decimal.js';
import type { MixPlan, MixProduct } from '../../../shared/mix.js';
import { planMix } from '../../../shared/mixing.js';
import { millilitresOf } from '../../../shared/units.js';
import { columns } from '../terminal.js';
import { statedAdditive, statedDeveloper, statedPowder } from './stated.js';
import { numberIfStated, statedAmount, statedCountry, WrongWord, type MixWords } from './words.js';

/** One thing to pour: grams for the scale, millilitres of what is measured so. */
export interface StatedPour {
  readonly product: string;
  readonly side: string;
  readonly grams: string;
  readonly millilitres?: string;
}

/** The plan as it is answered; decimals are text, quantities have at most 3 places. */
export interface StatedPlan {
  readonly pours: readonly StatedPour[];
  readonly total: { readonly quantity: string; readonly unit: 'g' };
  readonly contents: { readonly quantity: string; readonly unit: 'g' };
  readonly strength?: { readonly volume: string; readonly percent: string };
  readonly peroxidePercent: string;
  readonly cautions: readonly {
    readonly code: string;
    readonly text: string;
    readonly manner: string;
  }[];
  readonly assumed: readonly string[];
}

/**
 * The plan of what was said.
 * @throws WrongWord where a word cannot be read
 * @throws Problem of planMix where the arithmetic refuses
 */
export function planStated(words: MixWords): StatedPlan {
  const powders = words.powder.map((text) => withCeiling(text, words));
  const density = numberIfStated(words.density);
  const developers = (words.developer ?? []).map((text) => statedDeveloper(text, density));
  const additives = (words.additive ?? []).map(statedAdditive);
  const products = [...powders, ...developers, ...additives].map(({ product }) => product);
  const plan = planMix(
    {
      ...{ ratio: words.ratio, basis: words.basis, strength: numberIfStated(words.strength) },
      powders: powders.map(({ part }) => part),
      developers: developers.map(({ part }) => part),
      additives: additives.map(({ additive }) => additive),
      ...{ size: sizeOf(words), contact: words.contact },
    },
    products,
    [],
    circumstancesOf(words),
  );
  return viewOf(plan, new Map(products.map((product) => [product.id, product])));
}

/** The plan in lines for a person. */
export function linesOf(plan: StatedPlan): string[] {
  const { strength } = plan;
  const pours = plan.pours.map(({ product, grams, millilitres }) => [
    ...[product, `${grams} g`, millilitres === undefined ? '' : `${millilitres} ml`],
  ]);
  const more = plan.contents.quantity === plan.total.quantity ? [] : [plan.contents.quantity];
  const sums = [
    ['total', `${plan.total.quantity} g`],
    ...more.map((all) => ['with additives', `${all} g`]),
    ...(strength ? [['developer', `${strength.volume} vol, ${strength.percent} %`]] : []),
    ['peroxide', `${plan.peroxidePercent} % of the whole bowl`],
  ];
  const said = plan.cautions.map(({ text }) => `! ${text}`);
  return [
    ...columns(pours),
    '',
    ...columns(sums),
    '',
    ...plan.assumed,
    ...said,
    'The products’ own directions, local rules and a licensed professional come first.',
  ];
}

/** The ceiling said is that of the powders' directions for the contact said. */
function withCeiling(text: string, { kind, contact, ...words }: MixWords) {
  const ceiling = numberIfStated(words.ceiling);
  const stated = statedPowder(text, kind);
  if (!ceiling) return stated;
  if (!contact) throw new WrongWord('A ceiling is for a contact. Say --contact too.');
  const field = contact === 'scalp' ? 'scalpCeiling' : 'offScalpCeiling';
  return { ...stated, product: { ...stated.product, [field]: ceiling } };
}

function circumstancesOf({ country, interval }: MixWords) {
  return {
    country: country === undefined ? undefined : statedCountry(country),
    interval: numberIfStated(interval),
  };
}

function sizeOf({ total, ofPowder, ofDeveloper }: MixWords) {
  const said = [
    ...(total === undefined ? [] : [{ total: statedAmount(total) }]),
    ...(ofPowder === undefined ? [] : [{ powder: statedAmount(ofPowder) }]),
    ...(ofDeveloper === undefined ? [] : [{ developer: statedAmount(ofDeveloper) }]),
  ];
  const [size, another] = said;
  if (size && !another) return size;
  throw new WrongWord('Say one size: --total, --of-powder or --of-developer.');
}

const places = (value: Decimal): string => canonical(round(value, 3, 'half_even'));

function viewOf(plan: MixPlan, products: ReadonlyMap<string, MixProduct>): StatedPlan {
  const { strength } = plan;
  return {
    pours: plan.pours.map(({ productId, side, grams }) => {
      const product = products.get(productId);
      return {
        ...{ product: product?.name ?? productId, side, grams: places(grams) },
        ...(product?.unit === 'ml' ? { millilitres: places(millilitresOf(grams, product)) } : {}),
      };
    }),
    total: { quantity: places(plan.total.value), unit: 'g' },
    contents: { quantity: places(plan.contents.value), unit: 'g' },
    ...(strength
      ? { strength: { volume: places(strength.volume), percent: places(strength.percent) } }
      : {}),
    peroxidePercent: places(plan.peroxidePercent),
    cautions: plan.cautions.map(({ code, text, manner }) => ({ code, text, manner })),
    assumed: plan.assumed.map(({ text }) => text),
  };
}
