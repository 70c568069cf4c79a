/** What cannot be read, and what is sent twice: told field by field, and stored at most once. */
import { Body, Controller, Get, Inject, Post, Query, type DynamicModule } from '@nestjs/common';
import { randomUUID } from 'node:crypto';
import pino from 'pino';
import type { Amount, StockUnit } from '../../shared/amount.js';
import { canonical, type Decimal } from '../../shared/decimal.js';
import { Problem } from '../../shared/problems/problem.js';
import { Once } from '../../src/platform/database/once.js';
import * as fields from '../../src/platform/http/fields.js';
import { PageRequest } from '../../src/platform/http/paging.js';
import { DryRequest, PostingRequest } from '../../src/platform/http/posting-request.js';
import { By } from '../../src/platform/http/right-guard.js';
import { Callers, Open, Right, type Caller } from '../../src/platform/http/rights.js';
import { openServer } from '../../src/platform/http/server.js';
import { PlatformModule } from '../../src/platform/platform.module.js';
import { readSettings } from '../../src/platform/settings.js';
import { Client } from '../support/client.js';
import { testDatabase, type TestDatabase } from '../support/database.js';
import { TestClock } from '../support/studio.js';

class LineRequest {
  @fields.Text({ max: 10 })
  name!: string;

  @fields.Quantity({ above: '0', units: ['g'] })
  size!: Amount<StockUnit>;
}

class TrialRequest extends PostingRequest {
  @fields.DecimalNumber({ min: '0', max: '100', places: 2 })
  share!: Decimal;

  @fields.Instant()
  at!: string;

  @fields.Day({ optional: true, nullable: true })
  day?: string | null;

  @fields.Parts(() => LineRequest, { max: 2 })
  lines!: LineRequest[];

  @fields.OneOf(['a', 'b'], { optional: true })
  kind: 'a' | 'b' = 'a';
}

@Right('stylist')
@Controller('api/v1/trials')
class TrialController {
  constructor(@Inject(Once) private readonly once: Once) {}

  @Post()
  post(@By() caller: Caller, @Body() request: TrialRequest, @Query() { dry }: DryRequest) {
    return this.once.answer(
      caller.studioId,
      'trials',
      request,
      async (tx) => {
        const id = request.id ?? randomUUID();
        await tx.execute(
          `insert into bench (studio_id, id, name) values (current_studio(), $1, 'trial')`,
          [id],
        );
        if (canonical(request.share) === '99') throw new Problem('not_found', { what: 'x', id });
        const { lines, share, ...others } = request;
        const sizes = lines.map((line) => line.size.toString());
        return { ...others, id, sizes, share: canonical(share) };
      },
      { dry },
    );
  }

  @Get()
  list(@Query() page: PageRequest) {
    return page;
  }

  @Get('fault')
  fault() {
    throw new TypeError('what only the log may say');
  }
}

@Controller('bare')
class BareController {
  @Get()
  bare() {
    return 'no right declared';
  }

  @Get('open')
  @Open()
  open() {
    return 'declared';
  }
}

const studioId = randomUUID();
class StylistAlways extends Callers {
  override find(): Promise<Caller> {
    const nobody = { personId: undefined, benchId: undefined };
    return Promise.resolve({ studioId, role: 'stylist', tokenId: studioId, name: 'x', ...nobody });
  }
}

let database: TestDatabase;
let client: Client;
let close: () => Promise<void>;

function moduleWith(controllers: DynamicModule['controllers']): DynamicModule {
  const log = pino({ level: 'silent' });
  const parts = { dataSource: database.dataSource, clock: new TestClock(), log };
  return {
    module: class Trial {},
    imports: [PlatformModule.of({ ...parts, settings: readSettings({}) })],
    global: true,
    controllers: controllers ?? [],
    providers: [{ provide: Callers, useClass: StylistAlways }],
    exports: [Callers],
  };
}

beforeAll(async () => {
  database = await testDatabase();
  await database.asOwner(
    `insert into studio (studio_id, name, currency, time_zone) values ($1, 'S', 'EUR', 'UTC')`,
    [studioId],
  );
  const app = await openServer(moduleWith([TrialController]), { log: pino({ level: 'silent' }) });
  await app.listen(0, '127.0.0.1');
  client = new Client(await app.getUrl());
  close = () => app.close();
});
afterAll(async () => {
  await close();
  await database.close();
});

