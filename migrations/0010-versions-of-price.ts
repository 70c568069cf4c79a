/** What the menu and the rules of price are from which day on; a visit keeps what it began with. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class VersionsOfPrice0010 implements MigrationInterface {
  readonly name = 'VersionsOfPrice0010';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      alter table service add column on_top jsonb not null default '[]'::jsonb;

      -- The row of a service is what it was from the beginning; what it is later stands here.
      -- Of two for one day the one recorded last holds.
      create table service_version (
        studio_id uuid not null,
        id uuid not null,
        service_id uuid not null,
        seq bigint generated always as identity,
        starts_on date not null,
        price numeric(18,6) not null check (price >= 0),
        hands_on_minutes integer not null check (hands_on_minutes between 0 and 1440),
        chair_minutes integer not null check (chair_minutes between 0 and 1440),
        kit jsonb not null,
        in_the_price jsonb not null,
        on_top jsonb not null,
        made_at timestamptz not null,
        person_id uuid,
        withdrawn_at timestamptz,
        primary key (studio_id, id),
        unique (studio_id, service_id, id),
        foreign key (studio_id, service_id) references service,
        foreign key (studio_id, person_id) references person
      );
      create index service_version_in_force
        on service_version (studio_id, service_id, starts_on desc, seq desc)
        where withdrawn_at is null;
      select guard_studio_table('service_version', 'select, insert');
      grant update (withdrawn_at) on service_version to bowlworth_service;

      alter table visit_service add column version_id uuid,
        add foreign key (studio_id, service_id, version_id)
          references service_version (studio_id, service_id, id);

      create table studio_rules (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        starts_on date not null,
        rules jsonb not null,
        made_at timestamptz not null,
        person_id uuid,
        withdrawn_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, person_id) references person
      );
      create index studio_rules_in_force on studio_rules (studio_id, starts_on desc, seq desc)
        where withdrawn_at is null;
      select guard_studio_table('studio_rules', 'select, insert');
      grant update (withdrawn_at) on studio_rules to bowlworth_service;

      create function studio_day(at timestamptz) returns date language sql stable as $f$
        select (at at time zone time_zone)::date from studio where studio_id = current_studio()
      $f$;

      -- The menu as it is on a day; version_id is null for what a service was from the beginning.
      create function menu_on(day date) returns table (id uuid, seq bigint, name text,
        price numeric, hands_on_minutes integer, chair_minutes integer, kit jsonb,
        in_the_price jsonb, on_top jsonb, version_id uuid, starts_on date,
        retired_at timestamptz) language sql stable as $f$
        select s.id, s.seq, s.name,
          case when v.id is null then s.price else v.price end,
          case when v.id is null then s.hands_on_minutes else v.hands_on_minutes end,
          case when v.id is null then s.chair_minutes else v.chair_minutes end,
          case when v.id is null then s.kit else v.kit end,
          case when v.id is null then s.in_the_price else v.in_the_price end,
          case when v.id is null then s.on_top else v.on_top end,
          v.id, v.starts_on, s.retired_at
          from service s
          left join lateral (select * from service_version n
            where n.studio_id = s.studio_id and n.service_id = s.id and n.starts_on <= day
              and n.withdrawn_at is null
            order by n.starts_on desc, n.seq desc limit 1) v on true
         where s.studio_id = current_studio()
      $f$;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop function menu_on(date);
      drop function studio_day(timestamptz);
      drop table studio_rules;
      alter table visit_service drop column version_id;
      drop table service_version;
      alter table service drop column on_top;
    `);
  }
}
