/** Marks of demand over HTTP: out of stock, replaced. */
import { Body, Controller, Delete, Get, HttpCode, Inject, Post, Put, Query } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import {
  OutOfStockListRequest,
  OutOfStockRequest,
  ReplacesRequest,
} from './demand-marks.requests.js';
import { DemandMarksService } from './demand-marks.service.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
const outExample = {
  ...{ id, productId: id, name: 'Tide lightener', from: '2026-02-03', to: '2026-02-07' },
};
const replacedExample = {
  items: [
    { productId: id, name: 'Tide lightener', replacesId: id, replaces: 'Ebb', factor: '1.1' },
  ],
};

@Tag('ordering')
@Controller('api/v1')
@Right('manager')
export class DemandMarksController {
  constructor(
    @Inject(DemandMarksService) private readonly marks: DemandMarksService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get('out-of-stock')
  @Call({ summary: 'Days that were marked as without a product', example: { items: [outExample] } })
  async listOut(@By() caller: Caller, @Query() { productId }: OutOfStockListRequest) {
    return { items: await this.marks.outOfStock(caller.studioId, productId) };
  }

  @Post('out-of-stock')
  @Call({
    summary: 'There was none of a product on these days: their use is not known',
    status: 201,
    example: outExample,
  })
  markOut(@By() caller: Caller, @Body() request: OutOfStockRequest) {
    const by = { caller, now: this.clock.now() };
    return this.once.answer(caller.studioId, 'POST /out-of-stock', request, (tx) =>
      this.marks.markOut(tx, request, by),
    );
  }

  @Delete('out-of-stock/:id')
  @HttpCode(204)
  @Call({ summary: 'The product was there on these days after all', status: 204 })
  dropOut(@By() caller: Caller, @PathId() mark: string) {
    return this.marks.dropOut(caller.studioId, mark);
  }

  @Get('replacements')
  @Call({ summary: 'Which product replaced which', example: replacedExample })
  async listReplaced(@By() caller: Caller) {
    return { items: await this.marks.replaced(caller.studioId) };
  }

  @Put('products/:id/replaces')
  @Call({
    summary: 'A product replaces another one, whose use counts as its own; or none',
    example: replacedExample,
  })
  async setReplaced(
    @By() caller: Caller,
    @PathId() productId: string,
    @Body() request: ReplacesRequest,
  ) {
    return { items: await this.marks.setReplaced(caller.studioId, productId, request) };
  }
}
