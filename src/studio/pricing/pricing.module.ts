/** Prices: quotes, closing a visit and the sheet that follows from it. */
import { Module } from '@nestjs/common';
import { BowlsModule } from '../bowls/bowls.module.js';
import { StockModule } from '../stock/stock.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { ClosingController } from './closing.controller.js';
import { ClosingService } from './closing.service.js';
import { PriceSheetsController } from './price-sheets.controller.js';
import { PriceSheetsService } from './price-sheets.service.js';
import { QuotesController } from './quotes.controller.js';
import { QuotesService } from './quotes.service.js';
import { SheetRowsService } from './sheet-rows.service.js';

@Module({
  imports: [StockModule, VisitsModule, BowlsModule],
  controllers: [ClosingController, PriceSheetsController, QuotesController],
  providers: [ClosingService, PriceSheetsService, SheetRowsService, QuotesService],
  exports: [PriceSheetsService],
})
export class PricingModule {}
