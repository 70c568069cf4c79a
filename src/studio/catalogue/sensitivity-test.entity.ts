/** A client's sensitivity test of a product line: special personal data, in a table of its own. */
import { Column, Entity } from 'typeorm';
import type { SensitivityResult } from '../../../shared/contract/clients.js';
import { CatalogueRecord, instantColumn } from './record.entity.js';

@Entity('sensitivity_test')
export class SensitivityTestEntity extends CatalogueRecord {
  @Column('uuid', { name: 'client_id' })
  clientId!: string;

  @Column('text')
  line!: string;

  @Column('timestamptz', { name: 'placed_at', transformer: instantColumn })
  placedAt!: string;

  @Column('timestamptz', { name: 'read_at', nullable: true, transformer: instantColumn })
  readAt!: string | null;

  @Column('text', { nullable: true })
  result!: SensitivityResult | null;

  /** Who wrote it down. */
  @Column('uuid', { name: 'person_id', nullable: true })
  personId!: string | null;
}
