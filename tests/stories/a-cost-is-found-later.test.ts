/** Product without a cost: no margin until it is filled in, and then where it was used. */
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;

beforeAll(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio);
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

async function unpriced(name: string): Promise<string> {
  const product = { name, kind: 'toner', unit: 'g', density: '1' };
  return (await studio.owner.post<{ id: string }>('/products', product)).id;
}

test('no cost is not zero: no margin, no target; filled in, a new sheet has both', async () => {
  const toner = await unpriced('Driftwood toner');
  const visit = await here.visit();
  const bowl = await here.pour(visit.id, 'gloss', [[toner, '40']]);
  await here.settle(bowl, '10');
  await here.close(visit.id, { uses: [] });
  const blind = await here.sheet(visit.id);
  expect(blind).toMatchObject({
    ...{ state: 'final', noCost: [{ productId: toner }] },
    totals: { product: '0.00', margin: null, replacementProduct: null },
  });
  expect(blind.notes).toContainEqual({
    code: 'no_cost',
    text: '1 product has no cost yet. No margin is shown until then.',
  });
  const target = await studio.owner.refused('GET', `/visits/${visit.id}/price-sheet?margin=0.2`);
  expect(target).toMatchObject({ type: '/problems/no_cost_yet' });
  await studio.owner.post('/cost-corrections', { lines: [{ productId: toner, unitCost: '0.1' }] });
  const seeing = await here.sheet(visit.id);
  expect(seeing).toMatchObject({
    ...{ version: 2, replaces: blind.id, noCost: [] },
    totals: { product: '4.00' }, // 30 g applied and 10 g left over, 0.10 each
  });
  // (97.56 - 4.00 - 30 - 30 - 1.85 - 9.76) / 97.56
  expect(seeing.totals.margin).toBe('0.22499');
});

test('a cost follows the bowl that was moved, to the last digit', async () => {
  const toner = await unpriced('Samphire toner');
  const [one, other] = [await here.visit(), await here.visit()];
  const stays = await here.pour(one.id, 'gloss', [[toner, '30']]);
  const moves = await here.pour(one.id, 'ends', [[toner, '20.5']]);
  await here.settle(stays, '0');
  await here.settle(moves, '0');
  await studio.owner.post(`/bowls/${moves}/move`, { visitId: other.id });
  await studio.owner.post('/cost-corrections', {
    lines: [{ productId: toner, unitCost: '0.333333' }],
  });
  const value = async (visit: string) => {
    const { lines } = await here.sheet(visit);
    return lines.find((line) => line.kind === 'product')?.inputs[1]?.value;
  };
  // 50.5 x 0.333333 = 16.833316(5) -> 16.833316, of it 30 / 50.5 and the rest
  expect(await value(one.id)).toBe('9.99999');
  expect(await value(other.id)).toBe('6.833326');
});

test('a bowl that is still open gets its cost where it is', async () => {
  const toner = await unpriced('Eelgrass toner');
  const visit = await here.visit();
  const bowl = await here.pour(visit.id, 'gloss', [[toner, '40']]);
  expect((await here.sheet(visit.id)).noCost).toHaveLength(1);
  await studio.owner.post('/cost-corrections', { lines: [{ productId: toner, unitCost: '0.2' }] });
  expect(await here.sheet(visit.id)).toMatchObject({ noCost: [], totals: { product: '8.00' } });
  await here.settle(bowl, '10');
  expect(await here.sheet(visit.id)).toMatchObject({ noCost: [], totals: { product: '8.00' } });
});
