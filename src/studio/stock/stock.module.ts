/** Stock: the ledger, what comes onto and off the shelf, what is there, and its audit. */
import { Module } from '@nestjs/common';
import { AuditService } from './audit.service.js';
import { CorrectionsController } from './corrections.controller.js';
import { CostCorrectionsService } from './cost-corrections.service.js';
import { CountsService } from './counts.service.js';
import { HistoryService } from './history.service.js';
import { LedgerService } from './ledger.service.js';
import { ReceivingController } from './receiving.controller.js';
import { ReceivingService } from './receiving.service.js';
import { ReportsController } from './reports.controller.js';
import { ReversalsService } from './reversals.service.js';
import { ShelfService } from './shelf.service.js';
import { StockFlagsService } from './stock-flags.service.js';
import { StockListsService } from './stock-lists.service.js';
import { TakingService } from './taking.service.js';

@Module({
  controllers: [ReceivingController, CorrectionsController, ReportsController],
  providers: [
    LedgerService,
    StockFlagsService,
    ReceivingService,
    CountsService,
    TakingService,
    CostCorrectionsService,
    ReversalsService,
    ShelfService,
    StockListsService,
    AuditService,
    HistoryService,
  ],
  exports: [
    LedgerService,
    StockFlagsService,
    ReceivingService,
    CountsService,
    TakingService,
    CostCorrectionsService,
    ReversalsService,
    ShelfService,
    AuditService,
  ],
})
export class StockModule {}
