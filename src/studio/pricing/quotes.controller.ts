/** Quotes over HTTP. */
import { Body, Controller, Get, Inject, Post, Query } from '@nestjs/common';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { clientQuoteExample, quoteExample, quoteShape } from './quotes.examples.js';
import { QuoteListRequest, QuoteRequest } from './quotes.requests.js';
import { QuotesService } from './quotes.service.js';

@Tag('pricing')
@Controller('api/v1/quotes')
@Right('stylist')
export class QuotesController {
  constructor(
    @Inject(QuotesService) private readonly quotes: QuotesService,
    @Inject(Once) private readonly once: Once,
  ) {}

  @Post()
  @Call({
    summary: 'A price from like visits at today’s prices; with dry=true nothing is kept',
    status: 201,
    example: quoteExample,
    ...quoteShape(),
  })
  give(@By() caller: Caller, @Body() request: QuoteRequest, @DryRun() { dry }: DryRequest) {
    return this.once.answer(
      caller.studioId,
      'POST /quotes',
      request,
      (tx) => this.quotes.give(tx, request, caller),
      { dry },
    );
  }

  @Get()
  @Call({
    summary: 'Quotes, the newest first',
    example: { items: [quoteExample], next: 'WyIxMiJd' },
    nullable: ['/next', ...quoteShape('/items').nullable],
    optional: quoteShape('/items').optional,
  })
  list(@By() caller: Caller, @Query() request: QuoteListRequest) {
    return this.quotes.list(caller, request);
  }

  @Get(':id')
  @Call({ summary: 'One quote', example: quoteExample, ...quoteShape() })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.quotes.show(caller, id);
  }

  @Get(':id/client')
  @Call({ summary: 'What a client may see of a quote', example: clientQuoteExample })
  forClient(@By() caller: Caller, @PathId() id: string) {
    return this.quotes.forClient(caller, id);
  }
}
