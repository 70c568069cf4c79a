/** Benches and tokens over HTTP. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { PageRequest } from '../../platform/http/paging.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { BenchesService } from './benches.service.js';
import { benchExample, tokenExample } from './people.examples.js';
import { BenchChangesRequest, NewBenchRequest, NewTokenRequest } from './people.requests.js';

const next = 'WyIwMTkwIl0';
const oneBench = { example: benchExample, nullable: ['/retiredAt'] };
const tokenNulls = ['/benchId', '/usedAt', '/revokedAt'];

@Tag('benches')
@Controller('api/v1')
export class BenchesController {
  constructor(@Inject(BenchesService) private readonly benches: BenchesService) {}

  @Get('benches')
  @Right('bench')
  @Call({
    summary: 'The benches of the studio',
    example: { items: [benchExample], next },
    nullable: ['/next', '/items/retiredAt'],
  })
  list(@By() caller: Caller, @Query() request: PageRequest) {
    return this.benches.list(caller, request);
  }

  @Post('benches')
  @Right('owner')
  @Call({ summary: 'A new bench', status: 201, ...oneBench })
  add(@By() caller: Caller, @Body() request: NewBenchRequest) {
    return this.benches.add(caller, request);
  }

  @Get('benches/:id')
  @Right('bench')
  @Call({ summary: 'One bench', ...oneBench })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.benches.show(caller, id);
  }

  @Patch('benches/:id')
  @Right('owner')
  @Call({ summary: 'Another name for a bench', ...oneBench })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: BenchChangesRequest) {
    return this.benches.change(caller, id, request);
  }

  @Post('benches/:id/retire')
  @HttpCode(200)
  @Right('owner')
  @Call({ summary: 'A bench is given up; its tokens open nothing any more', ...oneBench })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.benches.retire(caller, id);
  }

  @Get('tokens')
  @Right('owner')
  @Call({
    summary: 'Tokens of devices and programs',
    example: { items: [tokenExample], next },
    nullable: ['/next', ...tokenNulls.map((at) => `/items${at}`)],
  })
  tokens(@By() caller: Caller, @Query() request: PageRequest) {
    return this.benches.tokens(caller, request);
  }

  @Post('tokens')
  @Right('owner')
  @Call({
    summary: 'A token for a device or program; its text is shown this once',
    status: 201,
    example: { ...tokenExample, token: `bwt_${'A'.repeat(65)}` },
    nullable: tokenNulls,
  })
  makeToken(@By() caller: Caller, @Body() request: NewTokenRequest) {
    return this.benches.makeToken(caller.studioId, request, caller);
  }

  @Post('tokens/:id/revoke')
  @HttpCode(200)
  @Right('owner')
  @Call({
    summary: 'A device was lost: its token opens nothing any more',
    example: tokenExample,
    nullable: tokenNulls,
  })
  revoke(@By() caller: Caller, @PathId() id: string) {
    return this.benches.revoke(caller, id);
  }
}
