/** An example of what scales answer, for the description of the calls. */
import type { BenchScaleView, ScaleCheckView } from '../../../shared/contract/scales.js';

/** Every field at once; where there is a trouble there is no reading. */
export const benchScaleExample: BenchScaleView = {
  benchId: '01957b7c-2b51-7a10-8a33-7d1d9c0f4e21',
  agent: true,
  trouble: 'unplugged',
  reading: {
    status: 'weight',
    value: '42.5',
    unit: 'g',
    stable: true,
    mode: 'gross',
    atZero: false,
    interval: '0.1',
    carriedBy: 'ST,GS,+    42.5g',
  },
  pages: 1,
};

export const scaleCheckExample: ScaleCheckView = {
  id: '01957b7c-2b51-7a10-8a33-7d1d9c0f4e22',
  benchId: '01957b7c-2b51-7a10-8a33-7d1d9c0f4e21',
  what: 'Tidewater lightener, sealed tub',
  weight: { quantity: '512', unit: 'g' },
  checkedAt: '2026-03-02T18:05:00.000Z',
  before: { weight: { quantity: '512', unit: 'g' }, checkedAt: '2026-03-01T18:02:00.000Z' },
  difference: '0',
  off: false,
  bowls: 9,
};
