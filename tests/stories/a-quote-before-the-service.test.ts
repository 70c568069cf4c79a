/** A price is told before the service: by like visits, at today's prices, for the client to see. */
import type { ClientQuoteView, QuoteView } from '../../shared/contract/quotes.js';
import { aPricedStudio, type PricedStudio } from '../support/priced-studio.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let here: PricedStudio;
let roots: string;

beforeAll(async () => {
  studio = await aStudio();
  here = await aPricedStudio(studio);
  const service = { name: 'Roots', price: '60', handsOnMinutes: 40, chairMinutes: 90 };
  const inThePrice = [{ kind: 'lightener', grams: '25' }];
  const made = await studio.owner.post<{ id: string }>('/services', { ...service, inThePrice });
  roots = made.id;
  const onTop = [{ kind: 'lightener', by: 'gram', rate: '0.2' }];
  await studio.owner.patch('/studio', { pricing: { onTop } });
});
afterEach(() => studio.audit());
afterAll(() => studio.close());

let begun = 0;

/** A visit for roots in which so many grams were applied and 2 g left over, closed. */
async function rootsVisit(grams: number, body: object = {}, chairMinutes = 90): Promise<string> {
  const startedAt = `2026-03-03T09:${String((begun += 1)).padStart(2, '0')}:00Z`;
  const visit = await here.visit({ services: [{ serviceId: roots }], startedAt, ...body });
  const bowl = await here.pour(visit.id, 'roots', [[here.shelf.powder, String(grams + 2)]]);
  await here.settle(bowl, '2');
  await here.close(visit.id, { chairMinutes });
  return visit.id;
}

const asked = (rest: object = {}) => ({ services: [{ serviceId: roots }], ...rest });
const give = (rest: object = {}) => studio.stylist.post<QuoteView>('/quotes', asked(rest));

test('a service that nobody had yet is quoted by the menu alone', async () => {
  const quote = await give();
  expect(quote).toMatchObject({
    ...{ basis: 'menu', visits: 0, enough: false, grams: null, currency: 'EUR' },
    menu: { net: '48.78', tax: '11.22', gross: '60.00' }, // 60 x 0.23 / 1.23 = 11.2195
    price: { low: '60.00', likely: '60.00', high: '60.00' },
    ...{ validUntil: '2026-04-02', expired: false }, // 30 days after 3 March
    onTop: ['lightener: €0.20 for each further gram, without tax'],
  });
  const client = await studio.stylist.get<ClientQuoteView>(`/quotes/${quote.id}/client`);
  expect(client).toMatchObject({ minutes: { from: 90, to: 90 }, price: { from: '60.00' } });
});

test('nine like visits, each at today’s prices', async () => {
  const applied = [60, 10, 20, 25, 30, 35, 40, 45, 50];
  for (const [index, grams] of applied.entries()) await rootsVisit(grams, {}, 80 + index * 2);
  // another service, a model, one that is not closed: not like it
  const other = await here.visit();
  await here.close(other.id);
  await rootsVisit(1, { kind: 'model' });
  await here.visit({ services: [{ serviceId: roots }] });
  const quote = await give();
  expect(quote).toMatchObject({
    ...{ basis: 'services', visits: 9, enough: true },
    // beyond 25 g: 0 0 0 5 10 15 20 25 35 g x 0.20 x 1.23, on 60.00; places 1, 5, 9
    price: { low: '60.00', likely: '62.46', high: '68.61' },
    grams: { low: '12', likely: '37', high: '62' },
    bowls: { low: '1', likely: '1', high: '1' },
    minutes: { low: '80', likely: '88', high: '96' },
    handsOnMinutes: { low: '40', likely: '40', high: '40' },
    held: { visits: 0, atOrUnder: 0, inside: 0 },
  });
  expect(JSON.stringify(quote)).not.toMatch(/cost|waste/i);
});

test('a price that goes up on the menu goes up in every like visit', async () => {
  await studio.owner.patch(`/services/${roots}`, { price: '70' });
  expect((await give()).price).toEqual({ low: '70.00', likely: '72.46', high: '78.61' });
  await studio.owner.patch(`/services/${roots}`, { price: '60' });
});

test('how good it was: the tenth inside, the eleventh above all before it', async () => {
  await rootsVisit(40);
  expect((await give()).held).toEqual({ visits: 1, atOrUnder: 1, inside: 1 });
  await rootsVisit(90);
  expect((await give()).held).toEqual({ visits: 2, atOrUnder: 1, inside: 1 });
});