const good = {
  share: '42.5',
  at: '2026-03-02T10:00:00+01:00',
  lines: [{ name: 'x', size: { quantity: 60.5, unit: 'g' } }],
};
const benches = async () => (await database.asOwner('select from bench')).length;

test('a good request is read: defaults, decimals, instants in UTC', async () => {
  expect(await client.post('/trials', good)).toMatchObject({
    share: '42.5',
    at: '2026-03-02T09:00:00.000Z',
    sizes: ['60.5 g'],
    kind: 'a',
  });
});

const bad: [string, unknown, string, string][] = [
  ['an unknown field', { ...good, shade: 7 }, '/shade', 'unknown_field'],
  [
    'an unknown field inside',
    { ...good, lines: [{ ...good.lines[0], x: 1 }] },
    '/lines/0/x',
    'unknown_field',
  ],
  ['a missing field', { ...good, share: undefined }, '/share', 'missing'],
  ['null where there must be something', { ...good, share: null }, '/share', 'not_a_decimal'],
  ['hexadecimal', { ...good, share: '0x10' }, '/share', 'not_a_decimal'],
  ['an exponent', { ...good, share: '1e1' }, '/share', 'not_a_decimal'],
  ['infinity', { ...good, share: 'Infinity' }, '/share', 'not_a_decimal'],
  ['underscores', { ...good, share: '1_0' }, '/share', 'not_a_decimal'],
  ['a number that is no decimal', { ...good, share: 1e-7 }, '/share', 'not_a_decimal'],
  ['a number of too many decimals', { ...good, share: 0.1 + 0.2 }, '/share', 'not_a_decimal'],
  ['too many decimals', { ...good, share: '1.001' }, '/share', 'too_many_decimals'],
  ['too much', { ...good, share: '100.01' }, '/share', 'too_large'],
  ['too little', { ...good, share: '-1' }, '/share', 'too_small'],
  ['a time without offset', { ...good, at: '2026-03-02T10:00:00' }, '/at', 'not_an_instant'],
  ['a day that is none', { ...good, day: '2026-02-30' }, '/day', 'not_a_day'],
  [
    'a unit of another kind',
    line({ size: { quantity: '1', unit: 'ml' } }),
    '/lines/0/size/unit',
    'unknown_unit',
  ],
  [
    'nothing of something',
    line({ size: { quantity: '0', unit: 'g' } }),
    '/lines/0/size/quantity',
    'too_small',
  ],
  ['a bare number for a quantity', line({ size: 60 }), '/lines/0/size', 'not_a_quantity'],
  ['text too long', line({ name: 'x'.repeat(11) }), '/lines/0/name', 'too_long'],
  ['blank text', line({ name: '  ' }), '/lines/0/name', 'too_short'],
  ['no lines', { ...good, lines: [] }, '/lines', 'too_few'],
  ['too many lines', { ...good, lines: Array(3).fill(good.lines[0]) }, '/lines', 'too_many'],
  ['no list', { ...good, lines: 'x' }, '/lines', 'not_a_list'],
  ['no object in a list', { ...good, lines: ['x'] }, '/lines/0', 'not_an_object'],
  ['an unknown word', { ...good, kind: 'c' }, '/kind', 'unknown_word'],
  ['an id that is none', { ...good, id: '7' }, '/id', 'not_an_id'],
];
function line(change: object) {
  return { ...good, lines: [{ ...good.lines[0], ...change }] };
}

test.each(bad)('%s is refused at its place', async (_, body, pointer, code) => {
  const before = await benches();
  const problem = await client.refused('POST', '/trials', body);
  expect(problem).toMatchObject({ type: '/problems/malformed_request', status: 400 });
  expect(problem.errors).toEqual([
    { pointer, code, detail: expect.stringMatching(/\.$/) as string },
  ]);
  expect(await benches()).toBe(before);
});

test('all errors are told at once', async () => {
  const problem = await client.refused('POST', '/trials', { share: 'x', lines: [{}], y: 1 });
  expect(problem.errors.map((error) => error.pointer).sort()).toEqual([
    ...['/at', '/lines/0/name', '/lines/0/size', '/share', '/y'],
  ]);
});

