/** A physical bowl with a known empty weight and a mark. */
import { Column, Entity } from 'typeorm';
import type { Decimal } from '../../../shared/decimal.js';
import { decimalColumn } from '../../platform/database/columns.js';
import { RetirableRecord } from './record.entity.js';

@Entity('vessel')
export class VesselEntity extends RetirableRecord {
  @Column('text')
  label!: string;

  @Column('text', { nullable: true })
  mark!: string | null;

  @Column('numeric', { name: 'tare_g', transformer: decimalColumn })
  tare_g!: Decimal;

  @Column('numeric', { name: 'brush_g', nullable: true, transformer: decimalColumn })
  brush_g!: Decimal | null;
}
