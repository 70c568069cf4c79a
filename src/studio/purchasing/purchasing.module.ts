/** Purchasing: what will be used, when to order, what to order now, and the orders themselves. */
import { Module } from '@nestjs/common';
import { DemandService } from './demand.service.js';
import { ForecastsController } from './forecasts.controller.js';
import { ForecastsService } from './forecasts.service.js';

@Module({
  controllers: [ForecastsController],
  providers: [DemandService, ForecastsService],
})
export class PurchasingModule {}
