/** Requests that carried an id, with their first answer: kept for ever, none counts twice. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class Requests0006 implements MigrationInterface {
  readonly name = 'Requests0006';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table request_once (
        studio_id uuid not null references studio,
        id uuid not null,
        call text not null,
        content_hash bytea not null check (octet_length(content_hash) = 32),
        answer json not null,
        recorded_at timestamptz not null,
        primary key (studio_id, id)
      );
      select guard_studio_table('request_once', 'select, insert');
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('drop table request_once');
  }
}
