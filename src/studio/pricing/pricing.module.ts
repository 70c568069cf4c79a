/** Prices: quotes, closing a visit, the sheet that follows from it, what sheets add up to. */
import { Module } from '@nestjs/common';
import { BowlsModule } from '../bowls/bowls.module.js';
import { CatalogueModule } from '../catalogue/catalogue.module.js';
import { StockModule } from '../stock/stock.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { ClosingController } from './closing.controller.js';
import { ClosingService } from './closing.service.js';
import { DueSheetsService } from './due-sheets.service.js';
import { EarningsController } from './earnings.controller.js';
import { EarningsService } from './earnings.service.js';
import { PastTheQuoteController } from './past-the-quote.controller.js';
import { PastTheQuoteService } from './past-the-quote.service.js';
import { PriceListsController } from './price-lists.controller.js';
import { PriceListsService } from './price-lists.service.js';
import { PriceSheetsController } from './price-sheets.controller.js';
import { PriceSheetsService } from './price-sheets.service.js';
import { QuotesController } from './quotes.controller.js';
import { QuotesService } from './quotes.service.js';
import { SheetRowsService } from './sheet-rows.service.js';
import { StatementsService } from './statements.service.js';

@Module({
  imports: [CatalogueModule, StockModule, VisitsModule, BowlsModule],
  controllers: [
    PastTheQuoteController,
    ClosingController,
    PriceSheetsController,
    QuotesController,
    EarningsController,
    PriceListsController,
  ],
  providers: [
    PastTheQuoteService,
    ClosingService,
    PriceSheetsService,
    SheetRowsService,
    QuotesService,
    DueSheetsService,
    EarningsService,
    StatementsService,
    PriceListsService,
  ],
  exports: [PriceSheetsService],
})
export class PricingModule {}
