/** Sensitivity tests of clients: placed, read, seen by those who may. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { SensitivityTestView } from '../../../shared/contract/clients.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock, millisOf } from '../../platform/clock.js';
import { Once, type Answered } from '../../platform/database/once.js';
import { forStudio, inTransaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { SENSITIVITY_TESTS } from './clients.queries.js';
import type { NewSensitivityTestRequest, SensitivityReadingRequest } from './clients.requests.js';
import { ClientsService, refuseForgotten } from './clients.service.js';
import { sensitivityTestView, type SensitivityTestRow } from './clients.views.js';
import { inWords } from './conflicts.js';
import { insertRows } from './records.queries.js';
import { SensitivityTestEntity } from './sensitivity-test.entity.js';

/** Kept with the request for ever, so it says nothing of anybody's health. */
interface NewTest {
  readonly id: string;
  readonly clientId: string;
}

@Injectable()
export class SensitivityTestsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(ClientsService) private readonly clients: ClientsService,
  ) {}

  /** @throws Problem `not_found`, `not_your_right` for another stylist's client */
  async list(caller: Caller, clientId: string): Promise<{ rows: SensitivityTestView[] }> {
    const reader = forStudio(this.dataSource, caller.studioId);
    await this.clients.visible(reader, caller, clientId);
    if (!(await this.clients.mayReadTests(reader, caller, clientId))) {
      throw new Problem('not_your_right', { needs: 'her own stylist, a manager or the owner' });
    }
    const tests = await reader.query<SensitivityTestRow>(SENSITIVITY_TESTS, [clientId]);
    return { rows: tests.map(sensitivityTestView) };
  }

  /**
   * @throws Problem `not_found`, `client_forgotten`, `result_without_reading`,
   *   `read_before_placed`, `not_happened_yet`
   */
  place(
    caller: Caller,
    clientId: string,
    request: NewSensitivityTestRequest,
  ): Promise<Answered<NewTest>> {
    const call = `POST /clients/${clientId}/sensitivity-tests`;
    return this.once.answer(caller.studioId, call, request, async (tx) => {
      refuseForgotten(await this.clients.visible(tx, caller, clientId));
      const { id = uuidv7(), line, placedAt, readAt = null, result = null } = request;
      this.checkTimes(placedAt, readAt);
      if (result !== null && readAt === null) {
        throw new Problem('result_without_reading', {}, '/readAt');
      }
      const personId = caller.personId ?? null;
      const test = { id, clientId, line, placedAt, readAt, result, personId };
      await inWords(insertRows(tx, SensitivityTestEntity, [test]), {
        sensitivity_test_pkey: () => new Problem('id_reused', { id }),
      });
      return { id, clientId };
    });
  }

  /** What the test showed. @throws Problem `not_found`, `read_before_placed`, `not_happened_yet` */
  read(
    caller: Caller,
    clientId: string,
    id: string,
    { readAt, result }: SensitivityReadingRequest,
  ): Promise<SensitivityTestView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const { studioId, manager } = tx;
      await this.clients.visible(tx, caller, clientId);
      const test = await manager.findOneBy(SensitivityTestEntity, { studioId, id, clientId });
      if (!test) throw new Problem('not_found', { what: 'sensitivity test', id });
      this.checkTimes(test.placedAt, readAt);
      await manager.update(SensitivityTestEntity, { studioId, id }, { readAt, result });
      const { line, placedAt } = test;
      return { id, clientId, line, placedAt, readAt, result };
    });
  }

  private checkTimes(placedAt: string, readAt: string | null): void {
    for (const [field, at] of Object.entries({ placedAt, readAt })) {
      if (at !== null && millisOf(at) > this.clock.millis() + toleratedSkew_ms) {
        throw new Problem('not_happened_yet', { field, at }, `/${field}`);
      }
    }
    if (readAt !== null && millisOf(readAt) < millisOf(placedAt)) {
      throw new Problem('read_before_placed', { placedAt, readAt }, '/readAt');
    }
  }
}

/** A device's clock may run ahead of ours by so much. */
const toleratedSkew_ms = 2 * 60_000;
