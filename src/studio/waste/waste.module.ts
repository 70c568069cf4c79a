/** Left over: what went to the bin of what was mixed, and the size bowls should have. */
import { Module } from '@nestjs/common';
import { SizesService } from './sizes.service.js';
import { WasteController } from './waste.controller.js';
import { WasteService } from './waste.service.js';

@Module({
  controllers: [WasteController],
  providers: [WasteService, SizesService],
  exports: [WasteService, SizesService],
})
export class WasteModule {}
