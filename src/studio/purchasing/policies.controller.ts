/** Reorder points over HTTP: shown with what they rest on, and worked out anew. */
import { Controller, Get, HttpCode, Inject, Post } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { PoliciesService } from './policies.service.js';
import { reorderPointsExample, reorderPointsShape } from './purchasing.examples.js';

const answer = { example: reorderPointsExample, ...reorderPointsShape };

@Tag('ordering')
@Controller('api/v1/reorder-points')
@Right('manager')
export class PoliciesController {
  constructor(
    @Inject(PoliciesService) private readonly policies: PoliciesService,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get()
  @Call({ summary: 'When each product is reordered, and why', ...answer })
  async list(@By() caller: Caller) {
    await this.policies.keepFresh(caller.studioId, this.clock.now());
    return { items: await this.policies.list(caller.studioId) };
  }

  @Post()
  @HttpCode(200)
  @Call({ summary: 'Work all reorder points out anew', ...answer })
  async refresh(@By() caller: Caller) {
    await this.policies.refresh(caller.studioId, this.clock.now());
    return { items: await this.policies.list(caller.studioId) };
  }
}
