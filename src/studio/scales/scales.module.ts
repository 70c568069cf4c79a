/** Scales of the benches: readings from agents to pages. */
import { Module } from '@nestjs/common';
import { ScaleChecksController } from './scale-checks.controller.js';
import { ScaleChecksService } from './scale-checks.service.js';
import { ScalesController } from './scales.controller.js';
import { ScalesGateway } from './scales.gateway.js';
import { ScalesService } from './scales.service.js';

@Module({
  controllers: [ScalesController, ScaleChecksController],
  providers: [ScalesService, ScalesGateway, ScaleChecksService],
  exports: [ScalesGateway],
})
export class ScalesModule {}
