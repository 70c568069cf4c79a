/** Closed days over HTTP. */
import { Body, Controller, Delete, Get, HttpCode, Inject, Post } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { closureExample, importedClosuresExample } from './bookings.examples.js';
import { ClosureRequest, FileRequest } from './bookings.requests.js';
import { ClosuresService } from './closures.service.js';

@Tag('bookings')
@Controller('api/v1/closures')
@Right('manager')
export class ClosuresController {
  constructor(
    @Inject(ClosuresService) private readonly closures: ClosuresService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get()
  @Call({ summary: 'Closed days, the earliest first', example: { items: [closureExample] } })
  async list(@By() caller: Caller) {
    return { items: await this.closures.list(caller.studioId) };
  }

  @Post()
  @Call({ summary: 'The studio is closed on these days', status: 201, example: closureExample })
  add(@By() caller: Caller, @Body() request: ClosureRequest) {
    return this.once.answer(caller.studioId, 'POST /closures', request, (tx) =>
      this.closures.add(tx, request, this.clock.now()),
    );
  }

  @Post('import')
  @HttpCode(200)
  @Call({
    summary: 'A calendar of holidays is taken over: every event of it is a closed day',
    example: importedClosuresExample,
    optional: ['/dry'],
  })
  import(@By() caller: Caller, @Body() { text }: FileRequest, @DryRun() { dry }: DryRequest) {
    return this.closures.take(caller.studioId, text, { now: this.clock.now(), dry });
  }

  @Delete(':id')
  @HttpCode(204)
  @Call({ summary: 'The studio is open on these days after all', status: 204 })
  drop(@By() caller: Caller, @PathId() id: string) {
    return this.closures.drop(caller.studioId, id, this.clock.now());
  }
}
