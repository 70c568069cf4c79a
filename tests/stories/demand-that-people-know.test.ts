/** What people know of demand: bookings, closed days, out of stock, one product for another. */
import type { ForecastsView, ReorderPointView } from '../../shared/contract/purchasing.js';
import type { Shelf } from '../support/saltmarsh.js';
import { aStudio, type TestStudio } from '../support/studio.js';
import { usedForMonths } from '../support/used-for-months.js';

let studio: TestStudio;
let shelf: Shelf;
let lights: string;

/** Every Wednesday two visits for lights, 60 g of powder each: 120 g a week, for 26 weeks. */
beforeAll(async () => {
  studio = await aStudio();
  shelf = await usedForMonths(studio, '2025-08', 0, () => ({}));
  const post = async (path: string, body: object) =>
    (await studio.owner.post<{ id: string }>(path, body)).id;
  lights = await post('/services', { name: 'Lights', price: '120' });
  for (let week = 0; week < 26; week += 1) {
    const at = Date.parse('2025-09-03T12:00:00Z') + week * 7 * 86_400_000;
    const when = new Date(at).toISOString();
    studio.clock.set(when);
    for (let visit = 0; visit < 2; visit += 1) {
      const services = [{ serviceId: lights }];
      const visitId = await post('/visits', { services, startedAt: when });
      const lines = [{ productId: shelf.powder, quantity: '60', unit: 'g' }];
      await studio.owner.post('/uses', { visitId, usedAt: when, lines });
    }
  }
  studio.clock.set('2026-03-02T09:00:00Z');
}, 240_000);
afterEach(() => studio.audit());
afterAll(() => studio.close());

async function powder(horizon = 3) {
  const { items } = await studio.manager.get<ForecastsView>(`/forecasts?horizon=${horizon}`);
  const found = items.find(({ productId }) => productId === shelf.powder);
  if (!found) throw new Error('There is no forecast of powder.');
  return found;
}

/** So many visits for lights on a day of March. */
function booked(day: string, visits: number): string {
  const lines = Array.from({ length: visits }, (_, index) => {
    return `2026-03-${day} ${9 + index}:00,Lights,Guest ${index}`;
  });
  return lines.join('\n');
}

const takeOver = (lines: readonly string[]) =>
  studio.manager.post('/bookings/import?whole=true', {
    text: ['start,what,who', ...lines].join('\n'),
  });

const point = async () => {
  const { items } = await studio.manager.post<{ items: ReorderPointView[] }>('/reorder-points');
  const found = items.find(({ productId }) => productId === shelf.powder);
  return Number(found?.point?.quantity);
};

test('without a diary the forecast knows nothing of bookings', async () => {
  const { months, sentence } = await powder();
  expect(months.every(({ booked: of }) => of === undefined)).toBe(true);
  expect(sentence).not.toContain('booked');
});

test('ten booked visits raise the forecast and the reorder point to what they use', async () => {
  const before = await powder();
  const pointBefore = await point();
  await takeOver([booked('04', 10)]);
  const after = await powder();
  // Of ten nine are kept: 9 x 60 = 540 g in a week that usually uses 120 g; one week of the
  // usual use, about 120 g, is already in the forecast and is replaced by it.
  const more = Number(after.months[0]?.mean) - Number(before.months[0]?.mean);
  expect(more).toBeGreaterThan(380);
  expect(more).toBeLessThan(450);
  expect(after.months[0]?.booked).toMatchObject({ visits: '10' });
  expect(Number(after.months[0]?.booked?.use)).toBeCloseTo(540, 0);
  expect(after.sentence).toContain(
    '10 booked visits of the next 13 weeks use it, about 540 g; the diary decides 80 % of the ' +
      'next seven days.',
  );
  for (const { quantiles } of after.months) {
    const values = quantiles.map(({ quantity }) => Number(quantity));
    expect(values).toEqual([...values].sort((a, b) => a - b));
  }
  const pointAfter = await point();
  expect(pointAfter - pointBefore).toBeGreaterThan(300);
  await takeOver([]);
  expect((await powder()).months[0]?.mean).toBe(before.months[0]?.mean);
});

test('fewer bookings than usual do not lower a forecast without a record', async () => {
  const before = await powder();
  await takeOver([booked('04', 1)]);
  const after = await powder();
  // One of the usual two is booked, nine in ten are kept: the other comes as usual.
  const change = Number(after.months[0]?.mean) / Number(before.months[0]?.mean);
  expect(change).toBeGreaterThan(0.95);
  expect(change).toBeLessThan(1.05);
  await takeOver([]);
});