test('an empty body is told what is missing', async () => {
  const problem = await client.refused('POST', '/trials');
  expect(problem.errors.map((error) => error.pointer).sort()).toEqual(['/at', '/lines', '/share']);
});

const broken: [string, string, Record<string, string>, string, number][] = [
  ['broken JSON', '{"share": ', {}, 'broken_json', 400],
  ['a list instead of an object', '[]', {}, 'malformed_request', 400],
  ['a poisoned key', '{"__proto__": {"a": 1}}', {}, 'broken_json', 400],
  ['another content', 'a=1', { 'content-type': 'text/csv' }, 'not_json', 415],
  ['too much', `{"x": "${'x'.repeat(5_000_000)}"}`, {}, 'body_too_large', 413],
];
test.each(broken)('%s has an answer of its own', async (_, body, headers, code, status) => {
  const answer = await client.ask('POST', '/trials', body, headers);
  expect(answer.body).toMatchObject({ type: `/problems/${code}`, status });
  expect(answer.headers['content-type']).toContain('application/problem+json');
});

test('an address that is none, a page that is none', async () => {
  expect(await client.refused('GET', '/nowhere?x=1')).toMatchObject({
    type: '/problems/no_such_address',
    status: 404,
    detail: expect.stringContaining('GET /api/v1/nowhere.') as string,
  });
  const problem = await client.refused('GET', '/trials?limit=501&cursor=%7B&x=1');
  expect(problem.errors.map((error) => error.pointer).sort()).toEqual(['/cursor', '/limit', '/x']);
});

test('a fault of the program says its request’s id and nothing else', async () => {
  const answer = await client.ask('GET', '/trials/fault', undefined, {
    'x-request-id': 'mine-0001',
  });
  expect(answer.headers['x-request-id']).toBe('mine-0001');
  expect(answer.body).toMatchObject({
    type: '/problems/unexpected',
    status: 500,
    requestId: 'mine-0001',
  });
  expect(JSON.stringify(answer.body)).not.toContain('only the log');
});

test('a request with an id is answered once, whatever the order of its fields', async () => {
  const id = randomUUID();
  const before = await benches();
  const first = await client.ask('POST', '/trials', { id, ...good });
  expect(first.headers['replayed']).toBeUndefined();
  const { lines, ...others } = good;
  const again = await client.ask('POST', '/trials', {
    lines,
    ...{ ...others, share: 42.5, at: '2026-03-02T09:00:00Z', kind: 'a' },
    ...{ id, sentAt: '2026-03-05T09:00:00Z' },
  });
  expect(again.headers['replayed']).toBe('true');
  expect(again.status).toBe(first.status);
  expect(again.body).toEqual(first.body);
  expect(await benches()).toBe(before + 1);
  const other = await client.refused('POST', '/trials', { id, ...good, share: '42.6' });
  expect(other).toMatchObject({ type: '/problems/id_reused', status: 409, facts: { id } });
});

test('the same request from many at once is booked once', async () => {
  const id = randomUUID();
  const before = await benches();
  const answers = await Promise.all(
    Array.from({ length: 8 }, () => client.ask('POST', '/trials', { id, ...good })),
  );
  expect(new Set(answers.map((answer) => JSON.stringify(answer.body))).size).toBe(1);
  expect(answers.filter((answer) => answer.headers['replayed'] === undefined)).toHaveLength(1);
  expect(await benches()).toBe(before + 1);
});

test('a refused request leaves its id free', async () => {
  const id = randomUUID();
  const body = { id, ...good, share: '99' };
  expect((await client.refused('POST', '/trials', body)).status).toBe(404);
  expect((await client.ask('POST', '/trials', { ...body, share: '98' })).status).toBe(201);
});

test('a dry run answers and stores nothing', async () => {
  const id = randomUUID();
  const before = await benches();
  expect(await client.post('/trials?dry=true', { id, ...good })).toMatchObject({ id, dry: true });
  expect(await benches()).toBe(before);
  expect(
    (await client.ask('POST', '/trials', { id, ...good })).headers['replayed'],
  ).toBeUndefined();
});

test('a route without a declared right keeps the service from starting', async () => {
  await expect(
    openServer(moduleWith([BareController]), { log: pino({ level: 'silent' }) }),
  ).rejects.toThrow('These routes declare no right: BareController.bare.');
});
