/** Past the quote, over HTTP. */
import { Controller, Get, Inject, Query } from '@nestjs/common';
import { zero, type Decimal } from '../../../shared/decimal.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { DecimalNumber } from '../../platform/http/fields.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { PastTheQuoteService } from './past-the-quote.service.js';

export class PastTheQuoteRequest {
  @DecimalNumber({
    optional: true,
    min: '0',
    max: '20000',
    description: 'Grams that are planned beyond what is mixed.',
    example: '55',
  })
  more: Decimal = zero;
}

@Tag('visits')
@Controller('api/v1/visits')
@Right('bench')
export class PastTheQuoteController {
  constructor(@Inject(PastTheQuoteService) private readonly quotes: PastTheQuoteService) {}

  @Get(':id/past-the-quote')
  @Call({
    summary: 'Whether the grams mixed pass the 90 % point that was quoted; no amounts',
    example: { past: true },
  })
  look(@By() caller: Caller, @PathId() id: string, @Query() request: PastTheQuoteRequest) {
    return this.quotes.look(caller, id, request.more);
  }
}
