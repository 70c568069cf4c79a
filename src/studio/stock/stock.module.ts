/** Stock: the ledger, and what comes onto and off the shelf. */
import { Module } from '@nestjs/common';
import { LedgerService } from './ledger.service.js';
import { StockFlagsService } from './stock-flags.service.js';

@Module({
  providers: [LedgerService, StockFlagsService],
  exports: [LedgerService, StockFlagsService],
})
export class StockModule {}
