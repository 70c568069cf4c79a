/** Anything kept on the shelf and used by weight, volume or piece. */
import { Column, Entity } from 'typeorm';
import type { StockUnit } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import { decimalColumn } from '../../platform/database/columns.js';
import { RetirableRecord } from './record.entity.js';

@Entity('product')
export class ProductEntity extends RetirableRecord {
  @Column('text')
  name!: string;

  @Column('text')
  kind!: ProductKind;

  @Column('text')
  unit!: StockUnit;

  @Column('text', { nullable: true })
  line!: string | null;

  @Column('numeric', { name: 'strength_vol', nullable: true, transformer: decimalColumn })
  strength_vol!: Decimal | null;

  /** As printed; null where nothing is. */
  @Column('numeric', { nullable: true, transformer: decimalColumn })
  percent!: Decimal | null;

  @Column('numeric', { name: 'density_g_per_ml', nullable: true, transformer: decimalColumn })
  density_g_per_ml!: Decimal | null;

  @Column('numeric', { name: 'grams_per_piece', nullable: true, transformer: decimalColumn })
  gramsPerPiece!: Decimal | null;

  /** In the product's own unit. */
  @Column('numeric', { name: 'dose_quantity', nullable: true, transformer: decimalColumn })
  dose!: Decimal | null;

  @Column('integer', { name: 'open_life_days', nullable: true })
  openLifeDays!: number | null;

  @Column('integer', { name: 'working_minutes', nullable: true })
  workingMinutes!: number | null;

  @Column('numeric', { name: 'scalp_ceiling_vol', nullable: true, transformer: decimalColumn })
  scalpCeiling_vol!: Decimal | null;

  @Column('numeric', { name: 'off_scalp_ceiling_vol', nullable: true, transformer: decimalColumn })
  offScalpCeiling_vol!: Decimal | null;

  @Column('numeric', { name: 'reorder_point', nullable: true, transformer: decimalColumn })
  reorderPoint!: Decimal | null;

  @Column('integer', { name: 'lead_time_days', nullable: true })
  leadTimeDays!: number | null;

  @Column('numeric', { name: 'service_level', nullable: true, transformer: decimalColumn })
  serviceLevel!: Decimal | null;

  @Column('integer', { name: 'keep_sealed', nullable: true })
  keepSealed!: number | null;

  @Column('uuid', { name: 'supplier_id', nullable: true })
  supplierId!: string | null;

  /** Poured before anybody entered it; its name is still to be given. */
  @Column('boolean', { name: 'named_later' })
  namedLater!: boolean;
}
