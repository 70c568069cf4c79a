/** Orders over HTTP: sent, listed, cancelled, and as a slip for the supplier. */
import {
  Body,
  Controller,
  Get,
  HttpCode,
  Inject,
  Post,
  Query,
  StreamableFile,
} from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { cursorValues, pageOf } from '../../platform/http/paging.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { CancelRequest, OrderListRequest, OrderRequest, SlipRequest } from './orders.requests.js';
import { OrdersService } from './orders.service.js';
import { slipCsv } from './orders.views.js';
import { orderSlip } from './order-slip.js';
import { orderExample, orderShape } from './purchasing.examples.js';

const one = { example: orderExample, ...orderShape('') };

@Tag('ordering')
@Controller('api/v1/orders')
@Right('manager')
export class OrdersController {
  constructor(
    @Inject(OrdersService) private readonly orders: OrdersService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post()
  @Call({ summary: 'An order that was sent to a supplier', status: 201, ...one })
  send(@By() caller: Caller, @Body() request: OrderRequest, @DryRun() { dry }: DryRequest) {
    return this.once.answer(
      caller.studioId,
      'POST /orders',
      request,
      (tx) => this.orders.send(tx, request, this.by(caller)),
      { dry },
    );
  }

  @Get()
  @Call({
    summary: 'Orders, newest first',
    example: { items: [orderExample], next: 'WyIxMiJd' },
    nullable: ['/next', ...orderShape('/items').nullable],
    optional: orderShape('/items').optional,
  })
  async list(@By() caller: Caller, @Query() request: OrderListRequest) {
    const rows = await this.orders.list(caller.studioId, request, cursorValues(request, 1));
    return pageOf(
      rows,
      request.limit,
      (row) => row.key,
      (row) => row.view,
    );
  }

  @Get(':id')
  @Call({ summary: 'One order, with what came of it', ...one })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.orders.show(caller.studioId, id);
  }

  @Get(':id/slip')
  @Call({
    summary: 'The order slip, as PDF or with format=csv as CSV',
    csv: 'order_code,product,pack,packs,pack_price,price\r\n',
    pdf: true,
  })
  async slip(@By() caller: Caller, @PathId() id: string, @Query() { format }: SlipRequest) {
    const order = await this.orders.show(caller.studioId, id);
    const disposition = `attachment; filename="order-${order.number}.${format}"`;
    if (format === 'csv') {
      const type = 'text/csv; charset=utf-8; header=present';
      return new StreamableFile(Buffer.from(slipCsv(order)), { type, disposition });
    }
    const slip = await orderSlip(order, await this.orders.studioName(caller.studioId));
    return new StreamableFile(slip, { type: 'application/pdf', disposition });
  }

  @Post(':id/cancel')
  @HttpCode(200)
  @Call({ summary: 'What has not come of an order is not awaited any more', ...one })
  cancel(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: CancelRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.once.answer(
      caller.studioId,
      `POST /orders/${id}/cancel`,
      request,
      (tx) => this.orders.cancel(tx, id, this.by(caller)),
      { dry },
    );
  }

  private by(caller: Caller) {
    return { personId: caller.personId ?? null, now: this.clock.now() };
  }
}
