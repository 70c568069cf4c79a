/** The menu over HTTP; a bench sees it without prices. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { inPage, pageExample, serviceAbsent, serviceExample } from './catalogue.examples.js';
import { CatalogueListRequest } from './catalogue.requests.js';
import { NewServiceRequest, ServiceChangesRequest } from './services.requests.js';
import { ServicesService } from './services.service.js';

const oneService = { example: serviceExample, nullable: ['/retiredAt'], optional: serviceAbsent };

@Tag('services')
@Controller('api/v1/services')
export class ServicesController {
  constructor(@Inject(ServicesService) private readonly services: ServicesService) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'The services of the studio, newest first',
    example: pageExample(serviceExample),
    nullable: ['/next', ...inPage(['/retiredAt'])],
    optional: inPage(serviceAbsent),
  })
  list(@By() caller: Caller, @Query() request: CatalogueListRequest) {
    return this.services.list(caller, request);
  }

  @Post()
  @Right('manager')
  @Call({ summary: 'A new service', status: 201, ...oneService })
  add(@By() caller: Caller, @Body() request: NewServiceRequest) {
    return this.services.add(caller, request);
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One service', ...oneService })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.services.show(caller, id);
  }

  @Patch(':id')
  @Right('manager')
  @Call({ summary: 'What is sent of a service changes', ...oneService })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: ServiceChangesRequest) {
    return this.services.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('manager')
  @Call({ summary: 'A service leaves the lists and stays in history', ...oneService })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.services.retire(caller, id);
  }
}