test('her hair, once there are nine like her', async () => {
  const ada = await studio.owner.post<{ id: string }>('/clients', {
    ...{ name: 'Ada Brook', hairLength: 'short' },
  });
  const short = { clientId: ada.id };
  expect(await give(short)).toMatchObject({ basis: 'services', visits: 11, hairLength: 'short' });
  for (let visits = 0; visits < 9; visits += 1) await rootsVisit(5, short);
  const quote = await give(short);
  expect(quote).toMatchObject({ basis: 'services and hair', visits: 9 });
  expect(quote.price).toEqual({ low: '60.00', likely: '60.00', high: '60.00' });
  expect(await give({ ...short, hairLength: 'long' })).toMatchObject({ visits: 20 });
});

test('the client sees what she gets, from, to, and until when; nothing of cost', async () => {
  const quote = await give({ validUntil: '2026-03-20', hairLength: 'long' });
  expect(await studio.stylist.get(`/quotes/${quote.id}/client`)).toEqual({
    currency: 'EUR',
    services: ['Roots'],
    minutes: { from: 85, to: 95 }, // 82 and 94 of 20 visits, rounded up to 5
    price: { from: quote.price.low, to: quote.price.high },
    inThePrice: ['lightener, up to 25 g'],
    promise: `We ask you before going above €${quote.price.high}.`,
    validUntil: '2026-03-20',
    expired: false,
  });
  studio.clock.set('2026-03-21T09:00:00Z');
  expect(await studio.stylist.get(`/quotes/${quote.id}`)).toMatchObject({ expired: true });
  studio.clock.set('2026-03-03T12:00:00Z');
});

test('kept once, listed newest first, not kept when only asked', async () => {
  const id = crypto.randomUUID();
  const first = await give({ id });
  const again = await studio.stylist.ask<QuoteView>('POST', '/quotes', asked({ id }));
  expect(again).toMatchObject({ headers: { replayed: 'true' }, body: first });
  const dry = await studio.stylist.post<QuoteView>('/quotes?dry=true', asked());
  expect(dry).toMatchObject({ dry: true, visits: first.visits });
  expect(await studio.stylist.refused('GET', `/quotes/${dry.id}`)).toMatchObject({ status: 404 });
  const list = await studio.stylist.get<{ items: QuoteView[] }>('/quotes?limit=1');
  expect(list.items).toEqual([first]);
});

test('visits of more than 24 months ago are forgotten', async () => {
  studio.clock.set('2028-03-03T09:12:30Z');
  // twelve began up to 9:12 on that day, two years before
  const { visits } = await studio.stylist.post<QuoteView>('/quotes?dry=true', asked());
  const began = await studio.service.database.asOwner<{ visits: number }>(
    `select count(*)::int as visits from visit v join visit_service s on s.visit_id = v.id
      where s.service_id = '${roots}' and v.kind = 'client' and v.closed_at is not null
        and v.started_at >= '2026-03-03T09:12:30Z'`,
  );
  expect(visits).toBe(began[0]?.visits);
  expect(visits).toBeLessThan(20);
  studio.clock.set('2026-03-03T12:00:00Z');
});

test('what cannot be quoted is refused with the field; a bench sees no prices', async () => {
  const nobody = '00000000-0000-4000-8000-000000000001';
  const refusals: readonly [object, string, string][] = [
    [{ services: [{ serviceId: nobody }] }, 'not_found', '/services/0/serviceId'],
    [asked({ clientId: nobody }), 'not_found', '/clientId'],
    [asked({ validUntil: '2026-03-02' }), 'quote_over_already', '/validUntil'],
  ];
  for (const [body, code, pointer] of refusals) {
    const problem = await studio.owner.refused('POST', '/quotes', body);
    expect(problem).toMatchObject({ type: `/problems/${code}`, errors: [{ pointer }] });
  }
  expect(await studio.bench.refused('POST', '/quotes', asked())).toMatchObject({ status: 403 });
  const other = await studio.service.studio({ name: 'Reed Bank' });
  const cut = await other.owner.post<{ id: string }>('/services', { name: 'Cut', price: '30' });
  const untaxed = { services: [{ serviceId: cut.id }] };
  expect(await other.owner.refused('POST', '/quotes', untaxed)).toMatchObject({
    type: '/problems/no_tax_rule',
  });
  await studio.owner.post(`/services/${roots}/retire`);
  expect(await studio.owner.refused('POST', '/quotes', asked())).toMatchObject({
    type: '/problems/retired',
  });
});
