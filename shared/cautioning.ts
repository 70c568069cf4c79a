/** Which cautions apply to a mix, a bowl or a visit. */
import { developerStrengthOf, peroxidePercentOf, type BowlPart } from './bowl-strength.js';
import { byGravity, caution, type Caution } from './cautions.js';
import { canonical, count, decimal, round, type Decimal } from './decimal.js';
import { nameOf, type Contact, type MixProduct, type ProductKind } from './mix.js';
import { peroxideRule } from './peroxide-rules.js';
import {
  exceedsPeroxideLimit,
  judgeStrength,
  percentOfVolume,
  strengthIfKnown,
} from './strength.js';

/** What a plan would hold, or what a bowl holds: products and their grams. */
export interface MixUnderCaution {
  readonly parts: readonly BowlPart[];
  readonly contact?: Contact | undefined;
}

/** What else the cautions depend on. */
export interface Circumstances {
  /** ISO 3166-1, two letters */
  readonly country?: string | undefined;
  /** g; the scale's interval */
  readonly interval?: Decimal | undefined;
}

/** A pour below this many intervals of the scale is too light for it. */
export const lightBelow_intervals = count(10);

/** A difference of printed per cent and 0.3 x vol above this share of the latter is asked about. */
const labelTolerance = decimal('0.1');

const powderKinds: readonly ProductKind[] = ['lightener', 'toner', 'permanent', 'direct'];

/** In words: "on the scalp". */
const contactWords: Record<Contact, string> = {
  scalp: 'on the scalp',
  'off-scalp': 'off the scalp',
};

/**
 * The cautions of what a bowl holds or would hold, the gravest first: developer strength against
 * the ceiling typed from the directions for this contact (none typed: it asks), peroxide of the
 * whole bowl against the country's rule, lines, water, light pours. To be asked again after every
 * pour, relabel, addition and offer.
 */
export function cautionsOfMix(mix: MixUnderCaution, circumstances: Circumstances): Caution[] {
  const present = mix.parts.filter((part) => part.grams.greaterThan(0));
  const parts = { ...mix, parts: present };
  return byGravity([
    ...developerCautions(parts),
    ...peroxideCautions(parts, circumstances),
    ...companyCautions(parts),
    ...lightPours(parts, circumstances),
  ]);
}

/** True where a pour of so many grams is below ten intervals of the scale. */
export function tooLightFor(grams: Decimal, interval: Decimal): boolean {
  return grams.lessThan(interval.times(lightBelow_intervals));
}

function developerCautions(mix: MixUnderCaution): Caution[] {
  const developers = mix.parts.filter(({ product }) => product.kind === 'developer');
  if (developers.length === 0) return [];
  const cautions = developers.flatMap(({ product }) => labelCautions(product));
  const made = developerStrengthOf(mix.parts);
  const powders = mix.parts.filter(({ product }) => powderKinds.includes(product.kind));
  if (!mix.contact && powders.length > 0) cautions.push(caution('contact_not_said', {}));
  for (const { product } of mix.contact ? powders : []) {
    const onScalp = mix.contact === 'scalp';
    const ceiling = onScalp ? product.scalpCeiling : product.offScalpCeiling;
    const contact = contactWords[mix.contact ?? 'scalp'];
    if (!ceiling)
      cautions.push(caution('ceiling_not_typed', { product: nameOf(product), contact }));
    else if (made?.volume.greaterThan(ceiling)) {
      cautions.push(
        caution('developer_above_ceiling', {
          strength: shown(made.volume),
          ceiling: canonical(ceiling),
          product: nameOf(product),
          contact,
        }),
      );
    }
  }
  return cautions;
}

function labelCautions(product: MixProduct): Caution[] {
  const known = strengthIfKnown(product);
  if (!known) return [caution('strength_not_known', { product: nameOf(product) })];
  const { volume, percent } = known;
  const cautions: Caution[] = [];
  if (judgeStrength(volume) === 'ask') {
    const facts = { product: nameOf(product), strength: shown(volume) };
    cautions.push(caution('strength_unusual', facts));
  }
  const byTrade = percentOfVolume(volume);
  if (percent.minus(byTrade).abs().greaterThan(byTrade.times(labelTolerance))) {
    const facts = { strength: shown(volume), percent: shown(percent) };
    cautions.push(caution('strength_figures_disagree', { product: nameOf(product), ...facts }));
  }
  return cautions;
}

function peroxideCautions(mix: MixUnderCaution, { country }: Circumstances): Caution[] {
  if (!mix.parts.some(({ product }) => product.kind === 'developer')) return [];
  const percent = peroxidePercentOf(mix.parts);
  const rule = country === undefined ? undefined : peroxideRule(country);
  const lightener = mix.parts.some(({ product }) => product.kind === 'lightener');
  const released = lightener ? [caution('peroxide_released_not_counted', {})] : [];
  if (!rule) {
    return [caution('peroxide_rule_unknown', { country: country ?? 'this country' }), ...released];
  }
  if (!percent || !exceedsPeroxideLimit(percent, rule.limitPercent)) return released;
  const facts = { percent: shown(percent), limit: canonical(rule.limitPercent) };
  return [caution('peroxide_above_rule', { ...facts, region: rule.region }), ...released];
}

function companyCautions(mix: MixUnderCaution): Caution[] {
  const cautions: Caution[] = [];
  const lines = [...new Set(mix.parts.flatMap(({ product: { line } }) => line ?? []))].sort();
  if (lines.length > 1) cautions.push(caution('different_lines', { lines: lines.join(', ') }));
  if (mix.parts.some(({ product }) => product.kind === 'water')) {
    cautions.push(caution('water_in_bowl', {}));
  }
  if (mix.parts.some(({ product }) => product.kind === 'developer')) {
    for (const { product } of mix.parts.filter((part) => part.product.kind === 'direct')) {
      cautions.push(caution('direct_with_developer', { product: nameOf(product) }));
    }
  }
  return cautions;
}

function lightPours(mix: MixUnderCaution, { interval }: Circumstances): Caution[] {
  if (!interval) return [];
  return mix.parts
    .filter(({ grams }) => tooLightFor(grams, interval))
    .map(({ product, grams }) =>
      caution('pour_too_light', {
        product: nameOf(product),
        grams: canonical(grams),
        interval: canonical(interval),
      }),
    );
}

/** A figure for a sentence, half-even to 0.001: 12.004 must not read as 12. */
function shown(value: Decimal): string {
  return canonical(round(value, 3, 'half_even'));
}
