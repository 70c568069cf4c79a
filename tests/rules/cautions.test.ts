/** Cautions: which apply to a bowl, which comes first, and how they are worded. */
import { developerStrengthOf, peroxidePercentOf } from '../../shared/bowl-strength.js';
import { beforePowder, dividing, ofEveryBowl, settling } from '../../shared/caution-moments.js';
import { cautionsOfMix, type Circumstances } from '../../shared/cautioning.js';
import { cautionCodes, cautionSources, caution, gravest } from '../../shared/cautions.js';
import { count, decimal, type Decimal } from '../../shared/decimal.js';
import type { Contact, MixProduct } from '../../shared/mix.js';
import { peroxideRule } from '../../shared/peroxide-rules.js';
import { cautionsOfVisit, type VisitAnswers } from '../../shared/visit-cautions.js';

const d = (text: string): Decimal => decimal(text);
const product = (
  id: string,
  kind: MixProduct['kind'],
  more: Partial<MixProduct> = {},
): MixProduct => ({ id, name: id, kind, unit: 'g', ...more });

const lift = product('lift', 'lightener', { scalpCeiling: d('20'), offScalpCeiling: d('30') });
const bare = product('bare', 'lightener');
const tone = product('tone', 'toner', { scalpCeiling: d('10'), line: 'Quay' });
const direct = product('direct', 'direct');
const d20 = product('d20', 'developer', { strength: d('20'), line: 'Quay' });
const d40 = product('d40', 'developer', { strength: d('40'), line: 'Spit' });
const d60 = product('d60', 'developer', { strength: d('60') });
const odd = product('odd', 'developer', { strength: d('20'), percent: d('9') });
const water = product('water', 'water');

interface Row {
  readonly name: string;
  readonly parts: readonly (readonly [MixProduct, string])[];
  readonly contact?: Contact;
  readonly where?: Circumstances;
  readonly codes: readonly string[];
}
const released = 'peroxide_released_not_counted';

test.each<Row>([
  {
    name: 'at the ceiling of the directions nothing is said of it',
    parts: [
      [lift, '30'],
      [d20, '60'],
    ],
    contact: 'scalp',
    codes: [released],
  },
  {
    name: '40 vol on the scalp, against 20 in the directions',
    parts: [
      [lift, '30'],
      [d40, '60'],
    ],
    contact: 'scalp',
    codes: ['developer_above_ceiling', released],
  },
  {
    name: '20 and 40 vol in equal parts off the scalp: 30 vol, at its ceiling',
    parts: [
      [lift, '30'],
      [d20, '30'],
      [d40, '30'],
    ],
    contact: 'off-scalp',
    codes: ['different_lines', released],
  },
  {
    name: 'water brings 40 vol to 20',
    parts: [
      [lift, '30'],
      [d40, '30'],
      [water, '30'],
    ],
    contact: 'scalp',
    codes: ['water_in_bowl', released],
  },
  {
    name: 'no ceiling typed: it asks',
    parts: [
      [bare, '30'],
      [d20, '60'],
    ],
    contact: 'off-scalp',
    codes: ['ceiling_not_typed', released],
  },
  {
    name: 'contact not said: it asks',
    parts: [
      [lift, '30'],
      [d20, '60'],
    ],
    codes: ['contact_not_said', released],
  },
  {
    name: 'more than 12 % in the bowl',
    parts: [
      [lift, '30'],
      [d60, '90'],
    ],
    contact: 'off-scalp',
    codes: ['peroxide_above_rule', 'developer_above_ceiling', 'strength_unusual', released],
  },
  {
    name: '12 % exactly is not above the rule',
    parts: [
      [tone, '45'],
      [d60, '90'],
    ],
    contact: 'off-scalp',
    codes: ['strength_unusual', 'ceiling_not_typed'],
  },
  {
    name: 'a country whose rule is not known here: it asks',
    parts: [
      [lift, '30'],
      [d20, '60'],
    ],
    contact: 'scalp',
    where: { country: 'NZ' },
    codes: ['peroxide_rule_unknown', released],
  },
  {
    name: 'volumes and per cent that do not go together',
    parts: [
      [lift, '30'],
      [odd, '60'],
    ],
    contact: 'scalp',
    codes: ['strength_figures_disagree', released],
  },
  {
    name: 'a developer whose strength nobody entered: it asks, and refuses nothing',
    parts: [
      [lift, '30'],
      [product('new', 'developer'), '60'],
    ],
    contact: 'scalp',
    codes: ['strength_not_known', released],
  },
  {
    name: 'direct colour with developer',
    parts: [
      [direct, '30'],
      [d20, '30'],
    ],
    contact: 'off-scalp',
    codes: ['ceiling_not_typed', 'direct_with_developer'],
  },
  {
    name: 'a toner pour below ten intervals of the scale',
    parts: [
      [tone, '5'],
      [d20, '10'],
    ],
    contact: 'off-scalp',
    where: { country: 'FR', interval: d('1') },
    codes: ['ceiling_not_typed', 'pour_too_light'],
  },
  {
    name: 'powder alone, before any developer',
    parts: [
      [lift, '30'],
      [d40, '0'],
    ],
    contact: 'scalp',
    codes: [],
  },
])('$name', ({ parts, contact, where = { country: 'GB' }, codes }) => {
  const mix = {
    parts: parts.map(([each, grams]) => ({ product: each, grams: d(grams) })),
    contact,
  };
  expect(cautionsOfMix(mix, where).map((each) => each.code)).toEqual(codes);
});

