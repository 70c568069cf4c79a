/** The daily check of a scale, over HTTP. */
import { Body, Controller, Get, Inject, Post } from '@nestjs/common';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { scaleCheckExample } from './scales.examples.js';
import { ScaleCheckRequest } from './scale-checks.requests.js';
import { ScaleChecksService } from './scale-checks.service.js';

const nulls = ['/benchId', '/before', '/difference'];

@Tag('scales')
@Controller('api/v1/scale-checks')
@Right('bench')
export class ScaleChecksController {
  constructor(
    @Inject(ScaleChecksService) private readonly checks: ScaleChecksService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get()
  @Call({
    summary: 'Checks of scales, the newest first; at a bench its own',
    example: { rows: [scaleCheckExample] },
    nullable: nulls.map((pointer) => `/rows${pointer}`),
  })
  list(@By() caller: Caller) {
    return this.checks.list(caller);
  }

  @Post()
  @Call({
    summary: 'What weighs the same every day was weighed',
    status: 201,
    example: scaleCheckExample,
    nullable: nulls,
  })
  check(@By() caller: Caller, @Body() request: ScaleCheckRequest) {
    const recordedAt = this.clock.now();
    const { at } = deviceTimes(request.sentAt, recordedAt)(request.at);
    return this.once.answer(caller.studioId, 'POST /scale-checks', request, (tx) =>
      this.checks.check(tx, request, { caller, at, recordedAt }),
    );
  }
}
