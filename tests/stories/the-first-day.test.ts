/** The first day: suppliers, products in packs, vessels, services; what is refused and why. */
import { randomUUID } from 'node:crypto';
import type { ProductView, SupplierView } from '../../shared/contract/catalogue.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => (studio = await aStudio()));
afterEach(() => studio.audit());
afterAll(() => studio.close());

const developer = {
  name: 'Developer 20 vol',
  kind: 'developer',
  unit: 'ml',
  line: 'Tidewater',
  strength: '20',
};

describe('a product', () => {
  test('is entered with its packs and found again, with 6 per cent for 20 volumes', async () => {
    const made = await studio.manager.post<ProductView>('/products', {
      ...developer,
      density: '1.02',
      dose: { quantity: '5.1', unit: 'g' },
      reorder: { keepSealed: 2, serviceLevel: '0.95' },
      packs: [
        {
          label: '1 l bottle',
          quantity: '1',
          unit: 'l',
          gtin: '5901234123457',
          emptyWeight: { quantity: '2', unit: '[oz_av]' },
          listPrice: '9.80',
        },
        { label: 'jug', quantity: '1.02', unit: 'kg' },
      ],
    });
    expect(made).toMatchObject({
      name: 'Developer 20 vol',
      strength: '20',
      percent: '6',
      density: '1.02',
      dose: { quantity: '5', unit: 'ml' }, // 5.1 g / 1.02 g/ml
      reorder: { point: null, leadTimeDays: null, serviceLevel: '0.95', keepSealed: 2 },
      retiredAt: null,
    });
    expect(made.packs).toMatchObject([
      {
        label: '1 l bottle',
        quantity: '1000',
        unit: 'ml',
        gtin: '05901234123457',
        emptyWeight: { quantity: '56.699', unit: 'g' }, // 2 x 28.349523125 g
        listPrice: '9.8',
      },
      { label: 'jug', quantity: '1000', gtin: null, listPrice: null }, // 1020 g / 1.02 g/ml
    ]);
    expect(made.assumedDensity).toBeUndefined();
    expect(await studio.manager.get(`/products/${made.id}`)).toEqual(made);
    const found = await studio.manager.get<{ items: ProductView[] }>(
      '/products?gtin=5901234123457',
    );
    expect(found.items.map(({ id }) => id)).toEqual([made.id]);
  });

  test('keeps the per cent on its bottle; from per cent alone comes its strength', async () => {
    const printed = { ...developer, name: 'Developer 6 vol', strength: '6', percent: '1.9' };
    expect(await studio.manager.post('/products', printed)).toMatchObject({ percent: '1.9' });
    const odd = { name: 'Gloss activator', kind: 'developer', unit: 'ml', percent: '1.9' };
    // 1.9 / 0.3 = 6.333…
    expect(await studio.manager.post('/products', odd)).toMatchObject({ strength: '6.333' });
  });

  test('says so where a litre had to be counted as a kilogram', async () => {
    const cream = { name: 'Cream', kind: 'toner', unit: 'g' };
    const packs = [{ label: 'tube', quantity: '60', unit: 'ml' }];
    const made = await studio.manager.post<ProductView>('/products', { ...cream, packs });
    expect(made).toMatchObject({ assumedDensity: true, packs: [{ quantity: '60', unit: 'g' }] });
  });

  test('stronger than 40 vol is asked about, above 100 refused', async () => {
    const strong = { ...developer, name: 'Strong', strength: '60' };
    expect(await studio.manager.refused('POST', '/products', strong)).toMatchObject({
      status: 422,
      type: '/problems/strength_above_usual',
      errors: [{ pointer: '/strength' }],
    });
    const confirmed = { ...strong, confirmStrength: true };
    expect(await studio.manager.post('/products', confirmed)).toMatchObject({ strength: '60' });
    expect(
      await studio.manager.refused('POST', '/products', { ...confirmed, strength: '200' }),
    ).toMatchObject({ status: 422, type: '/problems/strength_out_of_range' });
    const twisted = { ...developer, percent: '12' };
    expect(await studio.manager.refused('POST', '/products', twisted)).toMatchObject({
      type: '/problems/strength_and_percent_apart',
      facts: { strength: '20', percent: '12', usual: '6' },
    });
  });

  test.each([
    ['/strength', { ...developer, strength: undefined }, 'developer_without_strength'],
    ['/strength', { ...developer, kind: 'toner' }, 'strength_without_developer'],
    ['/density', { ...developer, density: '90' }, 'density_out_of_range'],
    ['/packs/0/gtin', packed({ gtin: '5901234123458' }), 'gtin_check_digit'],
    ['/packs/0/gtin', packed({ gtin: '59012341x' }), 'gtin_unreadable'],
    ['/packs/0/unit', packed({ unit: 'tael' }), 'unknown_unit'],
    ['/packs/0/unit', packed({ unit: 'piece' }), 'pieces_against_weight'],
    ['/packs/0/unit', packed({ unit: 'cm' }), 'units_measure_different_things'],
    [
      '/packs/0/emptyWeight',
      packed({ emptyWeight: { quantity: '60', unit: 'ml' } }),
      'units_measure_different_things',
    ],
    ['/packs/1/label', { ...developer, packs: [aPack(), aPack()] }, 'label_twice'],
  ])('names the field that is wrong: %s %#', async (pointer, body, code) => {
    const problem = await studio.manager.refused('POST', '/products', body);
    const status = code === 'unknown_unit' ? 400 : 422;
    expect(problem).toMatchObject({ status, type: `/problems/${code}` });
    expect(problem.errors).toMatchObject([{ pointer, code }]);
  });

  test('has a GTIN of its own', async () => {
    const packs = [{ ...aPack(), gtin: '05901234123457' }];
    expect(
      await studio.manager.refused('POST', '/products', { ...developer, packs }),
    ).toMatchObject({
      status: 409,
      type: '/problems/gtin_in_use',
      facts: { product: 'Developer 20 vol' },
      errors: [{ pointer: '/packs/0/gtin' }],
    });
  });

  test('is entered once, however often the same request arrives', async () => {
    const id = randomUUID();
    const request = { ...developer, id, name: 'Once only' };
    const first = await studio.manager.ask('POST', '/products', request);
    const again = await studio.manager.ask('POST', '/products', request);
    expect([first.status, again.status]).toEqual([201, 201]);
    expect(again.headers['replayed']).toBe('true');
    expect(again.body).toEqual(first.body);
    const other = await studio.manager.refused('POST', '/products', { ...request, name: 'Two' });
    expect(other).toMatchObject({ status: 409, type: '/problems/id_reused' });
  });
});

