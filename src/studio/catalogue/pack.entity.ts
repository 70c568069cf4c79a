/** How a product is bought: 500 g tub, 1000 ml bottle, box of 500. */
import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { Decimal } from '../../../shared/decimal.js';
import { decimalColumn } from '../../platform/database/columns.js';

@Entity('pack')
export class PackEntity {
  @PrimaryColumn('uuid', { name: 'studio_id' })
  studioId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  @Column('uuid', { name: 'product_id' })
  productId!: string;

  @Column('integer')
  position!: number;

  @Column('text')
  label!: string;

  /** In the product's own unit. */
  @Column('numeric', { transformer: decimalColumn })
  quantity!: Decimal;

  /** 14 digits. */
  @Column('text', { nullable: true })
  gtin!: string | null;

  @Column('text', { name: 'order_code', nullable: true })
  orderCode!: string | null;

  @Column('numeric', { name: 'empty_weight_g', nullable: true, transformer: decimalColumn })
  emptyWeight_g!: Decimal | null;

  @Column('numeric', { name: 'list_price', nullable: true, transformer: decimalColumn })
  listPrice!: Decimal | null;
}
