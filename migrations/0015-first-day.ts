/** The first day: whether a studio of one's own is open, and products that are named later. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class FirstDay0015 implements MigrationInterface {
  readonly name = 'FirstDay0015';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      -- The service sees one studio at a time; whether there is any of somebody's own decides
      -- who may open the first one from a page, and nothing else is told of it.
      create function own_studio_is_open() returns boolean language sql stable
      security definer set search_path = public
      as $f$ select exists (select from studio where not demo) $f$;
      revoke all on function own_studio_is_open() from public;
      grant execute on function own_studio_is_open() to bowlworth_service;

      -- Poured before anybody entered it: its name is to be asked for.
      alter table product add column named_later boolean not null default false;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      alter table product drop column named_later;
      drop function own_studio_is_open();
    `);
  }
}
