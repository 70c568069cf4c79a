/** The order plan over HTTP, also with what a person has changed; terms of buying a product. */
import { Body, Controller, Get, HttpCode, Inject, Post, Put, Query } from '@nestjs/common';
import type { OrderPlanView } from '../../../shared/contract/purchasing.js';
import { Clock } from '../../platform/clock.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { OrderTermsService } from './order-terms.service.js';
import { EditedPlanRequest, OrderPlanRequest, OrderTermsRequest } from './plan.requests.js';
import { PlanService, type PlanWish } from './plan.service.js';
import { PoliciesService } from './policies.service.js';
import { orderTermsExample, orderTermsShape, planExample, planShape } from './plan.examples.js';

const plan = { example: planExample, ...planShape };
const terms = { example: orderTermsExample, ...orderTermsShape };

@Tag('ordering')
@Controller('api/v1')
@Right('manager')
export class PlanController {
  constructor(
    @Inject(PlanService) private readonly plans: PlanService,
    @Inject(PoliciesService) private readonly policies: PoliciesService,
    @Inject(OrderTermsService) private readonly orderTerms: OrderTermsService,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get('order-plan')
  @Call({ summary: 'What to order on the next order days, why, and what remains short', ...plan })
  ask(@By() caller: Caller, @Query() request: OrderPlanRequest): Promise<OrderPlanView> {
    return this.work(caller, request);
  }

  @Post('order-plans')
  @HttpCode(200)
  @Call({ summary: 'The same with packs that a person has changed; nothing is stored', ...plan })
  edit(@By() caller: Caller, @Body() request: EditedPlanRequest): Promise<OrderPlanView> {
    return this.work(caller, { ...request, fixed: request.keep });
  }

  @Get('products/:id/order-terms')
  @Call({ summary: 'Price breaks and room of a product', ...terms })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.orderTerms.show(caller.studioId, id);
  }

  @Put('products/:id/order-terms')
  @Call({ summary: 'Price breaks and room of a product, replaced', ...terms })
  set(@By() caller: Caller, @PathId() id: string, @Body() request: OrderTermsRequest) {
    return this.orderTerms.set(caller.studioId, id, request);
  }

  private async work(caller: Caller, wish: PlanWish): Promise<OrderPlanView> {
    const now = this.clock.now();
    await this.policies.keepFresh(caller.studioId, now);
    return this.plans.plan(caller.studioId, now, wish);
  }
}
