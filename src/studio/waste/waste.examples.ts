/** What was left over, and sizes, as the OpenAPI shows them. */
import type { SizeView, WasteView } from '../../../shared/contract/waste.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
const grams = (quantity: string) => ({ quantity, unit: 'g' as const });

export const wasteExample: WasteView = {
  from: '2025-03-04',
  to: '2026-03-04',
  rows: [
    {
      key: 'front',
      label: 'front',
      bowls: 48,
      estimatedBowls: 2,
      remadeBowls: 1,
      ranOut: 3,
      mixed: grams('3120'),
      applied: grams('2870'),
      wasted: grams('250'),
      remade: grams('60'),
      share: '0.080128',
      shareLow: '0.061',
      shareHigh: '0.0993',
      notWeighedShare: '0.04',
      value: '3.520000',
    },
  ],
};

export const wasteShape = {
  optional: ['/rows/value'],
  nullable: ['share', 'shareLow', 'shareHigh', 'notWeighedShare'].map((name) => `/rows/${name}`),
};

export const sizeExample: SizeView = {
  purpose: 'front',
  serviceId: id,
  hairLength: 'long',
  hairDensity: 'thick',
  point: '0.9',
  size: grams('55'),
  heads: 6,
  widerHeads: 31,
  pooled: true,
  lowerBound: false,
};

export const sizeShape = {
  nullable: ['/serviceId', '/hairLength', '/hairDensity', '/size'],
};
