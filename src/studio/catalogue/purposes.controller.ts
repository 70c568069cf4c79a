/** What bowls are for, over HTTP. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { inPage, pageExample, purposeExample } from './catalogue.examples.js';
import {
  CatalogueListRequest,
  NewPurposeRequest,
  PurposeChangesRequest,
} from './catalogue.requests.js';
import { PurposesService } from './purposes.service.js';

const onePurpose = { example: purposeExample, nullable: ['/retiredAt'] };

@Tag('purposes')
@Controller('api/v1/purposes')
export class PurposesController {
  constructor(@Inject(PurposesService) private readonly purposes: PurposesService) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'The purposes of the studio, newest first',
    example: pageExample(purposeExample),
    nullable: ['/next', ...inPage(['/retiredAt'])],
  })
  list(@By() caller: Caller, @Query() request: CatalogueListRequest) {
    return this.purposes.list(caller, request);
  }

  @Post()
  @Right('stylist')
  @Call({ summary: 'A new purpose', status: 201, ...onePurpose })
  add(@By() caller: Caller, @Body() request: NewPurposeRequest) {
    return this.purposes.add(caller, request);
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One purpose', ...onePurpose })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.purposes.show(caller, id);
  }

  @Patch(':id')
  @Right('stylist')
  @Call({ summary: 'What is sent of a purpose changes', ...onePurpose })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: PurposeChangesRequest) {
    return this.purposes.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('stylist')
  @Call({ summary: 'A purpose leaves the lists and stays in history', ...onePurpose })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.purposes.retire(caller, id);
  }
}
