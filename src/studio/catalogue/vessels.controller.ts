/** Physical bowls over HTTP; whoever stands at the bench may weigh a new one. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { inPage, pageExample, vesselExample, vesselNulls } from './catalogue.examples.js';
import {
  CatalogueListRequest,
  NewVesselRequest,
  VesselChangesRequest,
} from './catalogue.requests.js';
import { VesselsService } from './vessels.service.js';

const oneVessel = { example: vesselExample, nullable: vesselNulls };

@Tag('vessels')
@Controller('api/v1/vessels')
export class VesselsController {
  constructor(@Inject(VesselsService) private readonly vessels: VesselsService) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'The vessels of the studio, newest first',
    example: pageExample(vesselExample),
    nullable: ['/next', ...inPage(vesselNulls)],
  })
  list(@By() caller: Caller, @Query() request: CatalogueListRequest) {
    return this.vessels.list(caller, request);
  }

  @Post()
  @Right('bench')
  @Call({ summary: 'A new vessel', status: 201, ...oneVessel })
  add(@By() caller: Caller, @Body() request: NewVesselRequest) {
    return this.vessels.add(caller, request);
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One vessel', ...oneVessel })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.vessels.show(caller, id);
  }

  @Patch(':id')
  @Right('bench')
  @Call({ summary: 'What is sent of a vessel changes', ...oneVessel })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: VesselChangesRequest) {
    return this.vessels.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('bench')
  @Call({ summary: 'A vessel leaves the lists and stays in history', ...oneVessel })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.vessels.retire(caller, id);
  }
}
