/** Counts, what is taken without a bowl, corrections and reversals, over HTTP. */
import { Body, Controller, Inject, Post } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Once, type OnceRequest } from '../../platform/database/once.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { CostCorrectionsService } from './cost-corrections.service.js';
import { CountsService } from './counts.service.js';
import { actingOn, type StockActing } from './entries.js';
import { ReversalsService } from './reversals.service.js';
import {
  costCorrectionExample,
  countExample,
  movementShape,
  reversalExample,
  takenExample,
} from './stock.examples.js';
import {
  CostCorrectionRequest,
  CountRequest,
  DiscardRequest,
  ReversalRequest,
  SupplierReturnRequest,
  UseRequest,
} from './stock.requests.js';
import { TakingService } from './taking.service.js';

const taken = {
  status: 201,
  example: takenExample,
  optional: ['/dry', '/lines/value', '/lines/lots/value'],
};

@Tag('shelf')
@Controller('api/v1')
export class CorrectionsController {
  constructor(
    @Inject(CountsService) private readonly counts: CountsService,
    @Inject(TakingService) private readonly taking: TakingService,
    @Inject(CostCorrectionsService) private readonly costs: CostCorrectionsService,
    @Inject(ReversalsService) private readonly reversals: ReversalsService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post('counts')
  @Right('manager')
  @Call({
    summary: 'What is really there, against what the book says',
    status: 201,
    example: countExample,
    optional: ['/dry'],
  })
  count(@By() caller: Caller, @Body() request: CountRequest, @DryRun() { dry }: DryRequest) {
    return this.answered(caller, 'counts', request, dry, (tx, by) =>
      this.counts.count(tx, request, by),
    );
  }

  @Post('discards')
  @Right('manager')
  @Call({ summary: 'Into the bin: expired, damaged, spilled', ...taken })
  discard(@By() caller: Caller, @Body() request: DiscardRequest, @DryRun() { dry }: DryRequest) {
    return this.answered(caller, 'discards', request, dry, (tx, by) =>
      this.taking.discard(tx, request, by),
    );
  }

  @Post('uses')
  @Right('stylist')
  @Call({ summary: 'Used without a bowl: sundries, care, a strand test', ...taken })
  use(@By() caller: Caller, @Body() request: UseRequest, @DryRun() { dry }: DryRequest) {
    return this.answered(caller, 'uses', request, dry, (tx, by) =>
      this.taking.use(tx, request, by),
    );
  }

  @Post('supplier-returns')
  @Right('manager')
  @Call({ summary: 'Sent back to the supplier', ...taken })
  sendBack(
    @By() caller: Caller,
    @Body() request: SupplierReturnRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.answered(caller, 'supplier-returns', request, dry, (tx, by) =>
      this.taking.sendBack(tx, request, by),
    );
  }

  @Post('cost-corrections')
  @Right('manager')
  @Call({
    summary: 'A cost filled in or put right later',
    status: 201,
    example: costCorrectionExample,
    nullable: ['/lines/lotId'],
    optional: ['/dry'],
  })
  correctCost(
    @By() caller: Caller,
    @Body() request: CostCorrectionRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.answered(caller, 'cost-corrections', request, dry, (tx, by) =>
      this.costs.correct(tx, request, by),
    );
  }

  @Post('movements/:id/reversal')
  @Right('stylist')
  @Call({
    summary: 'A wrong entry undone as a whole, named by its id or by one of its movements',
    status: 201,
    example: reversalExample,
    nullable: movementShape('/movements').nullable,
    optional: ['/dry', ...movementShape('/movements').optional],
  })
  reverse(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: ReversalRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.answered(caller, `movements/${id}/reversal`, request, dry, (tx, by) =>
      this.reversals.reverse(tx, id, request, by),
    );
  }

  private answered<T>(
    caller: Caller,
    path: string,
    request: OnceRequest,
    dry: boolean,
    work: (tx: Transaction, by: StockActing) => Promise<T>,
  ) {
    const by = actingOn(caller, this.clock.now(), request.sentAt);
    const call = `POST /${path}`;
    return this.once.answer(caller.studioId, call, request, (tx) => work(tx, by), { dry });
  }
}
