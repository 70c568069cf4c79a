/** Bowls over HTTP: opened, poured into, weighed, settled, recorded at once. */
import { Body, Controller, Get, Inject, Post, Put, Query } from '@nestjs/common';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { NestedOnce } from '../../platform/database/once-nested.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { cursorValues, pageOf } from '../../platform/http/paging.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { Problem } from '../../../shared/problems/problem.js';
import { acting } from './acting.js';
import {
  bowlExample,
  bowlShape,
  pourExample,
  pourShape,
  settlementExample,
  settlementShape,
  weighingExample,
} from './bowls.examples.js';
import {
  BowlListRequest,
  OpenBowlRequest,
  PourRequest,
  RecordRequest,
  ReplanRequest,
  SettlementRequest,
  WeighingRequest,
} from './bowls.requests.js';
import { BowlReadingService } from './bowl-reading.service.js';
import { BowlsService } from './bowls.service.js';
import { answersById, nestedOf, RecordingService } from './recording.service.js';

@Tag('bowls')
@Controller('api/v1/bowls')
@Right('bench')
export class BowlsController {
  constructor(
    @Inject(BowlsService) private readonly bowls: BowlsService,
    @Inject(BowlReadingService) private readonly reading: BowlReadingService,
    @Inject(RecordingService) private readonly recording: RecordingService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post()
  @Call({ summary: 'Open a bowl', status: 201, example: bowlExample, ...bowlShape() })
  open(@By() caller: Caller, @Body() request: OpenBowlRequest, @DryRun() { dry }: DryRequest) {
    const now = this.clock.now();
    const { at } = deviceTimes(request.sentAt, now)(request.plannedAt ?? now);
    return this.once.answer(
      caller.studioId,
      'POST /bowls',
      request,
      (tx) => this.bowls.open(tx, request, at, acting(caller, now)),
      { dry },
    );
  }

  @Get()
  @Call({
    summary: 'Bowls, newest first',
    example: { items: [bowlExample], next: 'WyIwMTkwIl0' },
    nullable: ['/next', ...bowlShape('/items').nullable],
    optional: bowlShape('/items').optional,
  })
  async list(@By() caller: Caller, @Query() request: BowlListRequest) {
    const answered = await this.once.answer(caller.studioId, 'GET /bowls', {}, async (tx) => {
      const rows = await this.reading.list(tx, request, cursorValues(request, 2));
      return pageOf(
        rows,
        request.limit,
        (row) => row.key,
        (row) => row.view,
      );
    });
    return answered.body;
  }

  @Get(':id')
  @Call({ summary: 'One bowl', example: bowlExample, ...bowlShape() })
  async show(@By() caller: Caller, @PathId() id: string) {
    const view = await this.once.answer(caller.studioId, 'GET /bowls', {}, (tx) =>
      this.reading.view(tx, id),
    );
    return view.body;
  }

  @Put(':id/plan')
  @Call({ summary: 'Plan it anew', example: bowlExample, ...bowlShape() })
  replan(@By() caller: Caller, @PathId() id: string, @Body() request: ReplanRequest) {
    const { sentAt, plannedAt, ...mix } = request;
    const now = this.clock.now();
    const { at } = deviceTimes(sentAt, now)(plannedAt ?? now);
    return this.once.answer(caller.studioId, 'PUT /bowls/plan', {}, (tx) =>
      this.bowls.replan(tx, id, mix, at, acting(caller, now)),
    );
  }

  @Post(':id/pours')
  @Call({
    summary: 'One ingredient goes in: deducted, priced, flagged; what to pour next',
    status: 201,
    example: pourExample,
    optional: pourShape(),
  })
  pour(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: PourRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    const now = this.clock.now();
    const { at } = deviceTimes(request.sentAt, now)(request.pouredAt);
    const work = (tx: Parameters<BowlsService['pour']>[0]) =>
      this.bowls.pour(tx, id, request, at, acting(caller, now));
    return this.once.answer(caller.studioId, `POST /bowls/${id}/pours`, request, work, { dry });
  }

  @Post(':id/weighings')
  @Call({
    summary: 'What it holds now; the part that is gone was applied',
    status: 201,
    example: weighingExample,
  })
  weigh(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: WeighingRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    const now = this.clock.now();
    const { at } = deviceTimes(request.sentAt, now)(request.at);
    const work = (tx: Parameters<BowlsService['weigh']>[0]) =>
      this.bowls.weigh(tx, id, request, at, acting(caller, now));
    return this.once.answer(caller.studioId, `POST /bowls/${id}/weighings`, request, work, {
      dry,
    });
  }

  @Post(':id/settlement')
  @Call({
    summary: 'Weigh what is left: applied on the head, the rest in the bin',
    status: 201,
    example: settlementExample,
    optional: settlementShape(),
  })
  settle(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: SettlementRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    const now = this.clock.now();
    const { at } = deviceTimes(request.sentAt, now)(request.settledAt);
    const work = (tx: Parameters<BowlsService['settle']>[0]) =>
      this.bowls.settle(tx, id, request, at, acting(caller, now));
    return this.once.answer(caller.studioId, `POST /bowls/${id}/settlement`, request, work, {
      dry,
    });
  }

  @Post('record')
  @Call({
    summary: 'A whole bowl at once, all or nothing',
    status: 201,
    example: {
      bowl: bowlExample,
      pours: [pourExample],
      weighings: [weighingExample],
      settlement: settlementExample,
    },
    nullable: bowlShape('/bowl').nullable,
    optional: [
      '/settlement',
      ...bowlShape('/bowl').optional,
      ...pourShape('/pours'),
      ...settlementShape('/settlement'),
    ],
  })
  record(@By() caller: Caller, @Body() request: RecordRequest, @DryRun() { dry }: DryRequest) {
    if (request.bowl.id === undefined) throw new Problem('id_needed', {}, '/bowl/id');
    const now = this.clock.now();
    const corrected = deviceTimes(request.sentAt, now);
    const parts = nestedOf(request);
    return this.once.answer(
      caller.studioId,
      'POST /bowls/record',
      request,
      async (tx) => {
        const looked = NestedOnce.look(tx, parts);
        const by = acting(caller, now);
        const recorded = await this.recording.record(tx, request, corrected, by, looked);
        (await looked).note(tx, answersById(recorded), now);
        return recorded;
      },
      { dry },
    );
  }
}
