/** Ratio, strength and products, saved for a client or for the studio. */
import { Column, Entity } from 'typeorm';
import { RetirableRecord } from './record.entity.js';

@Entity('formula')
export class FormulaEntity extends RetirableRecord {
  /** Null: the studio's own. */
  @Column('uuid', { name: 'client_id', nullable: true })
  clientId!: string | null;

  @Column('text')
  name!: string;

  @Column('text', { nullable: true })
  purpose!: string | null;

  /** A request to plan a mix. */
  @Column('jsonb')
  plan!: Record<string, unknown>;

  @Column('jsonb', { nullable: true })
  poured!: Record<string, unknown> | null;

  @Column('integer', { name: 'minutes_on_hair', nullable: true })
  minutesOnHair!: number | null;

  @Column('text', { name: 'next_time', nullable: true })
  nextTime!: string | null;
}
