/** Bookings: what the diary says of the days to come, read over from its file. */
import { Module } from '@nestjs/common';
import { VisitsModule } from '../visits/visits.module.js';
import { BookingImportService } from './booking-import.service.js';
import { BookingRulesService } from './booking-rules.service.js';
import { BookingsController } from './bookings.controller.js';
import { BookingsService } from './bookings.service.js';
import { ClosuresController } from './closures.controller.js';
import { ClosuresService } from './closures.service.js';

@Module({
  imports: [VisitsModule],
  controllers: [BookingsController, ClosuresController],
  providers: [BookingsService, BookingImportService, BookingRulesService, ClosuresService],
  exports: [BookingsService, BookingImportService],
})
export class BookingsModule {}
