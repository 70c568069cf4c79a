/** The service that is measured, in a process of its own, with one more route: the bare bowl. */
import 'reflect-metadata';
import { Body, Controller, HttpCode, Inject, Module, Post } from '@nestjs/common';
import pino from 'pino';
import { DataSource } from 'typeorm';
import { AppModule } from '../../src/app.module.js';
import { SystemClock } from '../../src/platform/clock.js';
import { openDataSource } from '../../src/platform/database/data-source.js';
import type { Connection } from '../../src/platform/database/embedded.js';
import { inTransaction, prepared } from '../../src/platform/database/transaction.js';
import { By } from '../../src/platform/http/right-guard.js';
import { Right, type Caller } from '../../src/platform/http/rights.js';
import { openServer } from '../../src/platform/http/server.js';
import { readSettings } from '../../src/platform/settings.js';
import { entities } from '../../src/schema.js';
import { RecordRequest } from '../../src/studio/bowls/bowls.requests.js';
import { BenchesService } from '../../src/studio/people/benches.service.js';

const bareBowl = prepared('select bare_bowl($1, $2, $3, $4)');

/** The framework's validated POST with the bare function behind it. */
@Controller('bare-bowls')
@Right('bench')
class BareController {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  @Post()
  @HttpCode(201)
  async record(@By() caller: Caller, @Body() request: RecordRequest): Promise<{ id: string }> {
    const id = request.bowl.id as string;
    const products = request.pours.map((pour) => pour.productId);
    const quantities = request.pours.map((pour) => pour.quantity.toFixed());
    await inTransaction(this.dataSource, caller.studioId, (tx) =>
      tx.finish(bareBowl, [id, products, quantities, '0.1']),
    );
    return { id };
  }
}

@Module({})
class MeasuredModule {}

const connection = JSON.parse(process.env['BENCH_CONNECTION'] ?? '') as Connection;
const dataSource = await openDataSource(connection, { asService: true, entities, size: 16 });
const log = pino({ level: 'silent' });
const parts = { dataSource, clock: new SystemClock(), settings: readSettings({}), log };
const app = await openServer(
  {
    module: MeasuredModule,
    imports: [AppModule.of(parts)],
    controllers: [BareController],
  },
  { log },
);
await app.listen(0, '127.0.0.1');
const { token } = await app
  .get(BenchesService, { strict: false })
  .makeToken(process.env['BENCH_STUDIO'] ?? '', { name: 'bench', role: 'owner' });
process.send?.({ url: await app.getUrl(), token });
process.on('SIGTERM', () => {
  void app.close().then(() => process.exit(0));
});
