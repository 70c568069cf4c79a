/** The studio's own settings over HTTP. */
import { Body, Controller, Get, Inject, Patch } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { mayAct, Right, type Caller } from '../../platform/http/rights.js';
import { studioExample } from './people.examples.js';
import { StudioChangesRequest } from './people.requests.js';
import { StudioService } from './studio.service.js';

const oneStudio = {
  example: studioExample,
  nullable: [
    ...['/country', '/lockedBefore', '/supplierPrices', '/supplierPrices/taxRate'],
    ...['/pricing/taxes', '/pricing/priceStep', '/pricing/hourRate', '/pricing/commission'],
    '/pricing/cardFee',
  ],
  optional: ['/pricing', '/pricing/onTop/label'],
};

@Tag('studio')
@Controller('api/v1/studio')
export class StudioController {
  constructor(@Inject(StudioService) private readonly studio: StudioService) {}

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
    return this.studio.change(caller.studioId, request);
  }
}
