/** Closing a visit over HTTP. */
import { Body, Controller, HttpCode, Inject, Post } from '@nestjs/common';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { ClosingService } from './closing.service.js';
import { closedVisitExample, closedVisitShape } from './pricing.examples.js';
import { ClosingRequest } from './pricing.requests.js';

@Tag('visits')
@Controller('api/v1/visits')
export class ClosingController {
  constructor(
    @Inject(ClosingService) private readonly closing: ClosingService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post(':id/close')
  @HttpCode(200)
  @Right('stylist')
  @Call({
    summary: 'A visit is closed: bowls, what was used, what was paid; to the till',
    example: closedVisitExample,
    ...closedVisitShape,
  })
  close(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: ClosingRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    const recordedAt = this.clock.now();
    const by = { caller, recordedAt, when: deviceTimes(request.sentAt, recordedAt) };
    return this.once.answer(
      caller.studioId,
      `POST /visits/${id}/close`,
      request,
      (tx) => this.closing.close(tx, id, request, by),
      { dry },
    );
  }
}
