/** Visits, the bowls mixed for them, every pour, weighing and settlement. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class VisitsAndBowls0004 implements MigrationInterface {
  readonly name = 'VisitsAndBowls0004';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table visit (
        studio_id uuid not null references studio,
        id uuid not null,
        client_id uuid,
        person_id uuid,
        kind text not null default 'client'
          check (kind in ('client', 'redo', 'model', 'training', 'test', 'own staff')),
        redo_of uuid,
        started_at timestamptz not null,
        closed_at timestamptz,
        chair_minutes integer check (chair_minutes between 0 and 1440),
        discount jsonb,
        payments jsonb not null default '[]'::jsonb,
        tip numeric(18,6) check (tip >= 0),
        recorded_at timestamptz not null,
        primary key (studio_id, id),
        foreign key (studio_id, client_id) references client,
        foreign key (studio_id, person_id) references person,
        foreign key (studio_id, redo_of) references visit
      );
      create index visit_started on visit (studio_id, started_at);
      create index visit_client on visit (studio_id, client_id, started_at);

      create table visit_service (
        studio_id uuid not null,
        visit_id uuid not null,
        position integer not null,
        service_id uuid not null,
        price numeric(18,6) not null check (price >= 0),
        primary key (studio_id, visit_id, position),
        foreign key (studio_id, visit_id) references visit,
        foreign key (studio_id, service_id) references service
      );

      create table visit_minutes (
        studio_id uuid not null,
        visit_id uuid not null,
        person_id uuid not null,
        minutes integer not null check (minutes between 0 and 1440),
        primary key (studio_id, visit_id, person_id),
        foreign key (studio_id, visit_id) references visit,
        foreign key (studio_id, person_id) references person
      );

      create table bowl (
        studio_id uuid not null references studio,
        id uuid not null,
        visit_id uuid,
        purpose text not null check (length(purpose) between 1 and 60),
        contact text check (contact in ('scalp', 'off-scalp')),
        plan jsonb,
        formula_id uuid,
        vessel_id uuid,
        tare_g numeric(14,3) check (tare_g >= 0),
        max_total_g numeric(14,3) check (max_total_g > 0),
        mark text,
        state text not null default 'planned'
          check (state in ('planned', 'open', 'settled', 'void')),
        sized_by uuid,
        mixed_by uuid,
        applied_by uuid,
        bench_id uuid,
        planned_at timestamptz not null,
        recorded_at timestamptz not null,
        first_contact_at timestamptz,
        last_pour_at timestamptz,
        settled_at timestamptz,
        estimated boolean not null default false,
        late boolean not null default false,
        -- What was poured or received, what went on, what it holds now: grams as weighed.
        mixed_g numeric(14,3) not null default 0 check (mixed_g >= 0),
        held_g numeric(14,3) not null default 0 check (held_g >= 0),
        wasted_g numeric(14,3) not null default 0 check (wasted_g >= 0),
        why text check (why in ('left over', 'spilled', 'mixed wrong', 'stopped')),
        borne_by text check (borne_by in ('visit', 'studio')),
        primary key (studio_id, id),
        foreign key (studio_id, visit_id) references visit,
        foreign key (studio_id, formula_id) references formula,
        foreign key (studio_id, vessel_id) references vessel,
        foreign key (studio_id, sized_by) references person,
        foreign key (studio_id, mixed_by) references person,
        foreign key (studio_id, applied_by) references person,
        check (state <> 'settled' or held_g = 0),
        check (wasted_g <= mixed_g),
        check ((state = 'settled') = (settled_at is not null))
      );
      create index bowl_visit on bowl (studio_id, visit_id);
      create index bowl_open on bowl (studio_id) where state = 'open';
      create index bowl_last_pour on bowl (studio_id, last_pour_at);

      create table pour (
        studio_id uuid not null,
        id uuid not null,
        bowl_id uuid not null,
        product_id uuid not null,
        kind text not null default 'poured' check (kind in ('poured', 'received')),
        measured_quantity numeric(14,3) not null check (measured_quantity > 0),
        measured_unit text not null check (measured_unit in ('g', 'ml', 'piece')),
        quantity numeric(14,3) not null check (quantity > 0),
        unit text not null check (unit in ('g', 'ml', 'piece')),
        grams numeric(14,3) not null check (grams > 0),
        assumed_density boolean not null default false,
        side text,
        poured_at timestamptz not null,
        recorded_at timestamptz not null,
        person_id uuid,
        bench_id uuid,
        estimated boolean not null default false,
        scale jsonb,
        from_bowl_id uuid,
        -- The journal that books it now; a late entry may have it booked anew.
        journal_id uuid not null,
        reversed_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, bowl_id) references bowl,
        foreign key (studio_id, product_id) references product,
        foreign key (studio_id, person_id) references person,
        foreign key (studio_id, from_bowl_id) references bowl
      );
      create index pour_bowl on pour (studio_id, bowl_id);

      create table weighing (
        studio_id uuid not null,
        id uuid not null,
        bowl_id uuid not null,
        net_g numeric(14,3) not null check (net_g >= 0),
        weighed_at timestamptz not null,
        recorded_at timestamptz not null,
        person_id uuid,
        journal_id uuid not null,
        reversed_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, bowl_id) references bowl
      );
      create index weighing_bowl on weighing (studio_id, bowl_id);

      create table settlement (
        studio_id uuid not null,
        id uuid not null,
        bowl_id uuid not null,
        leftover_g numeric(14,3) not null check (leftover_g >= 0),
        settled_at timestamptz not null,
        recorded_at timestamptz not null,
        person_id uuid,
        why text not null,
        borne_by text not null,
        estimated boolean not null,
        journal_id uuid not null,
        reversed_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, bowl_id) references bowl
      );
      create unique index settlement_bowl on settlement (studio_id, bowl_id)
        where reversed_at is null;

      create table caution_noted (
        studio_id uuid not null,
        id uuid not null,
        bowl_id uuid not null,
        code text not null,
        answer text not null,
        person_id uuid,
        noted_at timestamptz not null,
        recorded_at timestamptz not null,
        primary key (studio_id, id),
        foreign key (studio_id, bowl_id) references bowl
      );
      create index caution_noted_bowl on caution_noted (studio_id, bowl_id);

      select guard_studio_table(t, 'select, insert, update')
        from unnest(array['visit', 'bowl', 'pour', 'weighing', 'settlement']) t;
      select guard_studio_table(t, 'select, insert, update, delete')
        from unnest(array['visit_service', 'visit_minutes']) t;
      select guard_studio_table('caution_noted', 'select, insert');
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop table caution_noted, settlement, weighing, pour, bowl, visit_minutes, visit_service,
        visit;
    `);
  }
}
