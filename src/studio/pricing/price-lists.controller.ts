/** Price lists of suppliers over HTTP. */
import { Body, Controller, Get, HttpCode, Inject, Post } from '@nestjs/common';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import {
  acceptedExample,
  acceptedShape,
  effectExample,
  effectShape,
  historyExample,
  historyShape,
} from './price-lists.examples.js';
import { AcceptedPricesRequest, PriceEffectRequest } from './price-lists.requests.js';
import { PriceListsService } from './price-lists.service.js';

@Tag('pricing')
@Controller('api/v1')
@Right('manager')
export class PriceListsController {
  constructor(
    @Inject(PriceListsService) private readonly lists: PriceListsService,
    @Inject(Once) private readonly once: Once,
  ) {}

  @Post('price-lists/effect')
  @HttpCode(200)
  @Call({
    summary: 'What a supplier’s new prices would do to every service; nothing is stored',
    example: effectExample,
    ...effectShape,
  })
  effect(@By() caller: Caller, @Body() request: PriceEffectRequest) {
    return this.lists.effect(caller, request);
  }

  @Post('price-lists')
  @Call({
    summary: 'New list prices are taken over, with the day since which they hold',
    status: 201,
    example: acceptedExample,
    ...acceptedShape,
  })
  accept(
    @By() caller: Caller,
    @Body() request: AcceptedPricesRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.once.answer(
      caller.studioId,
      'POST /price-lists',
      request,
      (tx) => this.lists.accept(tx, request),
      { dry },
    );
  }

  @Get('products/:id/prices')
  @Call({
    summary: 'What the packs of a product cost by the list, and since when',
    example: historyExample,
    ...historyShape,
  })
  history(@By() caller: Caller, @PathId() id: string) {
    return this.lists.history(caller, id);
  }
}
