/** A studio over HTTP for stories: the real service, a database of its own, a clock to set. */
import { randomUUID } from 'node:crypto';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import pino from 'pino';
import { AppModule } from '../../src/app.module.js';
import { Clock, millisOf } from '../../src/platform/clock.js';
import { Tablets } from '../../src/platform/https/trust-files.js';
import { openServer } from '../../src/platform/http/server.js';
import type { Role } from '../../src/platform/http/rights.js';
import { readSettings } from '../../src/platform/settings.js';
import { BenchesService } from '../../src/studio/people/benches.service.js';
import { StudioService, type NewStudio } from '../../src/studio/people/studio.service.js';
import { Client } from './client.js';
import { Description } from './described.js';
import { testDatabase, type TestDatabase } from './database.js';

/** A clock that stands still until it is set. */
export class TestClock extends Clock {
  private at = millisOf('2026-03-02T09:00:00Z');

  override millis(): number {
    return this.at;
  }

  /** Sets it to an instant (RFC 3339). */
  set(instant: string): void {
    this.at = millisOf(instant);
  }

  /** Lets time pass. */
  pass(time: { seconds?: number; minutes?: number; hours?: number; days?: number }): void {
    const { seconds = 0, minutes = 0, hours = 0, days = 0 } = time;
    this.at += (((days * 24 + hours) * 60 + minutes) * 60 + seconds) * 1000;
  }
}

/** The service on a database of its own; several studios may live in it. */
export interface TestService {
  readonly app: NestFastifyApplication;
  readonly clock: TestClock;
  readonly database: TestDatabase;
  /** How tablets come in over https: see `openTabletDoor` in tablet-door.ts. */
  readonly tablets: Tablets;
  /** A client without any credential. */
  readonly nobody: Client;
  /** Opens one more studio. */
  studio(facts?: Partial<NewStudio>): Promise<TestStudio>;
  close(): Promise<void>;
}

/** One studio and who may ask in it. */
export interface TestStudio {
  readonly service: TestService;
  readonly id: string;
  readonly clock: TestClock;
  readonly owner: Client;
  readonly manager: Client;
  readonly stylist: Client;
  /** The device at the bench, nobody signed in. */
  readonly bench: Client;
  /** Recomputes every invariant of the ledger; a breach fails the test. */
  audit(): Promise<void>;
  close(): Promise<void>;
}

/** The service, without any studio in it. */
export async function aService(options: { page?: string } = {}): Promise<TestService> {
  const database = await testDatabase({ size: 6 });
  const clock = new TestClock();
  const log = pino({ level: 'silent' });
  const settings = readSettings({});
  const parts = { dataSource: database.dataSource, clock, settings, log };
  const tablets = new Tablets();
  const app = await openServer(AppModule.of(parts), { log, tablets, ...options });
  await app.listen(0, '127.0.0.1');
  const origin = await app.getUrl();
  const service: TestService = {
    app,
    clock,
    database,
    tablets,
    nobody: new Client(origin, undefined, new Description(origin)),
    studio: (facts) => openStudio(service, facts ?? {}),
    close: async () => {
      await app.close();
      await database.close();
    },
  };
  return service;
}

/** The service with one studio, Saltmarsh Row. Close it in `afterAll`. */
export async function aStudio(facts: Partial<NewStudio> = {}): Promise<TestStudio> {
  return (await aService()).studio(facts);
}

async function openStudio(service: TestService, facts: Partial<NewStudio>): Promise<TestStudio> {
  const id = randomUUID();
  await service.app.get(StudioService).open({
    id,
    name: 'Saltmarsh Row',
    currency: 'EUR',
    timeZone: 'Europe/Lisbon',
    country: 'PT',
    ...facts,
  });
  const as = async (role: Role) => {
    const made = await service.app.get(BenchesService).makeToken(id, { name: role, role });
    return service.nobody.with(made.token);
  };
  const owner = await as('owner');
  return {
    service,
    id,
    clock: service.clock,
    owner,
    manager: await as('manager'),
    stylist: await as('stylist'),
    bench: await as('bench'),
    audit: async () => {
      const report = await owner.get<{ ok: boolean }>('/audit');
      if (!report.ok) throw new Error(`The audit found: ${JSON.stringify(report, null, 2)}`);
    },
    close: () => service.close(),
  };
}
