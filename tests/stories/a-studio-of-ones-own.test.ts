/** The first studio of one's own: opened from its computer or by a code, once, kept apart. */
import { randomUUID } from 'node:crypto';
import type { OpeningView, SessionView, StudioView } from '../../shared/contract/people.js';
import { OpeningService } from '../../src/studio/people/opening.service.js';
import { aService, type TestService } from '../support/studio.js';

let service: TestService;
beforeEach(async () => (service = await aService()));
afterEach(() => service.close());

const opening = (more: object = {}) => ({
  id: randomUUID(),
  name: 'Pebble Lane',
  country: 'PT',
  currency: 'EUR',
  timeZone: 'Europe/Lisbon',
  supplierPrices: { are: 'tax got back', taxRate: '0.23' },
  owner: { name: 'Marlow Teasel', pin: '2580' },
  ...more,
});
/** A browser of its own: it holds the cookies that it is given. */
const browser = () => service.nobody.with('');
const elsewhere = { 'x-forwarded-for': '192.0.2.7' };

test('opens, its owner signed in, this browser its bench, beside the invented one', async () => {
  const demo = await service.studio({ demo: true, name: 'Saltmarsh Row' });
  await demo.manager.post('/suppliers', { name: 'Harbour Wholesale' });
  const page = browser();
  expect(await page.get<OpeningView>('/opening')).toEqual({ possible: true, needsCode: false });
  const opened = await page.ask<SessionView>('POST', '/opening', opening());
  expect(opened.status).toBe(201);
  expect(opened.body).toMatchObject({
    studio: { name: 'Pebble Lane', currency: 'EUR', demo: false },
    role: 'owner',
    person: { name: 'Marlow Teasel' },
    bench: { name: 'Bench' },
  });
  expect(await page.get<StudioView>('/studio')).toMatchObject({
    country: 'PT',
    timeZone: 'Europe/Lisbon',
    supplierPrices: { are: 'tax got back', taxRate: '0.23' },
  });
  // neither sees anything of the other
  expect(await page.get('/suppliers')).toEqual({ items: [], next: null });
  const people = await demo.owner.get<{ items: unknown[] }>('/people');
  expect(people.items).toEqual([]);
  // signed out, the browser is still a bench of it, and the PIN opens it again
  await page.delete('/session');
  expect(await page.get<SessionView>('/session')).toMatchObject({ role: 'bench', person: null });
  const { id: personId } = opened.body.person ?? { id: '' };
  await page.post('/session', { personId, pin: '2580' });
});

test('opens once: a second try is told so, the same request again signs in again', async () => {
  const request = opening();
  const first = await browser().post<SessionView>('/opening', request);
  const second = browser();
  expect(await second.get<OpeningView>('/opening')).toMatchObject({ possible: false });
  expect(await second.refused('POST', '/opening', opening())).toMatchObject({
    status: 409,
    type: '/problems/studio_is_open',
  });
  const again = browser();
  const signedIn = await again.post<SessionView>('/opening', request);
  expect(signedIn.studio.id).toBe(first.studio.id);
  expect(signedIn.person).toEqual(first.person);
  expect(await again.get<SessionView>('/session')).toMatchObject({ role: 'owner' });
  const guessed = { ...request, owner: { name: 'Marlow Teasel', pin: '0000' } };
  expect(await browser().refused('POST', '/opening', guessed)).toMatchObject({
    type: '/problems/wrong_pin',
  });
});

test('two who open at the same moment: one does, the other is told', async () => {
  const answers = await Promise.all(
    [1, 2, 3, 4].map(() => browser().ask('POST', '/opening', opening())),
  );
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409]);
});

test('from another device it takes the code of this start', async () => {
  const { code } = service.app.get(OpeningService);
  expect(code.text).toMatch(/^[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{4}$/);
  const page = browser();
  const ask = (given?: string) =>
    page.ask<{ type: string }>('POST', '/opening', opening({ code: given }), elsewhere);
  const shown = await page.ask<OpeningView>('GET', '/opening', undefined, elsewhere);
  expect(shown.body).toEqual({ possible: true, needsCode: true });
  expect((await ask()).body.type).toBe('/problems/wrong_opening_code');
  expect((await ask('AAAA-AAAA')).body.type).toBe('/problems/wrong_opening_code');
  expect((await ask(code.text.toLowerCase().replace('-', ' '))).status).toBe(201);
});

test('five wrong codes spend it', async () => {
  const { code } = service.app.get(OpeningService);
  const ask = (given: string) =>
    browser().ask<{ facts: object }>('POST', '/opening', opening({ code: given }), elsewhere);
  for (const triesLeft of [4, 3, 2, 1, 0]) {
    expect((await ask('AAAA-AAAA')).body.facts).toEqual({ triesLeft });
  }
  expect((await ask(code.text)).status).toBe(401);
});

test('a page of another name that was led to this computer is a stranger', async () => {
  const { port } = new URL(await service.app.getUrl());
  const { request } = await import('node:http');
  const body = await new Promise<string>((done, failed) => {
    const headers = { host: 'far.example' };
    request({ host: '127.0.0.1', port, path: '/api/v1/opening', headers }, (answer) => {
      answer.setEncoding('utf8').on('data', done);
    })
      .on('error', failed)
      .end();
  });
  expect(JSON.parse(body)).toEqual({ possible: true, needsCode: true });
});

test.each([
  ['/name', { name: '' }, 'too_short'],
  ['/currency', { currency: 'euro' }, 'unknown_currency'],
  ['/timeZone', { timeZone: 'Lisbon-ish/?' }, 'unknown_time_zone'],
  ['/owner/pin', { owner: { name: 'Marlow Teasel', pin: '12' } }, 'not_a_pin'],
  ['/supplierPrices/taxRate', { supplierPrices: { are: 'tax got back' } }, 'tax_rate_needed'],
])('names the field that is wrong: %s', async (pointer, more, code) => {
  const problem = await browser().refused('POST', '/opening', opening(more));
  expect(problem.errors).toMatchObject([{ pointer, code }]);
  expect(await browser().get<OpeningView>('/opening')).toMatchObject({ possible: true });
});

test('what supplier prices are can be said later, and another rate', async () => {
  const studio = await service.studio();
  expect(await studio.owner.get<StudioView>('/studio')).toMatchObject({ supplierPrices: null });
  const kept = { supplierPrices: { are: 'tax kept', taxRate: '0.23' } };
  // a rate says nothing where the tax is part of the cost
  expect(await studio.owner.patch<StudioView>('/studio', kept)).toMatchObject({
    supplierPrices: { are: 'tax kept', taxRate: null },
  });
  expect(await studio.owner.patch<StudioView>('/studio', { name: 'Pier Yard' })).toMatchObject({
    name: 'Pier Yard',
    supplierPrices: { are: 'tax kept', taxRate: null },
  });
});
