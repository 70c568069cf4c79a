/** The practice scale invents its weights: it books in the invented studio and nowhere else. */
import { randomUUID } from 'node:crypto';
import { aShelf, onHandOf, type Shelf } from '../support/saltmarsh.js';
import { aService, type TestService, type TestStudio } from '../support/studio.js';

let service: TestService;
beforeAll(async () => {
  service = await aService();
});
afterAll(() => service.close());

const pouredAt = '2026-03-02T09:00:00Z';
const by = (source: string) => ({ interval: '1', stable: true, windowMs: 800, source });

async function aBench(demo: boolean): Promise<{ studio: TestStudio; shelf: Shelf; bowl: string }> {
  const studio = await service.studio({ demo });
  const shelf = await aShelf(studio);
  const { id } = await studio.stylist.post<{ id: string }>('/bowls', { purpose: 'hairline' });
  return { studio, shelf, bowl: id };
}

function pourOf(shelf: Shelf, source: string) {
  return { productId: shelf.powder, quantity: '30', unit: 'g', pouredAt, scale: by(source) };
}

test.each(['simulated', ' Simulated '])(
  'a real studio refuses a pour from "%s"',
  async (source) => {
    const { studio, shelf, bowl } = await aBench(false);
    const before = await onHandOf(studio, shelf.powder);

    const path = `/bowls/${bowl}/pours`;
    const said = await studio.stylist.refused('POST', path, pourOf(shelf, source));

    expect(said).toMatchObject({ status: 422, type: '/problems/practice_books_nothing' });
    expect(await onHandOf(studio, shelf.powder)).toBe(before);
    await studio.audit();
  },
);

test('a real studio refuses a whole bowl that was weighed on it, and books nothing', async () => {
  const { studio, shelf } = await aBench(false);
  const before = await onHandOf(studio, shelf.powder);

  const said = await studio.stylist.refused('POST', '/bowls/record', {
    bowl: { id: randomUUID(), purpose: 'hairline' },
    pours: ['agent', 'simulated'].map((source) => ({ id: randomUUID(), ...pourOf(shelf, source) })),
  });

  expect(said).toMatchObject({ status: 422, type: '/problems/practice_books_nothing' });
  expect(await onHandOf(studio, shelf.powder)).toBe(before);
  await studio.audit();
});

test('the invented studio books it, and a real one books any other scale', async () => {
  const invented = await aBench(true);
  const real = await aBench(false);
  const at = (bowl: string) => `/bowls/${bowl}/pours`;

  await invented.studio.stylist.post(at(invented.bowl), pourOf(invented.shelf, 'simulated'));
  await real.studio.stylist.post(at(real.bowl), pourOf(real.shelf, 'agent'));

  await invented.studio.audit();
  await real.studio.audit();
});
