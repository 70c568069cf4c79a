/** Whom the studio serves; what is personal can be emptied, the number stays. */
import { Column, Entity } from 'typeorm';
import type { HairDensity, HairLength } from '../../../shared/contract/clients.js';
import { instantColumn, RetirableRecord } from './record.entity.js';

@Entity('client')
export class ClientEntity extends RetirableRecord {
  @Column('integer')
  number!: number;

  @Column('text', { nullable: true })
  name!: string | null;

  @Column('text', { nullable: true })
  contact!: string | null;

  @Column('text', { nullable: true })
  notes!: string | null;

  @Column('text', { name: 'next_time', nullable: true })
  nextTime!: string | null;

  @Column('text', { name: 'hair_length', nullable: true })
  hairLength!: HairLength | null;

  @Column('text', { name: 'hair_density', nullable: true })
  hairDensity!: HairDensity | null;

  @Column('boolean', { name: 'sixteen_or_older', nullable: true })
  sixteenOrOlder!: boolean | null;

  @Column('timestamptz', { name: 'forgotten_at', nullable: true, transformer: instantColumn })
  forgottenAt!: string | null;
}
