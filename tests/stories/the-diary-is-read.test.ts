/** The diary's file is read over: who comes when for what, changed, called off, sent again. */
import type {
  BookingRulesView,
  BookingView,
  ImportedBookingsView,
} from '../../shared/contract/bookings.js';
import type { VisitView } from '../../shared/contract/visits.js';
import { aStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
let lights: string;
let gloss: string;

/** The clock stands on Monday, 2 March 2026, 9:00 in UTC; the studio is in Lisbon. */
beforeEach(async () => {
  studio = await aStudio({ timeZone: 'Europe/Lisbon' });
  const service = async (name: string, price: string) =>
    (await studio.owner.post<{ id: string }>('/services', { name, price })).id;
  lights = await service('Half head of lights', '120');
  gloss = await service('Gloss', '30');
});
afterEach(async () => {
  await studio.audit();
  await studio.close();
});

function calendar(events: readonly string[], method = ''): string {
  const parts = events.map((event) => `BEGIN:VEVENT\r\n${event}\r\nEND:VEVENT`);
  return ['BEGIN:VCALENDAR', 'VERSION:2.0', method, ...parts, 'END:VCALENDAR']
    .filter(Boolean)
    .join('\r\n');
}

const ada = [
  'UID:ada-1@diary.example',
  'SEQUENCE:1',
  'DTSTART;TZID=Europe/Lisbon:20260302T100000',
  'DTEND;TZID=Europe/Lisbon:20260302T123000',
  'SUMMARY:Ada Brook - Half head of lights + gloss',
  'DESCRIPTION:Call her on +351 900 000 000\\, she wrote from ada@post.example',
  'ATTENDEE;CN=Ada Brook:mailto:ada@post.example',
].join('\r\n');
const weekly = [
  'UID:ines-1@diary.example',
  'DTSTART;TZID=Europe/Lisbon:20260303T150000',
  'RRULE:FREQ=WEEKLY;COUNT=5',
  'SUMMARY:Ines Maria Vale - Root retouch',
].join('\r\n');

const take = (text: string, query = '') =>
  studio.manager.post<ImportedBookingsView>(`/bookings/import${query}`, { text });
const booked = async (query = '?from=2026-03-01&to=2026-06-01') =>
  (await studio.manager.get<{ items: BookingView[] }>(`/bookings${query}`)).items;

test('a file is read over once, however often it is sent', async () => {
  const first = await take(calendar([ada, weekly]));
  expect(first).toMatchObject({ found: 6, added: 6, changed: 0, same: 0, unread: 5 });
  expect(first.examples[0]).toEqual({
    day: '2026-03-02',
    who: 'Ada B.',
    what: 'Half head of lights + gloss',
    services: ['Half head of lights', 'Gloss'],
  });
  const again = await take(calendar([ada, weekly]));
  expect(again).toMatchObject({ found: 6, added: 0, changed: 0, same: 6, calledOff: 0, unread: 5 });
  const items = await booked();
  // Ten and three o’clock in Lisbon; from 29 March on three o’clock is two in UTC.
  expect(items.map(({ startsAt, who }) => `${startsAt} ${who}`)).toEqual([
    ...['2026-03-02T10:00:00.000Z Ada B.', '2026-03-03T15:00:00.000Z Ines V.'],
    ...['2026-03-10T15:00:00.000Z Ines V.', '2026-03-17T15:00:00.000Z Ines V.'],
    ...['2026-03-24T15:00:00.000Z Ines V.', '2026-03-31T14:00:00.000Z Ines V.'],
  ]);
});

test('only first name and initial are kept, and nothing from below the title', async () => {
  await take(calendar([ada]));
  const rows = await studio.service.database.asOwner<Record<string, unknown>>(
    'select to_jsonb(b) as kept from booking b',
  );
  const kept = JSON.stringify(rows);
  expect(kept).toContain('Ada B.');
  for (const word of ['Brook', '+351', 'post.example', 'diary.example', 'Call']) {
    expect(kept).not.toContain(word);
  }
});

test('a client of the studio is found by her whole name, and forgotten with it', async () => {
  const { id } = await studio.owner.post<{ id: string }>('/clients', { name: 'Ada Brook' });
  await take(calendar([ada]));
  const [found] = await booked();
  expect(found).toMatchObject({ clientId: id, who: 'Ada B.' });
  await studio.owner.post(`/clients/${id}/forget`);
  const [forgotten] = await booked();
  expect(forgotten?.who).toMatch(/^client \d{4}$/);
});

test('a moved booking moves, an older file changes nothing, a cancelled one is off', async () => {
  await take(calendar([ada]));
  const moved = ada.replace('SEQUENCE:1', 'SEQUENCE:2').replaceAll('20260302T1', '20260304T1');
  expect(await take(calendar([moved]))).toMatchObject({ changed: 1, added: 0 });
  expect((await booked()).map(({ day, state }) => [day, state])).toEqual([
    ['2026-03-04', 'booked'],
  ]);
  expect(await take(calendar([ada]))).toMatchObject({ older: 1, changed: 0 });
  expect((await booked())[0]?.day).toBe('2026-03-04');
  const off = moved.replace('SEQUENCE:2', 'SEQUENCE:3\r\nSTATUS:CANCELLED');
  expect(await take(calendar([off]))).toMatchObject({ calledOff: 1, added: 0 });
  expect((await booked())[0]?.state).toBe('called off');
});

test('of a series one time is moved, one taken out; a cancelling file ends the rest', async () => {
  await take(calendar([weekly]));
  const change = [
    'UID:ines-1@diary.example',
    'RECURRENCE-ID;TZID=Europe/Lisbon:20260310T150000',
    'DTSTART;TZID=Europe/Lisbon:20260311T160000',
    'SUMMARY:Ines Maria Vale - Gloss',
  ].join('\r\n');
  const without = `${weekly}\r\nEXDATE;TZID=Europe/Lisbon:20260317T150000`;
  expect(await take(calendar([without, change]))).toMatchObject({
    ...{ found: 4, changed: 1, same: 3, calledOff: 1, added: 0 },
  });
  const items = await booked();
  expect(items.map(({ day, state }) => `${day} ${state}`)).toEqual([
    ...['2026-03-03 booked', '2026-03-11 booked', '2026-03-17 called off'],
    ...['2026-03-24 booked', '2026-03-31 booked'],
  ]);
  expect(items[1]?.services).toEqual([{ serviceId: gloss, name: 'Gloss' }]);
  await take(calendar(['UID:ines-1@diary.example'], 'METHOD:CANCEL'));
  expect((await booked()).map(({ state }) => state)).toEqual(Array(5).fill('called off'));
});

test('a file that is the whole diary calls off what is missing, and tells so first', async () => {
  await take(calendar([ada, weekly]));
  const tried = await take(calendar([ada]), '?whole=true&dry=true');
  expect(tried).toMatchObject({ calledOff: 5, same: 1, dry: true });
  expect((await booked()).filter(({ state }) => state === 'booked')).toHaveLength(6);
  await take(calendar([ada]), '?whole=true');
  expect((await booked()).filter(({ state }) => state === 'booked')).toHaveLength(1);
  // Another diary of the studio is not touched by it.
  await take(calendar([weekly]), '?whole=true&diary=chair%202');
  expect((await booked()).filter(({ state }) => state === 'booked')).toHaveLength(6);
});

test('a table is read the same way, as it is sent', async () => {
  const table = [
    'start;what;who;id;state',
    '2026-03-05 10:00;Half head of lights;Ada Brook;17;',
    '"2026-03-05T11:30:00+00:00";Gloss;;18;',
    '2026-03-06;Gloss;Bo;19;cancelled',
  ].join('\r\n');
  const answer = await studio.manager.ask<ImportedBookingsView>(
    ...(['POST', '/bookings/import', table, { 'content-type': 'text/csv' }] as const),
  );
  expect(answer.body).toMatchObject({ found: 3, added: 2 });
  expect(await take(table)).toMatchObject({ added: 0, same: 2 });
  const items = await booked();
  expect(items.map(({ startsAt, who }) => [startsAt, who])).toEqual([
    ['2026-03-05T10:00:00.000Z', 'Ada B.'],
    ['2026-03-05T11:30:00.000Z', null],
  ]);
});

test('a damaged file is refused with its line, and nothing of it is taken over', async () => {
  const cut = calendar([ada, weekly]).split('\r\n').slice(0, -3).join('\r\n');
  const said = await studio.manager.refused('POST', '/bookings/import', { text: cut });
  expect(said.detail).toMatch(/^Line 12: VEVENT begins here and never ends/);
  const wrong = 'start,what\n2026-03-05 10:00,Gloss\nTuesday,Gloss\n';
  const table = await studio.manager.refused('POST', '/bookings/import', { text: wrong });
  expect(table.detail).toBe(
    'Line 3: “Tuesday” is no time; write it as 2026-03-05 10:00. ' +
      'Nothing of the file was taken over.',
  );
  expect(await booked()).toEqual([]);
  const stylist = await studio.stylist.refused('POST', '/bookings/import', { text: wrong });
  expect(stylist.status).toBe(403);
});

test('words that mean no service yet are listed, and mean it from one rule on', async () => {
  const lunch = 'UID:lunch\r\nDTSTART:20260302T120000Z\r\nSUMMARY:Mia - Lunch';
  await take(calendar([weekly, lunch]));
  const before = await studio.manager.get<BookingRulesView>('/booking-rules');
  expect(before.words).toMatchObject([
    { what: 'Root retouch', bookings: 5, upcoming: 5, services: [], notAVisit: false },
    { what: 'Lunch', bookings: 1, upcoming: 1, services: [], notAVisit: false },
  ]);
  const rules = [
    { words: 'Retouch', serviceIds: [lights, gloss] },
    { words: 'lunch', serviceIds: [] },
  ];
  const tried = await studio.manager.put<BookingRulesView>('/booking-rules?dry=true', { rules });
  expect(tried.words[0]?.services.map(({ name }) => name)).toEqual([
    ...['Half head of lights', 'Gloss'],
  ]);
  expect((await studio.manager.get<BookingRulesView>('/booking-rules')).rules).toEqual([]);
  await studio.manager.put('/booking-rules', { rules });
  const items = await booked();
  expect(items).toHaveLength(5);
  expect(items[0]?.services.map(({ serviceId }) => serviceId)).toEqual([lights, gloss]);
  const twice = [rules[0], { words: 'rétouch', serviceIds: [] }];
  const said = await studio.manager.refused('PUT', '/booking-rules', { rules: twice });
  expect(said.errors[0]).toMatchObject({ pointer: '/rules/1/words', code: 'words_twice' });
});

test('the bench sees who comes today, and begins the visit with its services', async () => {
  await take(calendar([ada, weekly]));
  const today = await studio.bench.get<{ items: BookingView[] }>(
    '/bookings?from=2026-03-01&to=2026-06-01',
  );
  expect(today.items.map(({ who, state }) => [who, state])).toEqual([['Ada B.', 'booked']]);
  const id = today.items[0]?.id ?? '';
  const now = '2026-03-02T09:00:00.000Z';
  const body = { id: '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d99', startedAt: now, sentAt: now };
  const begun = await studio.bench.post<{ visitId: string }>(`/bookings/${id}/visit`, body);
  expect(begun.visitId).toBe(body.id);
  expect(await studio.bench.post(`/bookings/${id}/visit`, body)).toEqual(begun);
  const visit = await studio.bench.get<VisitView>(`/visits/${begun.visitId}`);
  expect(visit.services.map(({ name }) => name)).toEqual(['Half head of lights', 'Gloss']);
  const [here] = (await studio.bench.get<{ items: BookingView[] }>('/bookings')).items;
  expect(here).toMatchObject({ state: 'here', visitId: begun.visitId });
  const twice = await studio.bench.refused('POST', `/bookings/${id}/visit`, { startedAt: now });
  expect(twice).toMatchObject({ status: 409, facts: { visitId: begun.visitId } });
  // Nothing that the diary says later calls off who is here.
  await take(calendar([]), '?whole=true');
  expect((await booked())[0]?.state).toBe('here');
});