describe('a list of products', () => {
  const many = (strengths: string[]) => ({
    products: strengths.map((strength) => ({
      ...developer,
      name: `Developer ${strength} vol, many`,
      strength,
      packs: [aPack()],
    })),
  });

  test('is entered all at once, newest first in the list', async () => {
    const made = await studio.manager.post<{ items: ProductView[] }>(
      '/products/many',
      many(['5', '6', '10', '13', '20', '30', '40']),
    );
    expect(made.items.map(({ percent }) => percent)).toEqual(
      ['1.5', '1.8', '3', '3.9', '6', '9', '12'], // 0.3 x vol
    );
    const page = await studio.manager.get<{ items: ProductView[]; next: string }>(
      '/products?name=many&limit=4',
    );
    expect(page.items.map(({ strength }) => strength)).toEqual(['40', '30', '20', '13']);
    const rest = await studio.manager.get<{ items: ProductView[]; next: null }>(
      `/products?name=many&limit=4&cursor=${page.next}`,
    );
    expect(rest.items.map(({ strength }) => strength)).toEqual(['10', '6', '5']);
    expect(rest.next).toBeNull();
  });

  test('is refused as a whole, every wrong line named', async () => {
    const list = many(['7', '200', '8', '60']);
    const problem = await studio.manager.refused('POST', '/products/many', list);
    expect(problem).toMatchObject({ status: 422, facts: { refused: 2, lines: 4 } });
    expect(problem.errors).toMatchObject([
      { pointer: '/products/1/strength', code: 'strength_out_of_range' },
      { pointer: '/products/3/strength', code: 'strength_above_usual' },
    ]);
    const after = await studio.manager.get<{ items: unknown[] }>('/products?name=7 vol, many');
    expect(after.items).toEqual([]);
  });

  test('has no GTIN on two of its lines', async () => {
    const product = (name: string) => ({ ...packed({ gtin: '00012348' }), name });
    const products = [product('One'), product('Two')];
    const problem = await studio.manager.refused('POST', '/products/many', { products });
    expect(problem.errors).toMatchObject([
      { pointer: '/products/1/packs/0/gtin', code: 'gtin_in_use' },
    ]);
  });

  test('can be tried without storing anything', async () => {
    const tried = await studio.manager.post('/products/many?dry=true', many(['11']));
    expect(tried).toMatchObject({ dry: true, items: [{ strength: '11' }] });
    const after = await studio.manager.get<{ items: unknown[] }>('/products?name=11 vol, many');
    expect(after.items).toEqual([]);
  });
});

