/** Clients over HTTP; a bench sees who is here today, by first name and initial. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { inPage, pageExample } from './catalogue.examples.js';
import {
  clientAbsent,
  clientBowlExample,
  clientBowlNulls,
  clientExample,
  clientNulls,
  newClientExample,
} from './clients.examples.js';
import {
  ClientBowlsRequest,
  ClientChangesRequest,
  ClientListRequest,
  NewClientRequest,
} from './clients.requests.js';
import { ClientsService } from './clients.service.js';

const oneClient = { example: clientExample, nullable: clientNulls, optional: clientAbsent };

@Tag('clients')
@Controller('api/v1/clients')
export class ClientsController {
  constructor(@Inject(ClientsService) private readonly clients: ClientsService) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'Clients, newest first; at a bench those who are here today',
    example: pageExample(clientExample),
    nullable: ['/next', ...inPage(clientNulls)],
    optional: inPage(clientAbsent),
  })
  list(@By() caller: Caller, @Query() request: ClientListRequest) {
    return this.clients.list(caller, request);
  }

  @Post()
  @Right('stylist')
  @Call({
    summary: 'A new client; the answer holds no name',
    status: 201,
    example: newClientExample,
  })
  add(@By() caller: Caller, @Body() request: NewClientRequest) {
    return this.clients.add(caller, request);
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One client', ...oneClient })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.clients.show(caller, id);
  }

  @Patch(':id')
  @Right('stylist')
  @Call({ summary: 'What is sent of a client changes', ...oneClient })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: ClientChangesRequest) {
    return this.clients.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('stylist')
  @Call({ summary: 'A client leaves the lists and stays in history', ...oneClient })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.clients.retire(caller, id);
  }

  @Post(':id/forget')
  @HttpCode(200)
  @Right('manager')
  @Call({ summary: 'Erases all that is personal; the number stays in the ledger', ...oneClient })
  forget(@By() caller: Caller, @PathId() id: string) {
    return this.clients.forget(caller, id);
  }

  @Get(':id/bowls')
  @Right('bench')
  @Call({
    summary: 'What was mixed for a client, the latest visit first',
    example: pageExample(clientBowlExample),
    nullable: ['/next', ...inPage(clientBowlNulls)],
    free: ['/items/plan'],
  })
  bowls(@By() caller: Caller, @PathId() id: string, @Query() request: ClientBowlsRequest) {
    return this.clients.bowls(caller, id, request);
  }
}
