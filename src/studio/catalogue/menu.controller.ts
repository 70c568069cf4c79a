/** The menu over HTTP: of a day, and what each service is from when on. */
import { Body, Controller, Get, HttpCode, Inject, Post, Query } from '@nestjs/common';
import { Once } from '../../platform/database/once.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import {
  menuExample,
  menuShape,
  versionExample,
  versionShape,
  versionsExample,
  versionsShape,
} from './menu.examples.js';
import { MenuService } from './menu.service.js';
import { MenuRequest, ServiceVersionRequest } from './services.requests.js';

@Tag('services')
@Controller('api/v1')
@Right('manager')
export class MenuController {
  constructor(
    @Inject(MenuService) private readonly menu: MenuService,
    @Inject(Once) private readonly once: Once,
  ) {}

  @Get('menu')
  @Call({ summary: 'The menu of a day, by name', example: menuExample, ...menuShape })
  onDay(@By() caller: Caller, @Query() { on }: MenuRequest) {
    return this.menu.onDay(caller, on);
  }

  @Get('services/:id/versions')
  @Call({
    summary: 'What a service was, is and is to be, the last first',
    example: versionsExample,
    ...versionsShape,
  })
  versions(@By() caller: Caller, @PathId() id: string) {
    return this.menu.versions(caller, id);
  }

  @Post('services/:id/versions')
  @Call({
    summary: 'What a service is from a day on; visits that began keep what they began with',
    status: 201,
    example: versionExample,
    ...versionShape,
  })
  plan(
    @By() caller: Caller,
    @PathId() id: string,
    @Body() request: ServiceVersionRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.once.answer(
      caller.studioId,
      `POST /services/${id}/versions`,
      request,
      (tx) => this.menu.plan(tx, id, request, caller),
      { dry },
    );
  }

  @Post('services/:id/versions/:versionId/withdraw')
  @HttpCode(200)
  @Call({
    summary: 'A version that has not started is taken back',
    example: { id: versionExample.id },
  })
  withdraw(@By() caller: Caller, @PathId() id: string, @PathId('versionId') versionId: string) {
    return this.once.answer(caller.studioId, 'POST /services/versions/withdraw', {}, (tx) =>
      this.menu.withdraw(tx, id, versionId),
    );
  }
}
