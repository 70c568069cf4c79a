/** Purchasing: learned reorder points, price breaks, room on the shelf, and orders. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class Purchasing0008 implements MigrationInterface {
  readonly name = 'Purchasing0008';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      -- Worked out from demand; a derived value, replaced whenever it is worked out anew.
      create table reorder_policy (
        studio_id uuid not null,
        product_id uuid not null,
        point numeric(14,3) not null check (point >= 0),
        up_to numeric(14,3) not null check (up_to >= point),
        made_at timestamptz not null,
        basis jsonb not null,
        primary key (studio_id, product_id),
        foreign key (studio_id, product_id) references product
      );

      create table price_break (
        studio_id uuid not null,
        pack_id uuid not null,
        from_packs integer not null check (from_packs between 2 and 100000),
        pack_price numeric(18,6) not null check (pack_price >= 0),
        primary key (studio_id, pack_id, from_packs),
        foreign key (studio_id, pack_id) references pack on delete cascade
      );

      create table storage_limit (
        studio_id uuid not null,
        product_id uuid not null,
        most_packs integer not null check (most_packs between 1 and 100000),
        primary key (studio_id, product_id),
        foreign key (studio_id, product_id) references product
      );

      create table purchase_order (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        supplier_id uuid,
        ordered_on date not null,
        recorded_at timestamptz not null,
        person_id uuid,
        note text,
        cancelled_at timestamptz,
        primary key (studio_id, id),
        foreign key (studio_id, supplier_id) references supplier
      );
      create index purchase_order_newest on purchase_order (studio_id, seq);

      create table purchase_order_line (
        studio_id uuid not null,
        order_id uuid not null,
        position integer not null,
        product_id uuid not null,
        pack_label text not null,
        pack_quantity numeric(14,3) not null check (pack_quantity > 0),
        order_code text,
        packs integer not null check (packs > 0),
        pack_price numeric(18,6) check (pack_price >= 0),
        quantity numeric(14,3) not null check (quantity = packs * pack_quantity),
        -- Kept by the triggers below from the deliveries that name the order.
        received numeric(14,3) not null default 0 check (received >= 0),
        cancelled boolean not null default false,
        primary key (studio_id, order_id, position),
        foreign key (studio_id, order_id) references purchase_order,
        foreign key (studio_id, product_id) references product
      );
      create index purchase_order_line_awaited on purchase_order_line (studio_id, product_id)
        where received < quantity and not cancelled;
      create index delivery_order on delivery (studio_id, order_id) where order_id is not null;

      -- What came of an order, from all its deliveries that stand: lines of a product are filled
      -- in their order, what is too much goes to the last one.
      create function keep_received(studio uuid, ordered uuid) returns void language sql
      security definer set search_path = public as $f$
        with came as (
          select l.product_id, sum(l.quantity) as total
            from delivery d
            join delivery_line l on l.studio_id = d.studio_id and l.delivery_id = d.id
           where d.studio_id = studio and d.order_id = ordered
             and not exists (select from journal r
               where r.studio_id = d.studio_id and r.reverses_id = d.id)
           group by l.product_id
        ), lines as (
          select p.position, p.quantity, coalesce(came.total, 0) as total,
            sum(p.quantity) over (partition by p.product_id order by p.position)
              - p.quantity as before,
            p.position = max(p.position) over (partition by p.product_id) as is_last
            from purchase_order_line p
            left join came on came.product_id = p.product_id
           where p.studio_id = studio and p.order_id = ordered
        )
        update purchase_order_line p
           set received = case when l.is_last then greatest(0, l.total - l.before)
             else least(l.quantity, greatest(0, l.total - l.before)) end
          from lines l
         where p.studio_id = studio and p.order_id = ordered and p.position = l.position;
      $f$;

      create function order_is_received() returns trigger language plpgsql as $f$
      begin
        perform keep_received(o.studio_id, o.order_id) from (
          select distinct d.studio_id, d.order_id from arrived a
            join delivery d on d.studio_id = a.studio_id and d.id = a.delivery_id
           where d.order_id is not null) o;
        return null;
      end $f$;
      create trigger delivery_line_keeps_order after insert on delivery_line
        referencing new table as arrived for each statement execute function order_is_received();

      create function order_is_awaited_again() returns trigger language plpgsql as $f$
      begin
        perform keep_received(d.studio_id, d.order_id) from delivery d
         where d.studio_id = new.studio_id and d.id = new.reverses_id and d.order_id is not null;
        return null;
      end $f$;
      create trigger journal_keeps_order after insert on journal
        for each row when (new.kind = 'reversal') execute function order_is_awaited_again();

      select guard_studio_table(t, 'select, insert, update, delete')
        from unnest(array['reorder_policy', 'price_break', 'storage_limit']) t;
      select guard_studio_table(t, 'select, insert')
        from unnest(array['purchase_order', 'purchase_order_line']) t;
      grant update (cancelled_at) on purchase_order to bowlworth_service;
      grant update (cancelled) on purchase_order_line to bowlworth_service;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop trigger journal_keeps_order on journal;
      drop trigger delivery_line_keeps_order on delivery_line;
      drop function order_is_awaited_again();
      drop function order_is_received();
      drop function keep_received(uuid, uuid);
      drop index delivery_order;
      drop table purchase_order_line, purchase_order, storage_limit, price_break, reorder_policy;
    `);
  }
}
