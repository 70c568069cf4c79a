/** A service with one call of every kind of field, to try how requests are read and stored. */
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
import { Client } from './client.js';
import { testDatabase, type TestDatabase } from './database.js';
import { TestClock } from './studio.js';

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
export class BareController {
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

/** Whoever asks is a stylist of the one studio. */
class StylistAlways extends Callers {
  override find(): Promise<Caller> {
    const nobody = { personId: undefined, benchId: undefined };
    return Promise.resolve({ studioId, role: 'stylist', tokenId: studioId, name: 'x', ...nobody });
  }
}

/** The trial service, listening. */
export interface TrialService {
  readonly client: Client;
  readonly database: TestDatabase;
  /** How many rows its call has stored. */
  stored(): Promise<number>;
  /** Opens a second one with other controllers, not listening. */
  openWith(controllers: DynamicModule['controllers']): Promise<unknown>;
  close(): Promise<void>;
}

/** A request to POST /trials that can be read. */
export const good = {
  share: '42.5',
  at: '2026-03-02T10:00:00+01:00',
  lines: [{ name: 'x', size: { quantity: 60.5, unit: 'g' } }],
};

/** Opens it. Close it in `afterAll`. */
export async function aTrialService(): Promise<TrialService> {
  const database = await testDatabase();
  await database.asOwner(
    `insert into studio (studio_id, name, currency, time_zone) values ($1, 'S', 'EUR', 'UTC')`,
    [studioId],
  );
  const openWith = (controllers: DynamicModule['controllers']) =>
    openServer(moduleWith(database, controllers ?? []), { log: silent });
  const app = await openWith([TrialController]);
  await app.listen(0, '127.0.0.1');
  return {
    client: new Client(await app.getUrl()),
    database,
    stored: async () => (await database.asOwner('select from bench')).length,
    openWith,
    close: async () => {
      await app.close();
      await database.close();
    },
  };
}

const silent = pino({ level: 'silent' });

function moduleWith(
  { dataSource }: TestDatabase,
  controllers: NonNullable<DynamicModule['controllers']>,
): DynamicModule {
  const parts = { dataSource, clock: new TestClock(), log: silent, settings: readSettings({}) };
  return {
    module: class Trial {},
    imports: [PlatformModule.of(parts)],
    global: true,
    controllers,
    providers: [{ provide: Callers, useClass: StylistAlways }],
    exports: [Callers],
  };
}
