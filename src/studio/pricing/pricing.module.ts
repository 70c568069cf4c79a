/** Prices: closing a visit and the sheet that follows from it. */
import { Module } from '@nestjs/common';
import { BowlsModule } from '../bowls/bowls.module.js';
import { StockModule } from '../stock/stock.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { ClosingController } from './closing.controller.js';
import { ClosingService } from './closing.service.js';
import { PriceSheetsController } from './price-sheets.controller.js';
import { PriceSheetsService } from './price-sheets.service.js';
import { SheetRowsService } from './sheet-rows.service.js';

@Module({
  imports: [StockModule, VisitsModule, BowlsModule],
  controllers: [ClosingController, PriceSheetsController],
  providers: [ClosingService, PriceSheetsService, SheetRowsService],
  exports: [PriceSheetsService],
})
export class PricingModule {}
