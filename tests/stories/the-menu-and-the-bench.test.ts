/** Services, vessels, purposes and formulas; what each role sees; what stays once stock moved. */
import { randomUUID } from 'node:crypto';
import type {
  FormulaView,
  ProductView,
  PurposeView,
  ServiceView,
  VesselView,
} from '../../shared/contract/catalogue.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let powder: ProductView;
let foils: ProductView;
beforeAll(async () => {
  studio = await aStudio();
  powder = await studio.manager.post<ProductView>('/products', {
    ...{ name: 'Blonding powder', kind: 'lightener', unit: 'g' },
    packs: [{ label: '500 g tub', quantity: '500', listPrice: '24.50' }],
    reorder: { point: '750' },
  });
  foils = await studio.manager.post<ProductView>('/products', {
    ...{ name: 'Foil', kind: 'sundry', unit: 'piece' },
  });
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

describe('a service', () => {
  test('has a price, minutes, a kit and what is in the price; a bench sees no price', async () => {
    const made = await studio.manager.post<ServiceView>('/services', {
      ...{ name: 'Half head of lights', price: '85.00', handsOnMinutes: 75, chairMinutes: 120 },
      kit: [{ productId: foils.id, quantity: 30, unit: 'piece' }],
      inThePrice: [
        { kind: 'lightener', grams: '60' },
        { kind: 'toner', bowls: '1' },
      ],
    });
    expect(made).toMatchObject({
      price: '85',
      kit: [{ productId: foils.id, quantity: '30', unit: 'piece' }],
      inThePrice: [
        { kind: 'lightener', grams: '60' },
        { kind: 'toner', bowls: '1' },
      ],
    });
    expect(await studio.stylist.get(`/services/${made.id}`)).toEqual(made);
    const seen = await studio.bench.get(`/services/${made.id}`);
    expect(seen).not.toHaveProperty('price');
    expect(seen).not.toHaveProperty('onTop');
    expect({ ...seen, price: '85', onTop: [] }).toEqual(made);
    const dearer = await studio.manager.patch(`/services/${made.id}`, { price: '92.5' });
    expect(dearer).toEqual({ ...made, price: '92.5' });
  });

  test('names products of this studio, and grams or bowls', async () => {
    const id = randomUUID();
    const kit = [
      { productId: foils.id, quantity: '1', unit: 'piece' },
      { productId: id, quantity: '1', unit: 'piece' },
    ];
    expect(
      await studio.manager.refused('POST', '/services', { name: 'A', price: '1', kit }),
    ).toMatchObject({ status: 404, errors: [{ pointer: '/kit/1/productId' }] });
    const inThePrice = [{ kind: 'toner', grams: '5', bowls: '1' }];
    expect(
      await studio.manager.refused('POST', '/services', { name: 'A', price: '1', inThePrice }),
    ).toMatchObject({ type: '/problems/one_of_two', errors: [{ pointer: '/inThePrice/0' }] });
  });
});

test('a vessel is weighed at the bench, with its mark and its brush', async () => {
  const made = await studio.bench.post<VesselView>('/vessels', {
    ...{ label: 'black bowl', mark: 'triangle', tare: { quantity: '112.5', unit: 'g' } },
  });
  expect(made).toMatchObject({ tare: { quantity: '112.5', unit: 'g' }, brush: null });
  const brush = { brush: { quantity: '24', unit: 'g' } };
  expect(await studio.bench.patch(`/vessels/${made.id}`, brush)).toEqual({ ...made, ...brush });
  expect(await studio.bench.patch(`/vessels/${made.id}`, { brush: null })).toEqual(made);
});

test('a purpose is one word of the studio', async () => {
  const front = await studio.stylist.post<PurposeView>('/purposes', { name: 'front' });
  const again = await studio.stylist.refused('POST', '/purposes', { name: 'front' });
  expect(again).toMatchObject({
    ...{ status: 409, type: '/problems/name_in_use' },
    errors: [{ pointer: '/name' }],
  });
  const roots = await studio.stylist.post<PurposeView>('/purposes', { name: 'roots' });
  const taken = await studio.stylist.refused('PATCH', `/purposes/${roots.id}`, { name: 'front' });
  expect(taken).toMatchObject({ status: 409 });
  const page = await studio.bench.get<{ items: PurposeView[] }>('/purposes');
  expect(page.items.map(({ id }) => id)).toEqual([roots.id, front.id]);
});

describe('a formula', () => {
  const sized = { size: { total: { quantity: '60', unit: 'g' } } };

  test('keeps its plan with numbers in plain text, and changes', async () => {
    const plan = {
      ratio: '1:2',
      powders: [{ productId: powder.id, share: 1 }],
      strength: 13,
      additives: [{ productId: foils.id, grams: '3.0' }],
      ...sized,
    };
    const { id } = await studio.stylist.post<{ id: string }>('/formulas', {
      ...{ name: 'Sea glass, roots', purpose: 'roots', plan, minutesOnHair: 35 },
    });
    const kept = {
      ...plan,
      powders: [{ productId: powder.id, share: '1' }],
      strength: '13',
      additives: [{ productId: foils.id, grams: '3' }],
    };
    const formula = await studio.bench.get<FormulaView>(`/formulas/${id}`);
    expect(formula).toMatchObject({ clientId: null, plan: kept, poured: null, nextTime: null });
    const change = { nextTime: 'rinse cool', minutesOnHair: null };
    expect(await studio.stylist.patch(`/formulas/${id}`, change)).toEqual({
      ...formula,
      ...change,
    });
    await studio.stylist.post(`/formulas/${id}/retire`);
    expect(await studio.bench.get('/formulas')).toEqual({ items: [], next: null });
  });

  test.each([
    ['/plan', 'x', 'not_an_object'],
    ['/plan/powders', sized, 'missing'],
    ['/plan/powders/0/productId', { powders: [{ productId: 'x' }], ...sized }, 'not_an_id'],
    ['/plan/ratio', { ratio: '1:0', powders: [{ productId: randomUUID() }], ...sized }, 'no_parts'],
    ['/plan/size', { powders: [{ productId: randomUUID() }], size: {} }, 'one_size'],
    [
      '/plan/shade',
      { powders: [{ productId: randomUUID() }], shade: 1, ...sized },
      'unknown_field',
    ],
    [
      '/plan/additives/0',
      {
        powders: [{ productId: randomUUID() }],
        additives: [{ productId: randomUUID(), percent: '2' }],
        ...sized,
      },
      'one_measure',
    ],
  ])('has a plan that can be read: %s', async (pointer, plan, code) => {
    const problem = await studio.stylist.refused('POST', '/formulas', { name: 'A', plan });
    expect(problem).toMatchObject({ status: 400, errors: [{ pointer, code }] });
  });

  test('plans a bowl: 20 g of powder take one dose of 4 ml, 4.2 g at 1.05 g/ml', async () => {
    const drops = await studio.manager.post<ProductView>('/products', {
      ...{ name: 'Bond drops', kind: 'additive', unit: 'ml', density: '1.05' },
      dose: { quantity: '4', unit: 'ml' },
    });
    const plan = {
      powders: [{ productId: powder.id }],
      additives: [{ productId: drops.id, dosesPer: '30' }],
      size: { powder: { quantity: '20', unit: 'g' } },
    };
    const { id } = await studio.stylist.post<{ id: string }>('/formulas', { name: 'B', plan });
    const bowl = await studio.bench.post<{ planned: object[] }>('/bowls', {
      ...{ purpose: 'front', formulaId: id },
    });
    expect(bowl.planned).toMatchObject([
      { productId: powder.id, grams: '20' },
      { productId: drops.id, quantity: '4', unit: 'ml', grams: '4.2' },
    ]);
  });

  test('names products of this studio', async () => {
    const id = randomUUID();
    const plan = { powders: [{ productId: powder.id }], developers: [id], ...sized };
    expect(await studio.stylist.refused('POST', '/formulas', { name: 'A', plan })).toMatchObject({
      status: 404,
      errors: [{ pointer: '/plan/developers/0' }],
    });
  });
});

describe('a product at the bench', () => {
  test('shows no price to bench and stylist', async () => {
    for (const client of [studio.bench, studio.stylist]) {
      const seen = await client.get<ProductView>(`/products/${powder.id}`);
      expect(seen.packs[0]).toMatchObject({ label: '500 g tub', quantity: '500' });
      expect(seen.packs[0]).not.toHaveProperty('listPrice');
    }
    expect(powder.packs[0]?.listPrice).toBe('24.5');
  });

  test('may be entered when it is new, without prices and terms', async () => {
    const found = { name: 'new powder', kind: 'lightener', unit: 'g' };
    expect(await studio.bench.post('/products', found)).toMatchObject({ name: 'new powder' });
    const packs = [{ label: 'tub', quantity: '500', listPrice: '20' }];
    expect(await studio.bench.refused('POST', '/products', { ...found, packs })).toMatchObject({
      ...{ status: 403, errors: [{ pointer: '/packs/0/listPrice' }] },
    });
    const named = { name: 'Blonding powder 2' };
    expect(await studio.stylist.refused('PATCH', `/products/${powder.id}`, named)).toMatchObject({
      status: 403,
    });
  });
});

describe('a change of a product', () => {
  test('keeps what is not sent; packs of the same label keep their id', async () => {
    const [tub] = powder.packs;
    const changed = await studio.manager.patch<ProductView>(`/products/${powder.id}`, {
      reorder: { keepSealed: 2 },
      packs: [
        { label: '1 kg bag', quantity: '1', unit: 'kg' },
        { label: '500 g tub', quantity: '500', listPrice: '25' },
      ],
    });
    expect(changed).toMatchObject({ name: 'Blonding powder', retiredAt: null });
    expect(changed.reorder).toMatchObject({ point: '750', keepSealed: 2 });
    expect(changed.packs).toMatchObject([
      { label: '1 kg bag', quantity: '1000' },
      { id: tub?.id, label: '500 g tub', listPrice: '25' },
    ]);
    const unknown = [{ id: randomUUID(), label: 'a', quantity: '1' }];
    expect(
      await studio.manager.refused('PATCH', `/products/${powder.id}`, { packs: unknown }),
    ).toMatchObject({ status: 404, errors: [{ pointer: '/packs/0/id', code: 'pack_unknown' }] });
    expect(await studio.manager.refused('PATCH', `/products/${powder.id}`, {})).toMatchObject({
      type: '/problems/nothing_to_change',
    });
  });

  test('a strength that was confirmed is not asked about again', async () => {
    const strong = await studio.manager.post<ProductView>('/products', {
      ...{ name: 'Strong', kind: 'developer', unit: 'ml', strength: '60', confirmStrength: true },
    });
    const path = `/products/${strong.id}`;
    expect(await studio.manager.patch(path, { name: 'Stronger' })).toMatchObject({
      ...{ name: 'Stronger', strength: '60', percent: '18' },
    });
    const more = await studio.manager.refused('PATCH', path, { strength: '70' });
    expect(more.type).toBe('/problems/strength_above_usual');
  });

  test('of its unit takes its packs along, until it has moved', async () => {
    const path = `/products/${powder.id}`;
    const alone = await studio.manager.refused('PATCH', path, { unit: 'ml' });
    expect(alone.type).toBe('/problems/packs_in_old_unit');
    const packs = [{ label: '500 g tub', quantity: '500' }];
    expect(await studio.manager.patch(path, { unit: 'ml', packs })).toMatchObject({ unit: 'ml' });
    expect(await studio.manager.patch(path, { unit: 'g', packs })).toMatchObject({ unit: 'g' });

    await moves(powder.id);
    const problem = await studio.manager.refused('PATCH', path, { unit: 'ml', packs });
    expect(problem).toMatchObject({
      ...{ status: 422, type: '/problems/kept_since_it_moved' },
      facts: { field: 'unit', product: 'Blonding powder', kept: 'g' },
      errors: [{ pointer: '/unit' }],
    });
    // the database says the same to whoever goes past the service
    const past = studio.service.database.asOwner(
      `update product set unit = 'ml' where studio_id = $1 and id = $2`,
      [studio.id, powder.id],
    );
    await expect(past).rejects.toMatchObject({ code: '23001' });
    const same = { unit: 'g', name: 'Blonding powder, blue' };
    expect(await studio.manager.patch(path, same)).toMatchObject({ name: same.name });
  });
});

/** The first movement of a product: 500 g that were on the shelf on the first day. */
async function moves(productId: string): Promise<void> {
  const lines = [{ productId, quantity: '500', cost: '20' }];
  await studio.manager.post('/openings', { lines });
}
