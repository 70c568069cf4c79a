/** What a bowl is for, in the studio's words: front, root shadow, gloss. */
import { Column, Entity } from 'typeorm';
import { RetirableRecord } from './record.entity.js';

@Entity('purpose')
export class PurposeEntity extends RetirableRecord {
  @Column('text')
  name!: string;
}
