/** Visits: who sits in the chair, for what, and what was asked before the first bowl. */
import { Module } from '@nestjs/common';
import { VisitAnswersController } from './visit-answers.controller.js';
import { VisitAnswersService } from './visit-answers.service.js';
import { VisitsController } from './visits.controller.js';
import { VisitsService } from './visits.service.js';

@Module({
  controllers: [VisitsController, VisitAnswersController],
  providers: [VisitsService, VisitAnswersService],
  exports: [VisitsService],
})
export class VisitsModule {}
