/** Earnings, and statements for people who rent a chair, over HTTP. */
import { Controller, Get, Inject, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { earningsExample, earningsShape, statementExample } from './earnings.examples.js';
import { EarningsRequest, StatementRequest } from './earnings.requests.js';
import { EarningsService } from './earnings.service.js';
import { StatementsService } from './statements.service.js';

@Tag('pricing')
@Controller('api/v1')
@Right('manager')
export class EarningsController {
  constructor(
    @Inject(EarningsService) private readonly earnings: EarningsService,
    @Inject(StatementsService) private readonly statements: StatementsService,
  ) {}

  @Get('earnings')
  @Call({
    summary: 'What final price sheets add up to, by service, month or (for the owner) person',
    example: earningsExample,
    ...earningsShape,
  })
  report(@By() caller: Caller, @Query() request: EarningsRequest) {
    return this.earnings.report(caller, request);
  }

  @Get('statements')
  @Call({
    summary: 'What a person who rents a chair took of the studio’s product in a month',
    example: statementExample,
  })
  statement(@By() caller: Caller, @Query() request: StatementRequest) {
    return this.statements.statement(caller, request);
  }
}
