/** What reads the past goes through the services, one by one, as it would over HTTP. */
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { deviceTimes } from '../src/platform/clock.js';
import { NestedOnce } from '../src/platform/database/once-nested.js';
import type { Transaction } from '../src/platform/database/transaction.js';
import { readRequest } from '../src/platform/http/request-pipe.js';
import { BowlEventsService } from '../src/studio/bowls/bowl-events.service.js';
import {
  OtherProductRequest,
  RecordRequest,
  ReversalRequest,
  SettlementRequest,
} from '../src/studio/bowls/bowls.requests.js';
import { BowlsService } from '../src/studio/bowls/bowls.service.js';
import { nestedOf, RecordingService } from '../src/studio/bowls/recording.service.js';
import { CountsService } from '../src/studio/stock/counts.service.js';
import type { StockActing } from '../src/studio/stock/entries.js';
import { ReceivingService } from '../src/studio/stock/receiving.service.js';
import {
  CountRequest,
  DeliveryRequest,
  OpeningRequest,
} from '../src/studio/stock/stock.requests.js';
import type { RecordedBody, Slow } from './happenings.js';

/** Does one such thing. */
export async function happen(
  tx: Transaction,
  app: NestFastifyApplication,
  happening: Slow,
  benchId: string,
): Promise<void> {
  const { at, personId } = happening;
  const by: StockActing = {
    ...{ personId, benchId, recordedAt: at, money: true, ownOnly: false },
    when: deviceTimes(undefined, at),
  };
  switch (happening.what) {
    case 'the shelf is opened': {
      const { id, lines } = happening;
      const request = readRequest(OpeningRequest, { id, lines });
      await app.get(ReceivingService).open(tx, request, by);
      return;
    }
    case 'the shelf is counted': {
      const { id, lines } = happening;
      const request = readRequest(CountRequest, { id, countedAt: at, lines });
      await app.get(CountsService).count(tx, request, by);
      return;
    }
    case 'a delivery comes late':
      await app.get(ReceivingService).deliver(tx, readRequest(DeliveryRequest, happening.body), by);
      return;
    case 'a bowl comes late':
      await comesLate(tx, app, happening.body, by);
      return;
    case 'a settlement is mended': {
      const { bowlId, anew } = happening;
      const events = app.get(BowlEventsService);
      await events.reverse(tx, bowlId, readRequest(ReversalRequest, {}), by);
      const request = readRequest(SettlementRequest, anew);
      await app.get(BowlsService).settle(tx, bowlId, request, anew.settledAt, by);
      return;
    }
    case 'a pour was another product': {
      const { id, bowlId, pourId, productId } = happening;
      const request = readRequest(OtherProductRequest, { id, pourId, productId });
      await app.get(BowlEventsService).otherProduct(tx, bowlId, request, by);
    }
  }
}

async function comesLate(
  tx: Transaction,
  app: NestFastifyApplication,
  body: RecordedBody,
  by: StockActing,
): Promise<void> {
  const request = readRequest(RecordRequest, body);
  const looked = NestedOnce.look(tx, nestedOf(request));
  await app.get(RecordingService).record(tx, request, by.when, by, looked);
}
