/** The shelf and its ledger looked at, over HTTP. */
import { Controller, Get, Headers, Inject, Query, StreamableFile } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { AuditService } from './audit.service.js';
import { actingOn } from './entries.js';
import {
  AuditRequest,
  MovementListRequest,
  ShelfRequest,
  ShelfValueRequest,
  UsageRequest,
} from './reports.requests.js';
import { ShelfService } from './shelf.service.js';
import {
  auditExample,
  movementExample,
  movementShape,
  shelfExample,
  shelfShape,
  shelfValueExample,
  strengthExample,
  usageExample,
} from './stock.examples.js';
import { StockListsService } from './stock-lists.service.js';

@Tag('shelf')
@Controller('api/v1')
export class ReportsController {
  constructor(
    @Inject(ShelfService) private readonly shelf: ShelfService,
    @Inject(StockListsService) private readonly lists: StockListsService,
    @Inject(AuditService) private readonly audits: AuditService,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get('shelf')
  @Right('bench')
  @Call({
    summary: 'What is there, when it runs out, what needs a look; by=strength adds developers up',
    example: { items: [{ ...shelfExample, products: strengthExample.products }] },
    nullable: shelfShape.nullable,
    optional: [
      ...shelfShape.optional,
      ...Object.keys({ ...shelfExample, products: [] })
        .filter((name) => name !== 'onHand' && name !== 'strength')
        .map((name) => `/items/${name}`),
    ],
  })
  show(@By() caller: Caller, @Query() { by }: ShelfRequest) {
    const acting = actingOn(caller, this.clock.now());
    return by === 'strength'
      ? this.shelf.strengths(caller.studioId, acting)
      : this.shelf.shelf(caller.studioId, acting);
  }

  @Get('shelf/value')
  @Right('manager')
  @Call({ summary: 'What the shelf was worth at the end of a day', example: shelfValueExample })
  value(@By() caller: Caller, @Query() { at }: ShelfValueRequest) {
    return this.shelf.valueOn(caller.studioId, at);
  }

  @Get('usage')
  @Right('bench')
  @Call({
    summary: 'What went into bowls or was used, net of what was undone',
    example: { rows: [usageExample] },
    nullable: ['/rows/strength'],
    optional: ['productId', 'name', 'strength', 'month', 'value'].map((name) => `/rows/${name}`),
  })
  usage(@By() caller: Caller, @Query() request: UsageRequest) {
    return this.shelf.usage(caller.studioId, request, actingOn(caller, this.clock.now()));
  }

  @Get('movements')
  @Right('stylist')
  @Call({
    summary: 'The ledger, the last recorded first; as CSV with Accept: text/csv or format=csv',
    example: { items: [movementExample], next: 'WyI0MTgwIl0' },
    nullable: ['/next', ...movementShape('/items').nullable],
    optional: movementShape('/items').optional,
    csv: 'seq,happenedAt,recordedAt,journalKind,product,from,to,quantity,unit,value,…\r\n',
  })
  movements(
    @By() caller: Caller,
    @Query() request: MovementListRequest,
    @Headers('accept') accept: string | undefined,
  ) {
    const by = actingOn(caller, this.clock.now());
    const csv = request.format === 'csv' || (!request.format && accept?.startsWith('text/csv'));
    if (!csv) return this.lists.movements(caller.studioId, request, by);
    return new StreamableFile(this.lists.movementsAsCsv(caller.studioId, request, by), {
      type: 'text/csv; charset=utf-8; header=present',
      disposition: 'attachment; filename="movements.csv"',
    });
  }

  @Get('audit')
  @Right('owner')
  @Call({
    summary: 'Every invariant of the ledger recomputed from its movements',
    example: auditExample,
    optional: ['/checks/firstBreach'],
  })
  audit(@By() caller: Caller, @Query() { since }: AuditRequest) {
    return this.audits.audit(caller.studioId, since);
  }
}
