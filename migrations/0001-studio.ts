/** The floor of the schema: the service's role, the guard that keeps studios apart, the studio. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class Studio0001 implements MigrationInterface {
  readonly name = 'Studio0001';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      do $$ begin
        if not exists (select from pg_roles where rolname = 'bowlworth_service') then
          create role bowlworth_service nologin;
        end if;
      exception when duplicate_object or unique_violation then null; -- another copy was first
      end $$;
      do $$ begin
        execute format('grant bowlworth_service to %I', current_user);
      exception when others then null; -- a superuser needs no grant, a member has it
      end $$;
      grant usage on schema public to bowlworth_service;

      create function current_studio() returns uuid language sql stable
      as $f$ select nullif(current_setting('bowlworth.studio_id', true), '')::uuid $f$;

      -- Keeps the rows of studios apart even where a query forgets, and grants the service
      -- only what it may do with the table.
      create function guard_studio_table(table_name text, rights text)
      returns void language plpgsql as $f$
      begin
        execute format('alter table %I enable row level security', table_name);
        execute format('alter table %I force row level security', table_name);
        execute format(
          'create policy own_studio on %I using (studio_id = current_studio())'
          ' with check (studio_id = current_studio())', table_name);
        execute format('grant %s on %I to bowlworth_service', rights, table_name);
      end $f$;

      create table studio (
        studio_id uuid primary key,
        name text not null check (length(name) between 1 and 120),
        currency char(3) not null check (currency ~ '^[A-Z]{3}$'),
        time_zone text not null,
        country char(2) check (country ~ '^[A-Z]{2}$'),
        costing_method text not null default 'fifo' check (costing_method in ('fifo', 'average')),
        demo boolean not null default false,
        locked_before date,
        settings jsonb not null default '{}'::jsonb
      );
      select guard_studio_table('studio', 'select, insert, update');
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop table studio;
      drop function guard_studio_table(text, text);
      drop function current_studio();
    `);
  }
}
