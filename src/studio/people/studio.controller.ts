/** The studio's own settings over HTTP. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post } from '@nestjs/common';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { mayAct, Right, type Caller } from '../../platform/http/rights.js';
import { rulesVersionExample, studioExample } from './people.examples.js';
import { StudioChangesRequest } from './people.requests.js';
import { RulesVersionRequest } from './pricing-settings.requests.js';
import { StudioService } from './studio.service.js';

/** Which of the rules of price may be null; `at` is where they are. */
const ruleNulls = (at: string) =>
  ['taxes', 'priceStep', 'hourRate', 'commission', 'cardFee'].map((name) => `${at}/${name}`);

const oneStudio = {
  example: studioExample,
  nullable: [
    ...['/country', '/lockedBefore', '/supplierPrices', '/supplierPrices/taxRate'],
    ...ruleNulls('/pricing'),
  ],
  optional: ['/pricing', '/pricing/onTop/label'],
};

const rulesShape = (at: string) => ({
  nullable: [
    ...['/id', '/startsOn', '/madeAt', '/madeBy'].map((name) => `${at}${name}`),
    ...ruleNulls(`${at}/rules`),
  ],
  optional: [`${at}/dry`, `${at}/rules/onTop/label`],
});

@Tag('studio')
@Controller('api/v1/studio')
export class StudioController {
  constructor(
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(Once) private readonly once: Once,
  ) {}

  @Get()
  @Right('bench')
  @Call({ summary: 'The studio and its settings', ...oneStudio })
  show(@By() caller: Caller) {
    return this.studio.show(caller.studioId, mayAct(caller, 'manager'));
  }

  @Patch()
  @Right('owner')
  @Call({ summary: 'Other settings', ...oneStudio })
  change(@By() caller: Caller, @Body() request: StudioChangesRequest) {
    return this.studio.change(caller, request);
  }

  @Get('rules')
  @Right('manager')
  @Call({
    summary: 'The rules of price as they were, are and are to be, the last first',
    example: { rows: [rulesVersionExample] },
    ...rulesShape('/rows'),
  })
  rules(@By() caller: Caller) {
    return this.studio.rules(caller.studioId);
  }

  @Post('rules')
  @Right('owner')
  @Call({
    summary: 'Rules of price from a day on; visits that were closed keep theirs',
    status: 201,
    example: rulesVersionExample,
    ...rulesShape(''),
  })
  plan(@By() caller: Caller, @Body() request: RulesVersionRequest, @DryRun() { dry }: DryRequest) {
    return this.once.answer(
      caller.studioId,
      'POST /studio/rules',
      request,
      (tx) => this.studio.plan(tx, request, caller),
      { dry },
    );
  }

  @Post('rules/:id/withdraw')
  @HttpCode(200)
  @Right('owner')
  @Call({
    summary: 'Rules of price that have not started are taken back',
    example: { id: rulesVersionExample.id },
  })
  withdraw(@By() caller: Caller, @PathId() id: string) {
    return this.once.answer(caller.studioId, 'POST /studio/rules/withdraw', {}, (tx) =>
      this.studio.withdraw(tx, id),
    );
  }
}
