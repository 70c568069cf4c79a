/** Whom the studio buys from, and on what terms. */
import { Column, Entity } from 'typeorm';
import type { Decimal } from '../../../shared/decimal.js';
import { decimalColumn } from '../../platform/database/columns.js';
import { RetirableRecord } from './record.entity.js';

@Entity('supplier')
export class SupplierEntity extends RetirableRecord {
  @Column('text')
  name!: string;

  @Column('integer', { name: 'lead_time_days', nullable: true })
  leadTimeDays!: number | null;

  @Column('numeric', { name: 'minimum_order', nullable: true, transformer: decimalColumn })
  minimumOrder!: Decimal | null;

  @Column('numeric', { nullable: true, transformer: decimalColumn })
  freight!: Decimal | null;

  @Column('numeric', { name: 'free_freight_from', nullable: true, transformer: decimalColumn })
  freeFreightFrom!: Decimal | null;

  /** 1 Monday … 7 Sunday. */
  @Column('smallint', { name: 'order_day', nullable: true })
  orderDay!: number | null;
}
