/** What every row of the catalogue begins with: its studio, its id, its place in the order. */
import { Column, PrimaryColumn, type ValueTransformer } from 'typeorm';

/** A point in time is RFC 3339 text in UTC in every entity of the catalogue. */
export const instantColumn: ValueTransformer = {
  to: (instant: string | null | undefined) => instant,
  from: (read: Date | null) => read?.toISOString() ?? null,
};

export abstract class CatalogueRecord {
  @PrimaryColumn('uuid', { name: 'studio_id' })
  studioId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  /** Rises with every new row; lists are read by it, newest first. */
  @Column({ type: 'bigint', insert: false, update: false })
  seq!: string;
}

/** A row that can leave the lists and stay in history. */
export abstract class RetirableRecord extends CatalogueRecord {
  @Column('timestamptz', { name: 'retired_at', nullable: true, transformer: instantColumn })
  retiredAt!: string | null;
}
