/** What the studio keeps and whom it serves: products in packs, suppliers, services, clients. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class Catalogue0003 implements MigrationInterface {
  readonly name = 'Catalogue0003';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table supplier (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        name text not null check (length(name) between 1 and 120),
        lead_time_days integer check (lead_time_days between 0 and 365),
        minimum_order numeric(18,6) check (minimum_order >= 0),
        freight numeric(18,6) check (freight >= 0),
        free_freight_from numeric(18,6) check (free_freight_from >= 0),
        order_day smallint check (order_day between 1 and 7),
        retired_at timestamptz,
        primary key (studio_id, id)
      );

      create table product (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        name text not null check (length(name) between 1 and 120),
        kind text not null check (kind in ('lightener', 'developer', 'toner', 'permanent',
          'direct', 'additive', 'care', 'sundry', 'water')),
        unit text not null check (unit in ('g', 'ml', 'piece')),
        line text,
        strength_vol numeric(7,3) check (strength_vol between 0 and 100),
        percent numeric(7,4) check (percent between 0 and 100),
        density_g_per_ml numeric(8,5) check (density_g_per_ml > 0),
        grams_per_piece numeric(12,3) check (grams_per_piece > 0),
        dose_quantity numeric(14,3) check (dose_quantity > 0),
        open_life_days integer check (open_life_days > 0),
        working_minutes integer check (working_minutes between 1 and 600),
        scalp_ceiling_vol numeric(7,3) check (scalp_ceiling_vol between 0 and 100),
        off_scalp_ceiling_vol numeric(7,3) check (off_scalp_ceiling_vol between 0 and 100),
        reorder_point numeric(14,3) check (reorder_point >= 0),
        lead_time_days integer check (lead_time_days between 0 and 365),
        service_level numeric(7,6) check (service_level > 0 and service_level < 1),
        keep_sealed integer check (keep_sealed >= 0),
        supplier_id uuid,
        retired_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, supplier_id) references supplier,
        check (kind <> 'developer' or strength_vol is not null)
      );

      create table pack (
        studio_id uuid not null,
        id uuid not null,
        product_id uuid not null,
        position integer not null,
        label text not null check (length(label) between 1 and 80),
        quantity numeric(14,3) not null check (quantity > 0),
        gtin text check (gtin ~ '^[0-9]{14}$'),
        order_code text,
        empty_weight_g numeric(14,3) check (empty_weight_g >= 0),
        list_price numeric(18,6) check (list_price >= 0),
        primary key (studio_id, id),
        unique (studio_id, product_id, label),
        constraint pack_gtin unique (studio_id, gtin),
        foreign key (studio_id, product_id) references product
      );

      create table service (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        name text not null check (length(name) between 1 and 120),
        price numeric(18,6) not null check (price >= 0),
        hands_on_minutes integer not null default 0 check (hands_on_minutes between 0 and 1440),
        chair_minutes integer not null default 0 check (chair_minutes between 0 and 1440),
        kit jsonb not null default '[]'::jsonb,
        in_the_price jsonb not null default '[]'::jsonb,
        retired_at timestamptz,
        primary key (studio_id, id)
      );

      create table vessel (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        label text not null check (length(label) between 1 and 80),
        mark text,
        tare_g numeric(14,3) not null check (tare_g >= 0),
        brush_g numeric(14,3) check (brush_g >= 0),
        retired_at timestamptz,
        primary key (studio_id, id)
      );

      create table purpose (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        name text not null check (length(name) between 1 and 60),
        retired_at timestamptz,
        primary key (studio_id, id),
        unique (studio_id, name)
      );

      create table client (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        number integer not null,
        name text check (length(name) between 1 and 120),
        contact text,
        notes text,
        next_time text,
        hair_length text check (hair_length in ('short', 'medium', 'long', 'very long')),
        hair_density text check (hair_density in ('fine', 'medium', 'thick')),
        sixteen_or_older boolean,
        retired_at timestamptz,
        forgotten_at timestamptz,
        primary key (studio_id, id),
        unique (studio_id, number)
      );

      create table sensitivity_test (
        studio_id uuid not null,
        id uuid not null,
        seq bigint generated always as identity,
        client_id uuid not null,
        line text not null,
        placed_at timestamptz not null,
        read_at timestamptz,
        result text check (result in ('no reaction', 'reaction')),
        person_id uuid,
        primary key (studio_id, id),
        foreign key (studio_id, client_id) references client,
        foreign key (studio_id, person_id) references person,
        check (read_at is null or read_at >= placed_at),
        check (result is null or read_at is not null)
      );
      create index sensitivity_test_client on sensitivity_test (studio_id, client_id);

      create table formula (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        client_id uuid,
        name text not null check (length(name) between 1 and 120),
        purpose text,
        plan jsonb not null,
        poured jsonb,
        minutes_on_hair integer check (minutes_on_hair between 0 and 600),
        next_time text,
        retired_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, client_id) references client
      );
      create index formula_client on formula (studio_id, client_id);

      -- lists are read newest first
      do $$ declare t text; begin
        foreach t in array array['supplier', 'product', 'service', 'vessel', 'purpose', 'client',
          'formula'] loop
          execute format('create index %I on %I (studio_id, seq)', t || '_newest', t);
        end loop;
      end $$;
      create index pack_product on pack (studio_id, product_id, position);

      select guard_studio_table(t, 'select, insert, update')
        from unnest(array['supplier', 'product', 'service', 'vessel', 'purpose', 'client',
          'formula']) t;
      select guard_studio_table(t, 'select, insert, update, delete')
        from unnest(array['pack', 'sensitivity_test']) t;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop table formula, sensitivity_test, client, purpose, vessel, service, pack, product,
        supplier;
    `);
  }
}
