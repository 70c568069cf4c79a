/** Sensitivity tests over HTTP: for managers, owners and the client's own stylist. */
import { Body, Controller, Get, Inject, Patch, Post } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import {
  newSensitivityTestExample,
  sensitivityTestExample,
  sensitivityTestNulls,
} from './clients.examples.js';
import { NewSensitivityTestRequest, SensitivityReadingRequest } from './clients.requests.js';
import { SensitivityTestsService } from './sensitivity-tests.service.js';

@Tag('clients')
@Right('stylist')
@Controller('api/v1/clients/:id/sensitivity-tests')
export class SensitivityTestsController {
  constructor(@Inject(SensitivityTestsService) private readonly tests: SensitivityTestsService) {}

  @Get()
  @Call({
    summary: 'Sensitivity tests of a client, newest first',
    example: { rows: [sensitivityTestExample] },
    nullable: sensitivityTestNulls.map((pointer) => `/rows${pointer}`),
  })
  list(@By() caller: Caller, @PathId() id: string) {
    return this.tests.list(caller, id);
  }

  @Post()
  @Call({
    summary: 'A sensitivity test was placed, and perhaps read',
    status: 201,
    example: newSensitivityTestExample,
  })
  place(@By() caller: Caller, @PathId() id: string, @Body() request: NewSensitivityTestRequest) {
    return this.tests.place(caller, id, request);
  }

  @Patch(':testId')
  @Call({ summary: 'What a sensitivity test showed', example: sensitivityTestExample })
  read(
    @By() caller: Caller,
    @PathId() id: string,
    @PathId('testId') testId: string,
    @Body() request: SensitivityReadingRequest,
  ) {
    return this.tests.read(caller, id, testId, request);
  }
}
