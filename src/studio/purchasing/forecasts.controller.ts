/** Demand and forecasts over HTTP: what was used, and what will be. */
import { Controller, Get, Inject, Query } from '@nestjs/common';
import { dayAfter } from '../../../shared/calendar.js';
import type { DemandRowView, ForecastsView } from '../../../shared/contract/purchasing.js';
import type { StockUnit } from '../../../shared/amount.js';
import { Clock } from '../../platform/clock.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { DemandService } from './demand.service.js';
import { ForecastsService } from './forecasts.service.js';
import { figure, forecastView } from './forecasts.views.js';
import { PoliciesService } from './policies.service.js';
import { demandExample, forecastsExample, forecastsShape } from './purchasing.examples.js';
import { DemandRequest, ForecastRequest } from './purchasing.requests.js';

@Tag('ordering')
@Controller('api/v1')
@Right('manager')
export class ForecastsController {
  constructor(
    @Inject(ForecastsService) private readonly forecasts: ForecastsService,
    @Inject(DemandService) private readonly demand: DemandService,
    @Inject(PoliciesService) private readonly policies: PoliciesService,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Get('forecasts')
  @Call({
    summary: 'How much will be used, how sure that is, and how good such forecasts were',
    example: forecastsExample,
    ...forecastsShape,
  })
  async forecast(@By() caller: Caller, @Query() request: ForecastRequest): Promise<ForecastsView> {
    const { by, horizon, productId } = request;
    // Whoever looks ahead sees to it that the shelf's flags know what is seen.
    await this.policies.keepFresh(caller.studioId, this.clock.now());
    const { moment, items } = await this.forecasts.all(caller.studioId, this.clock.now(), by);
    const wanted = items.filter(({ of }) => productId === undefined || of.id === productId);
    return { today: moment.today, items: wanted.map((item) => forecastView(item, horizon)) };
  }

  @Get('demand')
  @Call({ summary: 'What was used, by day, week or month', example: demandExample })
  async used(
    @By() caller: Caller,
    @Query() request: DemandRequest,
  ): Promise<{ rows: DemandRowView[] }> {
    const moment = await this.demand.moment(caller.studioId, this.clock.now());
    const to = request.to ?? dayAfter(moment.today, 1);
    const from = request.from ?? dayAfter(to, -365);
    const [rows, products] = await Promise.all([
      this.demand.periods(caller.studioId, request.every, from, to),
      this.demand.items(caller.studioId, moment),
    ]);
    const units = new Map(products.map(({ id, unit }) => [id, unit as StockUnit]));
    return {
      rows: rows.flatMap(({ product_id, period, quantity }) => {
        const unit = units.get(product_id);
        if (!unit || (request.productId ?? product_id) !== product_id) return [];
        const shown = request.every === 'month' ? period.slice(0, 7) : period;
        return [
          { productId: product_id, period: shown, quantity: { quantity: figure(quantity), unit } },
        ];
      }),
    };
  }
}