test('figures are in the sentence, and it points to the directions', () => {
  const parts = [
    { product: lift, grams: d('30') },
    { product: d40, grams: d('60') },
  ];
  const [first] = cautionsOfMix({ parts, contact: 'scalp' }, { country: 'DE' });
  expect(first?.text).toBe(
    'Developer in this bowl: 40 vol. The directions of lift name 20 vol at the most on the ' +
      'scalp. Follow the directions.',
  );
  const light = caution('pour_too_light', { product: 'Ash', grams: '5', interval: '1' });
  expect(light.text).toBe('Ash is too light for this scale: ±1 g of 5 g.');
});

test('a bowl interrupts once, with the gravest', () => {
  const mix = {
    parts: [
      { product: lift, grams: d('30') },
      { product: d60, grams: d('90') },
    ],
    contact: 'scalp' as const,
  };
  expect(gravest(cautionsOfMix(mix, { country: 'IE' }))?.code).toBe('peroxide_above_rule');
  expect(gravest(ofEveryBowl)).toBeUndefined();
});

test.each([
  { country: 'GB', limit: '12', source: 'Regulation (EC) 1223/2009, Annex III, entry 12' },
  { country: 'de', limit: '12', source: 'Regulation (EC) 1223/2009, Annex III, entry 12' },
  { country: 'US', limit: undefined, source: 'none known here' },
])('the rule of $country: $limit % ready for use ($source)', ({ country, limit }) => {
  expect(peroxideRule(country)?.limitPercent.toFixed()).toBe(limit);
});

const tested = { line: 'Quay', hoursAgo: count(50), reaction: false };

test.each<{ name: string; answers: VisitAnswers; codes: string[]; says?: string }>([
  { name: 'a test read in time', answers: { sensitivityTest: tested }, codes: [] },
  {
    name: 'no test',
    answers: {},
    codes: ['sensitivity_test_missing'],
    says: 'none is noted',
  },
  {
    name: 'a test placed 47 hours ago',
    answers: { sensitivityTest: { ...tested, hoursAgo: count(47) } },
    codes: ['sensitivity_test_missing'],
    says: 'less than 48 hours',
  },
  {
    name: 'a test nobody read',
    answers: { sensitivityTest: { ...tested, reaction: undefined } },
    codes: ['sensitivity_test_missing'],
    says: 'has not been read',
  },
  {
    name: 'a test with another line',
    answers: { sensitivityTest: { ...tested, line: 'Spit' } },
    codes: ['sensitivity_test_missing'],
    says: 'for this line',
  },
  {
    name: 'everything at once, the gravest first',
    answers: {
      hennaOrMetal: true,
      sixteenOrOlder: false,
      scalpSound: false,
      earlierReaction: true,
      sensitivityTest: { ...tested, reaction: true },
    },
    codes: [
      'earlier_reaction',
      'scalp_not_sound',
      'under_sixteen',
      'sensitivity_test_missing',
      'henna_or_metal',
    ],
    says: 'a reaction is noted',
  },
])('at the chair: $name', ({ answers, codes, says }) => {
  const cautions = cautionsOfVisit(answers, 'Quay');
  expect(cautions.map((each) => each.code)).toEqual(codes);
  if (says !== undefined) expect(cautions.map((each) => each.text).join(' ')).toContain(says);
});

test('every caution has a basis and a source, and none is worded as a permission', () => {
  expect(cautionSources().map((each) => each.code)).toEqual(cautionCodes);
  expect(cautionSources().filter((each) => each.source === '')).toEqual([]);
  const facts = new Proxy({}, { get: () => 'x' });
  const texts = cautionCodes.map((code) => caution(code, facts as never).text);
  const permissions = /\b(safe|safely|allowed|permitted|harmless|fine to|ok to|no risk)\b/i;
  expect(texts.filter((text) => permissions.test(text))).toEqual([]);
  expect(texts.filter((text) => !/[.?]$/.test(text))).toEqual([]);
});

test('moments say what belongs to them', () => {
  expect(beforePowder.map((each) => each.code)).toEqual(['powder_dust', 'gloves']);
  expect(settling.map((each) => each.code)).toContain('never_sealed');
  expect(dividing.map((each) => each.code)).toEqual(['stays_with_client']);
  expect(ofEveryBowl.at(-1)?.code).toBe('professional_first');
});

test('what is in a bowl: developer strength with water, peroxide of the whole', () => {
  const parts = [
    { product: lift, grams: d('40') },
    { product: d40, grams: d('30') },
    { product: water, grams: d('30') },
  ];
  expect(developerStrengthOf(parts)?.volume.toFixed()).toBe('20');
  expect(peroxidePercentOf(parts)?.toFixed()).toBe('3.6');
  expect(peroxidePercentOf([])).toBeUndefined();
  expect(developerStrengthOf([{ product: water, grams: d('30') }])).toBeUndefined();
  const unknown = [{ product: product('new', 'developer'), grams: d('30') }];
  expect(developerStrengthOf(unknown)).toBeUndefined();
  expect(peroxidePercentOf(unknown)).toBeUndefined();
});
