/** Rows of the people who work in the studio and of the benches they work at. */
import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { Decimal } from '../../../shared/decimal.js';
import { decimalColumn } from '../../platform/database/columns.js';

export type PersonRole = 'owner' | 'manager' | 'stylist';
export type CommissionOn = 'gross' | 'net' | 'net_less_product';

@Entity('person')
export class PersonEntity {
  @PrimaryColumn('uuid', { name: 'studio_id' })
  studioId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  @Column('text')
  name!: string;

  @Column('text')
  role!: PersonRole;

  @Column('text')
  kind!: 'employed' | 'rents';

  @Column('text', { name: 'pin_hash', nullable: true })
  pinHash!: string | null;

  @Column('numeric', { name: 'hour_rate', nullable: true, transformer: decimalColumn })
  hourRate!: Decimal | null;

  @Column('numeric', { name: 'commission_share', nullable: true, transformer: decimalColumn })
  commissionShare!: Decimal | null;

  @Column('text', { name: 'commission_on', nullable: true })
  commissionOn!: CommissionOn | null;

  @Column('timestamptz', { name: 'retired_at', nullable: true })
  retiredAt!: Date | null;
}

@Entity('bench')
export class BenchEntity {
  @PrimaryColumn('uuid', { name: 'studio_id' })
  studioId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  @Column('text')
  name!: string;

  @Column('timestamptz', { name: 'retired_at', nullable: true })
  retiredAt!: Date | null;
}
