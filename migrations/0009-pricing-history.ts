/** Quotes that were given, kept as they were told. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class PricingHistory0009 implements MigrationInterface {
  readonly name = 'PricingHistory0009';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table quote (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        client_id uuid,
        person_id uuid,
        made_at timestamptz not null,
        valid_until date not null,
        quote jsonb not null,
        primary key (studio_id, id),
        foreign key (studio_id, client_id) references client,
        foreign key (studio_id, person_id) references person
      );
      create index quote_newest on quote (studio_id, seq);
      create index quote_client on quote (studio_id, client_id, seq);
      select guard_studio_table('quote', 'select, insert');
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop table quote;
    `);
  }
}
