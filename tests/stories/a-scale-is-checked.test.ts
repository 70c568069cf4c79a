/** A sealed tub weighs the same every day; where it does not, the scale is said to be off. */
import type { ScaleCheckView } from '../../shared/contract/scales.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await aStudio();
});
afterAll(() => studio.close());

const check = (grams: string, at: string, what = 'sealed tub') =>
  studio.bench.post<ScaleCheckView>('/scale-checks', {
    ...{ what, weight: { quantity: grams, unit: 'g' }, interval: '1', at },
  });

test('two intervals are nothing; three are off, compared with the time before', async () => {
  const first = await check('512', '2026-03-01T18:00:00Z');
  expect(first).toMatchObject({ before: null, difference: null, off: false });
  const second = await check('514', '2026-03-02T07:00:00Z');
  expect(second).toMatchObject({ difference: '2', off: false });
  expect(second.before).toMatchObject({ weight: { quantity: '512', unit: 'g' } });
  const third = await check('511', '2026-03-02T08:00:00Z');
  expect(third).toMatchObject({ difference: '-3', off: true });
  const other = await check('300', '2026-03-02T08:30:00Z', 'another tub');
  expect(other.before).toBeNull();
  const { rows } = await studio.bench.get<{ rows: ScaleCheckView[] }>('/scale-checks');
  expect(rows.map(({ weight }) => weight.quantity)).toEqual(['300', '511', '514', '512']);
});

test('a scale that is off names how many bowls of its day are in doubt', async () => {
  const flour = { name: 'Powder', kind: 'lightener', unit: 'g' };
  const productId = (await studio.manager.post<{ id: string }>('/products', flour)).id;
  const bowl = await studio.bench.post<{ id: string }>('/bowls', { purpose: 'front' });
  const pour = { productId, quantity: '20', unit: 'g', pouredAt: '2026-03-02T08:45:00Z' };
  await studio.bench.post(`/bowls/${bowl.id}/pours`, pour);
  expect(await check('505', '2026-03-02T08:50:00Z')).toMatchObject({ off: true, bowls: 1 });
  await studio.audit();
});

test('nothing weighs nothing', async () => {
  const body = { what: 'tub', weight: { quantity: '0', unit: 'g' }, at: '2026-03-02T08:00:00Z' };
  expect((await studio.bench.refused('POST', '/scale-checks', body)).status).toBe(400);
});
