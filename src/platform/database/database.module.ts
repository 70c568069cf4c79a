/** Gives every capability the database: its connections, its pulse, requests answered once. */
import { Module, type DynamicModule } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Once } from './once.js';
import { DatabasePulse } from './pulse.js';

@Module({})
export class DatabaseModule {
  static of(dataSource: DataSource): DynamicModule {
    return {
      module: DatabaseModule,
      global: true,
      providers: [{ provide: DataSource, useValue: dataSource }, Once, DatabasePulse],
      exports: [DataSource, Once, DatabasePulse],
    };
  }
}
