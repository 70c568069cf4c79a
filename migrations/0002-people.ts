/** Who works in the studio and at which benches; how they sign in. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class People0002 implements MigrationInterface {
  readonly name = 'People0002';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table person (
        studio_id uuid not null references studio,
        id uuid not null,
        name text not null check (length(name) between 1 and 120),
        role text not null check (role in ('owner', 'manager', 'stylist')),
        kind text not null default 'employed' check (kind in ('employed', 'rents')),
        pin_hash text,
        hour_rate numeric(18,6) check (hour_rate >= 0),
        commission_share numeric(7,6) check (commission_share between 0 and 1),
        commission_on text check (commission_on in ('gross', 'net', 'net_less_product')),
        retired_at timestamptz,
        primary key (studio_id, id),
        check ((commission_share is null) = (commission_on is null))
      );
      select guard_studio_table('person', 'select, insert, update');

      create table bench (
        studio_id uuid not null references studio,
        id uuid not null,
        name text not null check (length(name) between 1 and 120),
        retired_at timestamptz,
        primary key (studio_id, id)
      );
      select guard_studio_table('bench', 'select, insert, update');

      -- a secret that a program or a device holds; only its SHA-256 is kept
      create table token (
        studio_id uuid not null references studio,
        id uuid not null,
        name text not null check (length(name) between 1 and 120),
        role text not null check (role in ('owner', 'manager', 'stylist', 'bench')),
        bench_id uuid,
        secret_hash bytea not null check (octet_length(secret_hash) = 32),
        made_at timestamptz not null,
        made_by uuid,
        used_at timestamptz,
        revoked_at timestamptz,
        primary key (studio_id, id),
        unique (studio_id, secret_hash),
        foreign key (studio_id, bench_id) references bench,
        foreign key (studio_id, made_by) references person
      );
      select guard_studio_table('token', 'select, insert, update');

      create table session (
        studio_id uuid not null references studio,
        id uuid not null,
        secret_hash bytea not null check (octet_length(secret_hash) = 32),
        person_id uuid not null,
        token_id uuid not null,
        started_at timestamptz not null,
        expires_at timestamptz not null check (expires_at > started_at),
        ended_at timestamptz,
        primary key (studio_id, id),
        unique (studio_id, secret_hash),
        foreign key (studio_id, person_id) references person,
        foreign key (studio_id, token_id) references token
      );
      create index session_person on session (studio_id, person_id) where ended_at is null;
      select guard_studio_table('session', 'select, insert, update, delete');

      -- wrong PINs of one person on one device since the last right one
      create table wrong_pin (
        studio_id uuid not null,
        person_id uuid not null,
        token_id uuid not null,
        tries integer not null check (tries >= 0),
        locks integer not null check (locks >= 0),
        locked_until timestamptz,
        primary key (studio_id, person_id, token_id),
        foreign key (studio_id, person_id) references person,
        foreign key (studio_id, token_id) references token
      );
      select guard_studio_table('wrong_pin', 'select, insert, update, delete');

      -- backup and the command line must find the studios before they can stand in one
      do $$ begin
        execute format('create policy owner_lists_studios on studio for select to %I using (true)',
          current_user);
      end $$;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop policy owner_lists_studios on studio;
      drop table wrong_pin;
      drop table session;
      drop table token;
      drop table bench;
      drop table person;
    `);
  }
}
