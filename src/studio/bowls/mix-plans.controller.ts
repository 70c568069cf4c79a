/** Mix plans over HTTP: pure, nothing is stored. */
import { Body, Controller, HttpCode, Inject, Post } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { acting } from './acting.js';
import { planExample } from './bowls.examples.js';
import { BowlsService } from './bowls.service.js';
import { MixPlanRequest } from './mix-plan.requests.js';

@Tag('bowls')
@Controller('api/v1/mix-plans')
@Right('bench')
export class MixPlansController {
  constructor(
    @Inject(BowlsService) private readonly bowls: BowlsService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post()
  @HttpCode(200)
  @Call({
    summary: 'What to pour for a ratio, a strength and a size; nothing is stored',
    example: planExample,
    optional: ['/strength', '/cost', '/noCost', '/pours/millilitres'],
  })
  plan(@By() caller: Caller, @Body() request: MixPlanRequest) {
    const by = acting(caller, this.clock.now());
    return this.once.answer(caller.studioId, 'POST /mix-plans', {}, (tx) =>
      this.bowls.plan(tx, request, by),
    );
  }
}
