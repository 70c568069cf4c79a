/** People of the studio over HTTP. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { personExample } from './people.examples.js';
import { NewPersonRequest, PeopleListRequest, PersonChangesRequest } from './people.requests.js';
import { PeopleService } from './people.service.js';

const oneOf = {
  example: personExample,
  optional: ['/hourRate', '/commission'],
  nullable: ['/hourRate', '/commission', '/retiredAt'],
};

@Tag('people')
@Controller('api/v1/people')
export class PeopleController {
  constructor(@Inject(PeopleService) private readonly people: PeopleService) {}

  @Get()
  @Right('manager')
  @Call({
    summary: 'The people of the studio',
    example: { items: [personExample], next: 'WyIwMTkwIl0' },
    optional: ['/items/hourRate', '/items/commission'],
    nullable: ['/next', '/items/hourRate', '/items/commission', '/items/retiredAt'],
  })
  list(@By() caller: Caller, @Query() request: PeopleListRequest) {
    return this.people.list(caller, request);
  }

  @Post()
  @Right('owner')
  @Call({ summary: 'Somebody starts', status: 201, ...oneOf })
  add(@By() caller: Caller, @Body() request: NewPersonRequest) {
    return this.people.add(caller, request);
  }

  @Get(':id')
  @Right('manager')
  @Call({ summary: 'One person', ...oneOf })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.people.show(caller, id);
  }

  @Patch(':id')
  @Right('owner')
  @Call({ summary: 'Another name, role, rate or PIN', ...oneOf })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: PersonChangesRequest) {
    return this.people.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('owner')
  @Call({ summary: 'Somebody has left', ...oneOf })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.people.retire(caller, id);
  }
}