describe('a supplier', () => {
  test('keeps its terms, belongs to managers, and leaves the list when retired', async () => {
    const terms = { name: 'Harbour Wholesale', leadTimeDays: 3, minimumOrder: '150.00' };
    const made = await studio.manager.post<SupplierView>('/suppliers', terms);
    expect(made).toMatchObject({ minimumOrder: '150', freight: null, orderDay: null });
    const changed = { freight: '8.5', leadTimeDays: null };
    expect(await studio.manager.patch(`/suppliers/${made.id}`, changed)).toEqual({
      ...made,
      freight: '8.5',
      leadTimeDays: null,
    });
    expect(await studio.stylist.refused('GET', '/suppliers')).toMatchObject({ status: 403 });
    await studio.manager.post(`/suppliers/${made.id}/retire`);
    expect(await studio.manager.get('/suppliers')).toEqual({ items: [], next: null });
    const all = await studio.manager.get<{ items: SupplierView[] }>('/suppliers?retired=true');
    expect(all.items).toMatchObject([{ id: made.id, retiredAt: '2026-03-02T09:00:00.000Z' }]);
    const back = await studio.manager.patch(`/suppliers/${made.id}`, { retired: false });
    expect(back).toMatchObject({ retiredAt: null });
  });

  test('and a product of another studio cannot be seen or named', async () => {
    const other = await studio.service.studio({ name: 'Another quay' });
    const { id } = await other.manager.post<SupplierView>('/suppliers', { name: 'Theirs' });
    expect(await studio.manager.refused('GET', `/suppliers/${id}`)).toMatchObject({ status: 404 });
    expect(
      await studio.manager.refused('PATCH', `/suppliers/${id}`, { name: 'Ours' }),
    ).toMatchObject({ status: 404 });
    const named = { ...developer, supplierId: id };
    expect(await studio.manager.refused('POST', '/products', named)).toMatchObject({ status: 404 });
  });

  test('is one of this studio', async () => {
    const elsewhere = { ...developer, supplierId: randomUUID() };
    expect(await studio.manager.refused('POST', '/products', elsewhere)).toMatchObject({
      status: 404,
      errors: [{ pointer: '/supplierId', code: 'not_found' }],
    });
  });
});

function aPack() {
  return { label: '1000 ml bottle', quantity: '1000' };
}

function packed(more: object) {
  return { ...developer, packs: [{ ...aPack(), ...more }] };
}
