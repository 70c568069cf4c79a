/** Every caution the house gives, with its basis and source, the gravest first. */

/** Where a caution comes from. */
export type CautionBasis =
  | 'published' // said by the source named
  | 'label text' // words a label must carry, by the source named
  | 'derived' // follows from what the source named says
  | 'memory' // recalled, not looked up
  | 'common practice, no source';

/** How it is given: it stops once, it wants an answer, or it stands as a line. */
export type CautionManner = 'interrupts' | 'asks' | 'line';

export interface Caution {
  readonly code: CautionCode;
  readonly text: string;
  readonly manner: CautionManner;
  readonly basis: CautionBasis;
  readonly source: string;
}

interface Entry<F> {
  readonly manner: CautionManner;
  readonly basis: CautionBasis;
  readonly source: string;
  readonly text: (facts: F) => string;
}

function entry<F = Record<string, never>>(
  manner: CautionManner,
  basis: CautionBasis,
  source: string,
  text: (facts: F) => string,
): Entry<F> {
  return { manner, basis, source, text };
}

const euPeroxide =
  'Regulation (EC) 1223/2009, Annex III, entry 12, as replaced by Regulation (EU) 2019/831';
const euHairColour = 'Regulation (EC) 1223/2009, Annex III, label texts of oxidative hair colours';
const fda = 'FDA, Cosmetics Safety Q&A: Hair Dyes';
const nicnas = 'NICNAS, Persulfates for hairdressers, fact sheet, June 2001';
const hse = 'HSE, COSHH and hairdressers: key messages';
const cleapss = 'CLEAPSS, Student Safety Sheet 57, Hydrogen peroxide (2018)';
const directions = "the product's own directions";
const oiml = 'OIML R 76-1, maximum permissible errors: half an interval at the least';

