/** Bowls: planned, poured, weighed, settled. */
import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { BowlEventsController } from './bowl-events.controller.js';
import { BowlEventsService } from './bowl-events.service.js';
import { BowlReadingService } from './bowl-reading.service.js';
import { BowlsController } from './bowls.controller.js';
import { BowlsService } from './bowls.service.js';
import { MixPlanningService } from './mix-planning.service.js';
import { MixPlansController } from './mix-plans.controller.js';
import { RecordingService } from './recording.service.js';

@Module({
  imports: [StockModule],
  controllers: [MixPlansController, BowlsController, BowlEventsController],
  providers: [
    BowlsService,
    BowlReadingService,
    BowlEventsService,
    MixPlanningService,
    RecordingService,
  ],
  exports: [BowlsService, BowlReadingService],
})
export class BowlsModule {}
