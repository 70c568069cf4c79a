/** Purchasing: what will be used, when to order, what to order now, and the orders themselves. */
import { Module } from '@nestjs/common';
import { BookingsModule } from '../bookings/bookings.module.js';
import { BookedDemandService } from './booked-demand.service.js';
import { DemandMarksController } from './demand-marks.controller.js';
import { DemandMarksService } from './demand-marks.service.js';
import { DemandService } from './demand.service.js';
import { ForecastsController } from './forecasts.controller.js';
import { ForecastsService } from './forecasts.service.js';
import { OrdersController } from './orders.controller.js';
import { OrdersService } from './orders.service.js';
import { OrderTermsService } from './order-terms.service.js';
import { PlanController } from './plan.controller.js';
import { PlanFactsService } from './plan-facts.service.js';
import { PlanService } from './plan.service.js';
import { PoliciesController } from './policies.controller.js';
import { PoliciesService } from './policies.service.js';

@Module({
  imports: [BookingsModule],
  controllers: [
    ForecastsController,
    DemandMarksController,
    PoliciesController,
    OrdersController,
    PlanController,
  ],
  providers: [
    BookedDemandService,
    DemandMarksService,
    DemandService,
    ForecastsService,
    PoliciesService,
    OrdersService,
    OrderTermsService,
    PlanFactsService,
    PlanService,
  ],
})
export class PurchasingModule {}
