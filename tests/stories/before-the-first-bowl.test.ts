/** What is asked before the first bowl of a visit, its cautions, and who may see them. */
import type { VisitCautionsView } from '../../shared/contract/visits.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await aStudio();
});
afterAll(() => studio.close());

const startedAt = '2026-03-02T08:30:00Z';
const at = '2026-03-02T08:40:00Z';

async function made(path: string, body: object): Promise<string> {
  return (await studio.stylist.post<{ id: string }>(path, body)).id;
}

async function cautions(visitId: string, line = ''): Promise<VisitCautionsView> {
  const query = line === '' ? '' : `?line=${line}`;
  return studio.bench.get<VisitCautionsView>(`/visits/${visitId}/cautions${query}`);
}

const codes = ({ cautions: said }: VisitCautionsView) => said.map(({ code }) => code);

test('what nobody answered is asked; a missing sensitivity test is said', async () => {
  const visitId = await made('/visits', { startedAt });
  const said = await cautions(visitId);
  expect(said.asked).toEqual([]);
  expect(codes(said)).toEqual(['sensitivity_test_missing']);
});

test('the latest word on a question counts; a question left out keeps its word', async () => {
  const visitId = await made('/visits', { startedAt });
  const answers = `/visits/${visitId}/answers`;
  const first = { scalpSound: false, hennaOrMetal: true, sensitivityTest: 'no reaction', at };
  const answer = await studio.bench.post<object>(answers, first);
  expect(Object.keys(answer).toSorted()).toEqual(['id', 'visitId']);
  expect(codes(await cautions(visitId))).toEqual(['scalp_not_sound', 'henna_or_metal']);
  await studio.bench.post(answers, { scalpSound: true, at });
  const said = await cautions(visitId);
  expect(codes(said)).toEqual(['henna_or_metal']);
  expect(said.asked.toSorted()).toEqual(['hennaOrMetal', 'scalpSound', 'sensitivityTest']);
  await studio.bench.post(answers, { sensitivityTest: 'under 48 h', at });
  const [, young] = (await cautions(visitId)).cautions.toReversed();
  expect(young?.text).toContain('less than 48 hours ago');
});

test('a test that is noted of the client counts for its line, from 48 hours and read', async () => {
  const clientId = await made('/clients', { name: 'Ada Brook', sixteenOrOlder: true });
  const visitId = await made('/visits', { clientId, startedAt });
  // placed 48 h and 1 min before the clock's 09:00 of 2 March
  const placedAt = '2026-02-28T08:59:00Z';
  const test = { line: 'Tidewater', placedAt, readAt: '2026-03-02T08:00:00Z' };
  await made(`/clients/${clientId}/sensitivity-tests`, { ...test, result: 'no reaction' });
  const said = await cautions(visitId, 'Tidewater');
  expect(said.asked.toSorted()).toEqual(['sensitivityTest', 'sixteenOrOlder']);
  expect(codes(said)).toEqual([]);
  const [other] = (await cautions(visitId, 'Marram')).cautions;
  expect(other?.text).toContain('none is noted for this line');
});

test('answers are not told to anybody, and go when the client is forgotten', async () => {
  const clientId = await made('/clients', { name: 'Mara Sill' });
  const visitId = await made('/visits', { clientId, startedAt });
  await studio.bench.post(`/visits/${visitId}/answers`, { earlierReaction: true, at });
  const kept = () =>
    studio.service.database.asOwner('select id from visit_answer where visit_id = $1', [visitId]);
  expect(await kept()).toHaveLength(1);
  expect(codes(await cautions(visitId))).toContain('earlier_reaction');
  await studio.manager.post(`/clients/${clientId}/forget`, {});
  expect(await kept()).toEqual([]);
});

test('a bench answers for today only', async () => {
  const visitId = await made('/visits', { startedAt: '2026-02-20T09:00:00Z' });
  const refused = await studio.bench.refused('GET', `/visits/${visitId}/cautions`);
  expect(refused.status).toBe(404);
});

test('grams past the 90 % point of the quote are said, and no amount', async () => {
  const tax = { taxes: [{ label: 'VAT', rate: '0.23' }] };
  await studio.owner.patch('/studio', { pricing: tax });
  const menu = { name: 'Gloss', price: '40', handsOnMinutes: 30, chairMinutes: 40 };
  const serviceId = (await studio.owner.post<{ id: string }>('/services', menu)).id;
  const clientId = await made('/clients', { name: 'Tess Arden' });
  const services = [{ serviceId }];
  const toner = { name: 'Toner', kind: 'toner', unit: 'g' };
  const productId = (await studio.manager.post<{ id: string }>('/products', toner)).id;
  const visit = async (started: string, grams: string) => {
    const id = await made('/visits', { clientId, services, startedAt: started });
    const pouredAt = started.replace(':00:00Z', ':10:00Z');
    const bowl = { id: crypto.randomUUID(), visitId: id, purpose: 'gloss', plannedAt: pouredAt };
    const pour = { id: crypto.randomUUID(), productId, quantity: grams, unit: 'g', pouredAt };
    const settledAt = started.replace(':00:00Z', ':40:00Z');
    const settlement = { id: crypto.randomUUID(), leftover: { quantity: '0', unit: 'g' } };
    await studio.owner.post('/bowls/record', {
      ...{ id: crypto.randomUUID(), bowl, pours: [pour] },
      settlement: { ...settlement, settledAt },
    });
    return id;
  };
  const before = await visit('2026-02-01T10:00:00Z', '50');
  await studio.owner.post(`/visits/${before}/close`, { closedAt: '2026-02-01T11:00:00Z' });
  // one like visit: 50 g is the least and the most there was
  await studio.stylist.post('/quotes', { services, clientId });
  const now = await visit('2026-03-02T09:00:00Z', '50');
  const past = (more = '') =>
    studio.bench.get<object>(`/visits/${now}/past-the-quote${more === '' ? '' : `?more=${more}`}`);
  expect(await past()).toEqual({ past: false });
  expect(await past('0.1')).toEqual({ past: true });
  await studio.audit();
});
