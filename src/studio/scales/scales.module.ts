/** Scales of the benches: readings from agents to pages. */
import { Module } from '@nestjs/common';
import { ScalesController } from './scales.controller.js';
import { ScalesGateway } from './scales.gateway.js';
import { ScalesService } from './scales.service.js';

@Module({
  controllers: [ScalesController],
  providers: [ScalesService, ScalesGateway],
  exports: [ScalesGateway],
})
export class ScalesModule {}
