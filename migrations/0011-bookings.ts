/** Bookings from the diary, rules for its words, closed days; demand that people mark. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class Bookings0011 implements MigrationInterface {
  readonly name = 'Bookings0011';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table booking (
        studio_id uuid not null references studio,
        id uuid not null,
        -- Which diary it is from, the diary's own id of it (hashed: such ids hold addresses), and
        -- which time of a series.
        source text not null check (length(source) between 1 and 60),
        uid_hash text not null,
        occurrence text not null default '',
        sequence integer not null default 0 check (sequence >= 0),
        starts_at timestamptz not null,
        ends_at timestamptz check (ends_at >= starts_at),
        all_day boolean not null default false,
        -- In the studio's time zone.
        day date not null,
        -- First name and initial, and only where no client of the studio is meant.
        who text check (length(who) <= 40),
        what text not null check (length(what) <= 100),
        client_id uuid,
        -- When it came into the diary, as far as anybody knows, and when it came here.
        booked_at timestamptz not null,
        recorded_at timestamptz not null,
        called_off_at timestamptz,
        visit_id uuid,
        primary key (studio_id, id),
        unique (studio_id, source, uid_hash, occurrence),
        unique (studio_id, visit_id),
        foreign key (studio_id, client_id) references client,
        foreign key (studio_id, visit_id) references visit,
        check (client_id is null or who is null)
      );
      create index booking_day on booking (studio_id, day);

      -- In their order; without a service: not a visit.
      create table booking_rule (
        studio_id uuid not null references studio,
        position integer not null,
        words text not null check (length(words) between 1 and 100),
        service_ids uuid[] not null,
        primary key (studio_id, position)
      );

      -- How often and when anything of the diary changed, and when a file of it was read last.
      create table diary_change (
        studio_id uuid primary key references studio,
        changes bigint not null default 1,
        changed_at timestamptz not null,
        read_at timestamptz
      );

      create table closure (
        studio_id uuid not null references studio,
        id uuid not null,
        first_day date not null,
        last_day date not null check (last_day >= first_day),
        name text not null check (length(name) <= 100),
        primary key (studio_id, id),
        unique (studio_id, first_day, last_day, name)
      );

      -- A person says that there was none: use of these days is not known.
      create table out_of_stock (
        studio_id uuid not null,
        id uuid not null,
        product_id uuid not null,
        first_day date not null,
        last_day date not null check (last_day >= first_day),
        person_id uuid,
        recorded_at timestamptz not null,
        primary key (studio_id, id),
        foreign key (studio_id, product_id) references product,
        foreign key (studio_id, person_id) references person
      );
      create index out_of_stock_product on out_of_stock (studio_id, product_id);

      -- The use of the old one, times the factor, counts as the new one's.
      create table replacement (
        studio_id uuid not null,
        product_id uuid not null,
        replaces_id uuid not null,
        factor numeric(12,6) not null check (factor > 0),
        primary key (studio_id, product_id),
        unique (studio_id, replaces_id),
        foreign key (studio_id, product_id) references product,
        foreign key (studio_id, replaces_id) references product,
        check (product_id <> replaces_id)
      );

      select guard_studio_table(t, 'select, insert, update, delete')
        from unnest(array['booking', 'booking_rule', 'diary_change', 'closure', 'out_of_stock',
          'replacement']) t;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      'drop table replacement, out_of_stock, closure, diary_change, booking_rule, booking',
    );
  }
}
