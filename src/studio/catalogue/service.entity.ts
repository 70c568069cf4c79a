/** What the studio offers, as it was from the beginning; what it is later are its versions. */
import { Column, Entity } from 'typeorm';
import type { InThePriceItem, KitItem } from '../../../shared/contract/catalogue.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';
import type { Decimal } from '../../../shared/decimal.js';
import { decimalColumn } from '../../platform/database/columns.js';
import { RetirableRecord } from './record.entity.js';

@Entity('service')
export class ServiceEntity extends RetirableRecord {
  @Column('text')
  name!: string;

  @Column('numeric', { transformer: decimalColumn })
  price!: Decimal;

  @Column('integer', { name: 'hands_on_minutes', default: 0 })
  handsOnMinutes!: number;

  @Column('integer', { name: 'chair_minutes', default: 0 })
  chairMinutes!: number;

  @Column('jsonb', { default: [] })
  kit!: KitItem[];

  @Column('jsonb', { name: 'in_the_price', default: [] })
  inThePrice!: InThePriceItem[];

  @Column('jsonb', { name: 'on_top', default: [] })
  onTop!: OnTopSetting[];
}
