/** What arrives, over HTTP: openings, deliveries, the lots that came of them. */
import { Body, Controller, Get, Inject, Post, Query } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { actingOn } from './entries.js';
import { ReceivingService } from './receiving.service.js';
import { DeliveryListRequest, LotListRequest } from './reports.requests.js';
import { arrivalExample, deliveryExample, lotExample } from './stock.examples.js';
import { StockListsService } from './stock-lists.service.js';
import { DeliveryRequest, OpeningRequest } from './stock.requests.js';

const arrived = {
  status: 201,
  example: arrivalExample,
  nullable: ['/lots/expiresOn', '/lots/lotCode'],
  optional: ['/dry'],
};
const deliveryNulls = [
  ...['supplierId', 'orderId', 'orderedOn', 'invoiceNo'].map((name) => `/${name}`),
  ...['packLabel', 'packs', 'freePacks', 'packPrice', 'expiresOn'].map((name) => `/lines/${name}`),
];

@Tag('shelf')
@Controller('api/v1')
export class ReceivingController {
  constructor(
    @Inject(ReceivingService) private readonly receiving: ReceivingService,
    @Inject(StockListsService) private readonly lists: StockListsService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post('openings')
  @Right('manager')
  @Call({ summary: 'What is on the shelf on the first day', ...arrived })
  open(@By() caller: Caller, @Body() request: OpeningRequest, @DryRun() { dry }: DryRequest) {
    const by = actingOn(caller, this.clock.now(), request.sentAt);
    return this.once.answer(
      caller.studioId,
      'POST /openings',
      request,
      (tx) => this.receiving.open(tx, request, by),
      { dry },
    );
  }

  @Post('deliveries')
  @Right('manager')
  @Call({ summary: 'A delivery, its cost with freight, discount and tax', ...arrived })
  deliver(@By() caller: Caller, @Body() request: DeliveryRequest, @DryRun() { dry }: DryRequest) {
    const by = actingOn(caller, this.clock.now(), request.sentAt);
    return this.once.answer(
      caller.studioId,
      'POST /deliveries',
      request,
      (tx) => this.receiving.deliver(tx, request, by),
      { dry },
    );
  }

  @Get('deliveries')
  @Right('manager')
  @Call({
    summary: 'Deliveries, newest first',
    example: { items: [deliveryExample], next: 'WyIyMDI2LTAzLTAyIl0' },
    nullable: ['/next', ...deliveryNulls.map((pointer) => `/items${pointer}`)],
  })
  deliveries(@By() caller: Caller, @Query() request: DeliveryListRequest) {
    return this.lists.deliveries(caller.studioId, request);
  }

  @Get('deliveries/:id')
  @Right('manager')
  @Call({ summary: 'One delivery', example: deliveryExample, nullable: deliveryNulls })
  delivery(@By() caller: Caller, @PathId() id: string) {
    return this.lists.delivery(caller.studioId, id);
  }

  @Get('lots')
  @Right('bench')
  @Call({
    summary: 'What is left of each lot, newest first',
    example: { items: [lotExample], next: 'WyIyMDI2LTAzLTAyIl0' },
    nullable: ['/next', '/items/expiresOn', '/items/lotCode', '/items/value'],
    optional: ['/items/cost', '/items/value'],
  })
  lots(@By() caller: Caller, @Query() request: LotListRequest) {
    return this.lists.lots(caller.studioId, request, actingOn(caller, this.clock.now()));
  }
}
