/** What is asked before a visit's first bowl, over HTTP. */
import { Body, Controller, Get, Inject, Post, Query } from '@nestjs/common';
import type { VisitAnswered, VisitCautionsView } from '../../../shared/contract/visits.js';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { VisitAnswersRequest, VisitCautionsRequest } from './visit-answers.requests.js';
import { VisitAnswersService } from './visit-answers.service.js';

const id = '0190a6e4-5b1c-7e2f-8a3d-2f6c1b9e4d70';
const answered: VisitAnswered = { id, visitId: id };
const called: VisitCautionsView = {
  asked: ['scalpSound', 'sensitivityTest'],
  cautions: [
    { code: 'scalp_not_sound', text: 'A sensitive scalp is noted.', manner: 'interrupts' },
  ],
};

@Tag('visits')
@Controller('api/v1/visits')
@Right('bench')
export class VisitAnswersController {
  constructor(
    @Inject(VisitAnswersService) private readonly answers: VisitAnswersService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get(':id/cautions')
  @Call({ summary: 'What the answers of a visit call for; not the answers', example: called })
  cautions(
    @By() caller: Caller,
    @PathId() visitId: string,
    @Query() request: VisitCautionsRequest,
  ) {
    return this.answers.cautions(caller, visitId, request.line);
  }

  @Post(':id/answers')
  @Call({
    summary: 'What was answered before the first bowl; the answer holds nothing of it',
    status: 201,
    example: answered,
  })
  answer(@By() caller: Caller, @PathId() visitId: string, @Body() request: VisitAnswersRequest) {
    const recordedAt = this.clock.now();
    const { at } = deviceTimes(request.sentAt, recordedAt)(request.at);
    return this.once.answer(caller.studioId, `POST /visits/${visitId}/answers`, request, (tx) =>
      this.answers.answer(tx, visitId, request, { caller, at, recordedAt }),
    );
  }
}
