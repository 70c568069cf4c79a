/** Bookings over HTTP: taken over from a diary, shown, begun as visits; rules for its words. */
import { Body, Controller, Get, HttpCode, Inject, Post, Put, Query } from '@nestjs/common';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { BookingImportService } from './booking-import.service.js';
import { BookingRulesService } from './booking-rules.service.js';
import {
  begunExample,
  bookingsExample,
  bookingsShape,
  importedExample,
  importedShape,
  rulesExample,
  rulesShape,
} from './bookings.examples.js';
import {
  BeginRequest,
  BookingListRequest,
  FileRequest,
  ImportOptions,
  RulesRequest,
} from './bookings.requests.js';
import { BookingsService } from './bookings.service.js';

@Tag('bookings')
@Controller('api/v1')
export class BookingsController {
  constructor(
    @Inject(BookingsService) private readonly bookings: BookingsService,
    @Inject(BookingImportService) private readonly imports: BookingImportService,
    @Inject(BookingRulesService) private readonly rules: BookingRulesService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get('bookings')
  @Right('bench')
  @Call({
    summary: 'What is booked; at a bench today only',
    example: bookingsExample,
    ...bookingsShape,
  })
  async list(@By() caller: Caller, @Query() request: BookingListRequest) {
    return { items: await this.bookings.list(caller, request, this.clock.now()) };
  }

  @Post('bookings/import')
  @HttpCode(200)
  @Right('manager')
  @Call({
    summary: 'A diary’s file is taken over: iCalendar or CSV, all of it or nothing',
    example: importedExample,
    ...importedShape,
  })
  import(@By() caller: Caller, @Body() { text }: FileRequest, @Query() options: ImportOptions) {
    const of = { ...options, now: this.clock.now() };
    return this.imports.take(caller.studioId, text, of);
  }

  @Post('bookings/:id/visit')
  @Right('bench')
  @Call({
    summary: 'The booked visit begins, with its services',
    status: 201,
    example: begunExample,
    optional: ['/dry'],
  })
  begin(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: BeginRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    const recordedAt = this.clock.now();
    const { at: startedAt } = deviceTimes(request.sentAt, recordedAt)(request.startedAt);
    return this.once.answer(
      caller.studioId,
      `POST /bookings/${id}/visit`,
      request,
      (tx) => this.bookings.begin(tx, id, request, { caller, startedAt, recordedAt }),
      { dry },
    );
  }

  @Get('booking-rules')
  @Right('manager')
  @Call({
    summary: 'How the diary’s words are read, and what they mean by that',
    example: rulesExample,
    ...rulesShape,
  })
  showRules(@By() caller: Caller) {
    return this.rules.show(caller.studioId, this.clock.now());
  }

  @Put('booking-rules')
  @Right('manager')
  @Call({ summary: 'Replaces all rules', example: rulesExample, ...rulesShape })
  putRules(@By() caller: Caller, @Body() request: RulesRequest, @DryRun() { dry }: DryRequest) {
    return this.rules.put(caller.studioId, request, { now: this.clock.now(), dry });
  }
}
