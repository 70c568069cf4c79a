/** Visits over HTTP; closing one is with its price. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { visitExample, visitShape } from './visits.examples.js';
import {
  NewVisitRequest,
  ReopenRequest,
  VisitChangesRequest,
  VisitListRequest,
} from './visits.requests.js';
import { VisitsService } from './visits.service.js';

const oneVisit = { example: visitExample, ...visitShape() };
const dryVisit = {
  example: { ...visitExample, dry: true },
  ...visitShape(),
  optional: ['/dry', ...visitShape().optional],
};

@Tag('visits')
@Controller('api/v1/visits')
export class VisitsController {
  constructor(
    @Inject(VisitsService) private readonly visits: VisitsService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'Visits, the latest first; at a bench those of today',
    example: { items: [visitExample], next: 'WyIwMTkwIl0' },
    nullable: ['/next', ...visitShape('/items').nullable],
    optional: visitShape('/items').optional,
  })
  list(@By() caller: Caller, @Query() request: VisitListRequest) {
    return this.visits.list(request, caller, this.clock.now());
  }

  @Post()
  @Right('bench')
  @Call({
    summary: 'A visit begins; its prices stay as the menu has them',
    status: 201,
    ...dryVisit,
  })
  start(@By() caller: Caller, @Body() request: NewVisitRequest, @DryRun() { dry }: DryRequest) {
    const recordedAt = this.clock.now();
    const { at: startedAt } = deviceTimes(request.sentAt, recordedAt)(request.startedAt);
    return this.once.answer(
      caller.studioId,
      'POST /visits',
      request,
      (tx) => this.visits.start(tx, request, { caller, startedAt, recordedAt }),
      { dry },
    );
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One visit', ...oneVisit })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.visits.show(id, caller, this.clock.now());
  }

  @Patch(':id')
  @Right('stylist')
  @Call({ summary: 'What is sent of an open visit changes', ...oneVisit })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: VisitChangesRequest) {
    const by = { caller, recordedAt: this.clock.now() };
    return this.once.answer(caller.studioId, 'PATCH /visits', {}, (tx) =>
      this.visits.change(tx, id, request, by),
    );
  }

  @Post(':id/reopen')
  @HttpCode(200)
  @Right('manager')
  @Call({ summary: 'A closed visit is opened again', ...dryVisit })
  reopen(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: ReopenRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.once.answer(
      caller.studioId,
      `POST /visits/${id}/reopen`,
      request,
      (tx) => this.visits.reopen(tx, id, request.newTerms, this.clock.now()),
      { dry },
    );
  }
}
