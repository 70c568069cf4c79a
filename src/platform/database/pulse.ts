/** Asks the database whether it answers. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';

@Injectable()
export class DatabasePulse {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** True when a connection answers. */
  async isUp(): Promise<boolean> {
    return this.dataSource.query('select 1').then(
      () => true,
      () => false,
    );
  }
}