test('closed days take their part of the month, and the reorder point falls with it', async () => {
  const before = await powder();
  const pointBefore = await point();
  const closure = await studio.manager.post<{ id: string }>('/closures', {
    from: '2026-03-03',
    to: '2026-03-18',
    name: 'Works on the quay',
  });
  const after = await powder();
  // Work is done on Wednesdays only: of the four of March three are closed.
  const share = Number(after.months[0]?.mean) / Number(before.months[0]?.mean);
  expect(share).toBeCloseTo(1 / 4, 2);
  expect(after.months[1]?.mean).toBe(before.months[1]?.mean);
  expect(await point()).toBeLessThan(pointBefore);
  await studio.manager.delete(`/closures/${closure.id}`);
  expect((await powder()).months[0]?.mean).toBe(before.months[0]?.mean);
  const said = await studio.manager.refused('POST', '/closures', {
    ...{ from: '2026-03-03', to: '2026-03-01' },
  });
  expect(said.errors[0]).toMatchObject({ pointer: '/to', code: 'days_back_to_front' });
});

test('holidays come from a calendar, once', async () => {
  const event = (uid: string, day: string, name: string) =>
    `BEGIN:VEVENT\nUID:${uid}\nDTSTART;VALUE=DATE:${day}\nSUMMARY:${name}\nEND:VEVENT`;
  const text = [
    'BEGIN:VCALENDAR',
    event('1', '20260403', 'Good Friday'),
    event('2', '20261225', 'Christmas Day'),
    'END:VCALENDAR',
  ].join('\n');
  const first = await studio.manager.post('/closures/import', { text });
  expect(first).toMatchObject({ found: 2, added: 2, same: 0 });
  expect(await studio.manager.post('/closures/import', { text })).toMatchObject({ same: 2 });
  const { items } = await studio.manager.get<{ items: { id: string; name: string }[] }>(
    '/closures',
  );
  expect(items.map(({ name }) => name)).toEqual(['Good Friday', 'Christmas Day']);
  for (const { id } of items) await studio.manager.delete(`/closures/${id}`);
});

test('days marked as out of stock are not taken for days without demand', async () => {
  const mark = (of: object) => studio.manager.post<{ id: string }>('/out-of-stock', of);
  const before = await powder();
  // Three weeks of February: more than half of the month, so its use is not known.
  const { id } = await mark({ productId: shelf.powder, from: '2026-02-01', to: '2026-02-21' });
  expect((await powder()).sentence).toContain('out of stock');
  await studio.manager.delete(`/out-of-stock/${id}`);
  // A quarter of February: 480 g recorded in three quarters of it stand for 640 g.
  const short = { productId: shelf.powder, from: '2026-02-01', to: '2026-02-07' };
  const week = await mark(short);
  const raised = await powder();
  expect(Number(raised.months[0]?.mean)).toBeGreaterThan(Number(before.months[0]?.mean));
  expect(raised.history).toEqual(before.history);
  await studio.manager.delete(`/out-of-stock/${week.id}`);
});

test('a new product takes over the use of the one that it replaces', async () => {
  const product = { name: 'Ebb lightener', kind: 'lightener', unit: 'g' };
  const { id } = await studio.owner.post<{ id: string }>('/products', product);
  const before = await powder();
  await studio.manager.put(`/products/${id}/replaces`, { replacesId: shelf.powder, factor: '1.5' });
  const { items } = await studio.manager.get<ForecastsView>('/forecasts');
  expect(items.some(({ productId }) => productId === shelf.powder)).toBe(false);
  const ebb = items.find(({ productId }) => productId === id);
  expect(Number(ebb?.months[0]?.mean)).toBeCloseTo(1.5 * Number(before.months[0]?.mean), 0);
  expect(ebb?.sentence).toContain('which it replaced, counts.');
  const ring = await studio.manager.refused('PUT', `/products/${shelf.powder}/replaces`, {
    replacesId: id,
  });
  expect(ring.type).toBe('/problems/replaced_in_a_ring');
  await studio.manager.put(`/products/${id}/replaces`, { replacesId: null });
  expect((await powder()).months[0]?.mean).toBe(before.months[0]?.mean);
});
