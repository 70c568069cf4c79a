/** The whole service: the platform, and every capability in the order of the day. */
import { Module, type DynamicModule } from '@nestjs/common';
import { PlatformModule, type PlatformParts } from './platform/platform.module.js';
import { BookingsModule } from './studio/bookings/bookings.module.js';
import { BowlsModule } from './studio/bowls/bowls.module.js';
import { CatalogueModule } from './studio/catalogue/catalogue.module.js';
import { PeopleModule } from './studio/people/people.module.js';
import { PricingModule } from './studio/pricing/pricing.module.js';
import { PurchasingModule } from './studio/purchasing/purchasing.module.js';
import { ScalesModule } from './studio/scales/scales.module.js';
import { StockModule } from './studio/stock/stock.module.js';
import { VisitsModule } from './studio/visits/visits.module.js';
import { WasteModule } from './studio/waste/waste.module.js';

/** A new capability's module is entered here. */
const capabilities = [
  PeopleModule,
  CatalogueModule,
  StockModule,
  ScalesModule,
  VisitsModule,
  BookingsModule,
  BowlsModule,
  PricingModule,
  WasteModule,
  PurchasingModule,
];

@Module({})
export class AppModule {
  static of(parts: PlatformParts): DynamicModule {
    return { module: AppModule, imports: [PlatformModule.of(parts), ...capabilities] };
  }
}
