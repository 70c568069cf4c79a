/** Full answers about bowls, as the OpenAPI shows them: 1:2 lightener with 6 and 20 vol at 13. */

const ids = {
  bowl: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d01',
  visit: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d02',
  powder: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d03',
  weak: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d04',
  pour: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d06',
  lot: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d07',
  person: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d08',
  settlement: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d09',
};

const grams = (quantity: string) => ({ quantity, unit: 'g' });
const strength = { volume: '13', percent: '3.9' };
const caution = {
  code: 'peroxide_released_not_counted',
  text: 'Peroxide set free by other salts counts under the rule too and is not reckoned here.',
  manner: 'line',
};
const planned = {
  productId: ids.weak,
  side: 'developer',
  quantity: '30',
  unit: 'ml',
  grams: '30',
  millilitres: '30',
};
const toPour = { productId: ids.weak, quantity: '30', unit: 'ml', grams: '30' };

const pour = {
  id: ids.pour,
  productId: ids.powder,
  kind: 'poured',
  measured: grams('30'),
  quantity: '30',
  unit: 'g',
  grams: '30',
  assumedDensity: false,
  pouredAt: '2026-03-02T09:15:00.000Z',
  estimated: false,
  reversed: false,
};

export const planExample = {
  pours: [planned],
  total: grams('90'),
  contents: grams('90'),
  strength,
  peroxidePercent: '2.6',
  cost: '1.440000',
  noCost: [ids.powder],
  cautions: [caution],
  assumed: [{ code: 'density', productId: ids.weak, text: 'Density taken as 1 g/ml.' }],
};

export const pourExample = {
  ...pour,
  bowlId: ids.bowl,
  value: '0.900000',
  lots: [{ lotId: ids.lot, quantity: '30', value: '0.900000' }],
  toPour: [toPour],
  offers: [
    {
      kind: 'restore',
      text: 'Grow to 108 g: ratio and strength as planned.',
      toPour: [toPour],
      contents: grams('108'),
      ratio: '1 : 2',
      strength,
      shades: '7 : 10 : 15',
    },
  ],
  strength,
  flags: [{ productId: ids.powder, flag: 'reorder' }],
  cautions: [caution],
  late: true,
};

export const weighingExample = {
  id: '0192a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d0a',
  bowlId: ids.bowl,
  net: grams('30'),
  applied: grams('60'),
  at: '2026-03-02T09:40:00.000Z',
};

export const settlementExample = {
  id: ids.settlement,
  bowlId: ids.bowl,
  settledAt: '2026-03-02T10:05:00.000Z',
  why: 'left over',
  borneBy: 'visit',
  estimated: false,
  mixed: grams('90'),
  applied: grams('81'),
  wasted: grams('9'),
  wasteShare: '0.1',
  value: { mixed: '1.440000', applied: '1.296000', wasted: '0.144000' },
  pours: [
    {
      pourId: ids.pour,
      productId: ids.powder,
      applied: grams('27'),
      wasted: grams('3'),
      value: { applied: '0.810000', wasted: '0.090000' },
    },
  ],
  questions: [{ code: 'brush_in_bowl', text: 'Is the brush in it?' }],
};

export const bowlExample = {
  id: ids.bowl,
  visitId: ids.visit,
  purpose: 'hairline',
  contact: 'off-scalp',
  state: 'open',
  mark: 'triangle',
  vesselId: ids.lot,
  formulaId: ids.lot,
  tare: grams('182'),
  maxTotal: grams('250'),
  sizedBy: ids.person,
  mixedBy: ids.person,
  appliedBy: ids.person,
  plannedAt: '2026-03-02T09:10:00.000Z',
  firstContactAt: '2026-03-02T09:16:00.000Z',
  lastPourAt: '2026-03-02T09:17:00.000Z',
  settledAt: '2026-03-02T10:05:00.000Z',
  estimated: false,
  late: false,
  planned: [planned],
  strength,
  pours: [pour],
  mixed: grams('90'),
  holds: grams('90'),
  wasted: grams('0'),
  why: 'left over',
  borneBy: 'visit',
  cautions: [caution],
  noted: [{ code: 'powder_dust', answer: 'Noted', at: '2026-03-02T09:14:00.000Z' }],
};

/** Fields of a bowl that may be null or missing, below `at`. */
export function bowlShape(at = '') {
  const nullable = [
    'visitId',
    'contact',
    'mark',
    'vesselId',
    'formulaId',
    'tare',
    'maxTotal',
    'sizedBy',
    'mixedBy',
    'appliedBy',
    'firstContactAt',
    'lastPourAt',
    'settledAt',
    'why',
    'borneBy',
  ].map((field) => `${at}/${field}`);
  return { nullable, optional: [`${at}/strength`, `${at}/planned/millilitres`] };
}

/** Fields of a pour's answer that may be missing, below `at`. */
export function pourShape(at = '') {
  const fields = ['value', 'lots', 'strength', 'late', 'offers/ratio', 'offers/strength'];
  return [...fields, 'offers/shades'].map((field) => `${at}/${field}`);
}

/** Fields of a settlement that may be missing, below `at`. */
export function settlementShape(at = '') {
  return [`${at}/value`, `${at}/pours/value`];
}