/** In the order of gravity: of several that interrupt, the first one does. */
const table = {
  earlier_reaction: entry(
    'interrupts',
    'label text',
    euHairColour,
    () =>
      'An earlier reaction to hair colour or a black-henna tattoo is noted. The label of hair ' +
      'colour says not to colour then. A doctor and the product’s directions come first.',
  ),
  scalp_not_sound: entry(
    'interrupts',
    'label text',
    euHairColour,
    () =>
      'A sensitive, irritated or damaged scalp, or a rash, is noted. The label of hair colour ' +
      'says not to colour then.',
  ),
  peroxide_above_rule: entry<{ percent: string; limit: string; region: string }>(
    'interrupts',
    'published',
    euPeroxide,
    ({ percent, limit, region }) =>
      `This bowl would hold ${percent} % hydrogen peroxide. The rule for ${region} sets the ` +
      `most at ${limit} % in what is ready for use.`,
  ),
  developer_above_ceiling: entry<{
    strength: string;
    ceiling: string;
    product: string;
    contact: string;
  }>(
    'interrupts',
    'published',
    directions,
    ({ strength, ceiling, product, contact }) =>
      `Developer in this bowl: ${strength} vol. The directions of ${product} name ${ceiling} ` +
      `vol at the most ${contact}. Follow the directions.`,
  ),
  under_sixteen: entry(
    'interrupts',
    'label text',
    euHairColour,
    () =>
      'Under 16 is noted. The label of hair colour says it is not intended for persons under 16.',
  ),
  sensitivity_test_missing: entry<{ what: string }>(
    'interrupts',
    'published',
    fda,
    ({ what }) =>
      `Sensitivity test: ${what}. A little on the inner elbow or behind the ear is left for ` +
      'two days before every use, and a rash means no colour.',
  ),
  henna_or_metal: entry(
    'interrupts',
    'common practice, no source',
    directions,
    () =>
      'Henna or metallic salts were used before. They can react with developer: make a strand ' +
      'test first, and follow the directions.',
  ),
  strength_unusual: entry<{ product: string; strength: string }>(
    'interrupts',
    'common practice, no source',
    directions,
    ({ product, strength }) =>
      `${product} is entered with ${strength} vol, above the 40 vol of common developers. Look ` +
      'at the bottle.',
  ),
  strength_not_known: entry<{ product: string }>(
    'asks',
    'common practice, no source',
    directions,
    ({ product }) =>
      `The strength of ${product} is not known, so nothing is reckoned for this bowl. Look at ` +
      'the bottle and enter it with the product.',
  ),
  contact_not_said: entry(
    'asks',
    'common practice, no source',
    directions,
    () => 'Will this bowl touch the scalp? The directions often name another strength for it.',
  ),
  ceiling_not_typed: entry<{ product: string; contact: string }>(
    'asks',
    'common practice, no source',
    directions,
    ({ product, contact }) =>
      `What is the strongest developer that the directions of ${product} name ${contact}? Read ` +
      'them and enter it with the product.',
  ),
  strength_figures_disagree: entry<{ product: string; strength: string; percent: string }>(
    'asks',
    'derived',
    euPeroxide,
    ({ product, strength, percent }) =>
      `${product} is entered with ${strength} vol and ${percent} %, which do not go together ` +
      '(10 vol is 3 %). Look at the bottle.',
  ),
  peroxide_rule_unknown: entry<{ country: string }>(
    'asks',
    'derived',
    euPeroxide,
    ({ country }) =>
      `No rule for peroxide in the bowl is known here for ${country}. Look up the local rule.`,
  ),
  different_lines: entry<{ lines: string }>(
    'line',
    'published',
    fda,
    ({ lines }) =>
      `Products of different lines in one bowl: ${lines}. Do not mix different hair colour ` +
      'products unless the directions of each say so.',
  ),
  water_in_bowl: entry(
    'line',
    'common practice, no source',
    directions,
    () => 'Water in the bowl: only if the directions allow it. It weakens the developer.',
  ),
  direct_with_developer: entry<{ product: string }>(
    'line',
    'common practice, no source',
    directions,
    ({ product }) =>
      `${product} is a direct colour; many are used without developer. Read its directions.`,
  ),
  peroxide_released_not_counted: entry(
    'line',
    'published',
    euPeroxide,
    () => 'Peroxide set free by other salts counts under the rule too and is not reckoned here.',
  ),
  pour_too_light: entry<{ product: string; grams: string; interval: string }>(
    'line',
    'derived',
    oiml,
    ({ product, grams, interval }) =>
      `${product} is too light for this scale: ±${interval} g of ${grams} g.`,
  ),
  own_product: entry(
    'line',
    'common practice, no source',
    directions,
    () =>
      'A product of the client’s own. Read its directions; do not mix it with other products ' +
      'unless both say so.',
  ),
  powder_dust: entry(
    'line',
    'published',
    nicnas,
    () =>
      'Lightener dust can irritate skin, eyes and airways and can bring on asthma. Ventilate, ' +
      'tip the powder slowly, wear gloves.',
  ),
  gloves: entry(
    'line',
    'published',
    hse,
    () => 'Wear suitable gloves: disposable, non-latex, new ones for each client.',
  ),
  eyes: entry(
    'line',
    'label text',
    euPeroxide,
    () =>
      'Contains hydrogen peroxide. Avoid contact with eyes. Rinse immediately if product comes ' +
      'into contact with them.',
  ),
  brows_and_lashes: entry(
    'line',
    'published',
    fda,
    () => 'Not near brows and lashes: eye injury and blindness are possible.',
  ),
  never_back: entry(
    'line',
    'derived',
    cleapss,
    () => 'Never put anything from a mixed bowl back into a tub, tube or bottle.',
  ),
  never_sealed: entry(
    'line',
    'derived',
    cleapss,
    () =>
      'Leave a mixed bowl open until it is spent. Never lid, film, bag or bottle it: it sets ' +
      'free oxygen and heat, and pressure builds. Follow the product’s sheet and local rules.',
  ),
  stays_with_client: entry(
    'line',
    'common practice, no source',
    'hygiene at the chair',
    () =>
      'Divide between clients only from an untouched bowl. What has been on a brush stays with ' +
      'its client.',
  ),
  age_of_the_mix: entry(
    'line',
    'common practice, no source',
    directions,
    () => 'This is the age of the mix, not the time on the hair. The directions give that time.',
  ),
  professional_first: entry(
    'line',
    'common practice, no source',
    directions,
    () => 'The product’s directions, local rules and a licensed professional come first.',
  ),
};

export type CautionCode = keyof typeof table;
type FactsOf<C extends CautionCode> = (typeof table)[C] extends Entry<infer F> ? F : never;

/** Every code, the gravest first. */
export const cautionCodes = Object.keys(table) as readonly CautionCode[];

/** A caution in words: its text with the facts put in, how it is given, where it comes from. */
export function caution<C extends CautionCode>(code: C, facts: FactsOf<C>): Caution {
  const { text, manner, basis, source } = table[code] as Entry<FactsOf<C>>;
  return { code, text: text(facts), manner, basis, source };
}

/** Basis, source and manner of every caution without its figures, for a page that lists them. */
export function cautionSources(): Pick<Caution, 'code' | 'manner' | 'basis' | 'source'>[] {
  return cautionCodes.map((code) => {
    const { manner, basis, source } = table[code];
    return { code, manner, basis, source };
  });
}

/** The gravest of those that interrupt: a bowl interrupts once, with the worst. */
export function gravest(cautions: readonly Caution[]): Caution | undefined {
  return byGravity(cautions).find((each) => each.manner === 'interrupts');
}

/** The same cautions, the gravest first; equals keep their order. */
export function byGravity(cautions: readonly Caution[]): Caution[] {
  const place = (each: Caution): number => cautionCodes.indexOf(each.code);
  return [...cautions].sort((a, b) => place(a) - place(b));
}
