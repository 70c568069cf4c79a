/** Price sheets that never change, what a visit's closing says, and costs that were found later. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class Pricing0007 implements MigrationInterface {
  readonly name = 'Pricing0007';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      alter table visit
        add column deposits jsonb not null default '[]'::jsonb,
        add column tip_method text check (tip_method in ('card', 'cash', 'other')),
        add column tip_person_id uuid,
        -- The studio's rules and rates as they were at the closing.
        add column terms jsonb,
        add foreign key (studio_id, tip_person_id) references person,
        add check (tip is null or tip_method is not null),
        add check (closed_at is null or closed_at >= started_at);
      create index visit_redo_of on visit (studio_id, redo_of) where redo_of is not null;
      create index visit_person on visit (studio_id, person_id, started_at);
      create index visit_service_service on visit_service (studio_id, service_id);
      create index movement_used_in_visit on movement (studio_id, visit_id)
        where visit_id is not null and from_bowl_id is null and to_bowl_id is null;

      create table price_sheet (
        studio_id uuid not null references studio,
        id uuid not null,
        visit_id uuid not null,
        version integer not null check (version >= 1),
        replaces uuid,
        made_at timestamptz not null,
        -- What it rests on: the last movement in it, and a hash of all that went into it.
        ledger_seq bigint not null,
        basis bytea not null check (octet_length(basis) = 32),
        sheet jsonb not null,
        primary key (studio_id, id),
        unique (studio_id, visit_id, version),
        unique (studio_id, visit_id, id),
        unique (studio_id, replaces),
        foreign key (studio_id, visit_id) references visit,
        foreign key (studio_id, visit_id, replaces)
          references price_sheet (studio_id, visit_id, id),
        check ((version = 1) = (replaces is null))
      );
      select guard_studio_table('price_sheet', 'select, insert');
      create function refuse_sheet_change() returns trigger language plpgsql as $f$
      begin
        raise exception 'a price sheet never changes: % is refused; a new one replaces it', tg_op
          using errcode = 'restrict_violation';
      end $f$;
      create trigger price_sheet_append_only before update or delete or truncate on price_sheet
        for each statement execute function refuse_sheet_change();

      -- A cost correction values what went to head or bin at no cost, by product, lot and visit.
      -- Here its value is given back to what it was booked for, so that it follows a bowl that is
      -- moved: pro rata of the quantity, rounded so that the parts add up.
      create view cost_found_later with (security_invoker = true) as
        with fix as (
          select c.studio_id, c.seq, c.product_id, c.lot_id, c.to_place as place, c.visit_id,
              c.quantity, c.value
            from movement c
           where c.journal_kind = 'cost correction' and c.from_place = 'correction'
             and c.to_place in ('head', 'bin')
             and not exists (select from movement r
               where r.studio_id = c.studio_id and r.reverses_id = c.id)
        ), source as (
          select m.studio_id, m.seq, m.product_id, m.lot_id, m.to_place as place, m.visit_id,
              m.from_bowl_id as bowl_id, m.quantity,
              (select min(f.seq) from fix f
                where f.studio_id = m.studio_id and f.product_id = m.product_id
                  and f.lot_id = m.lot_id and f.place = m.to_place
                  and f.visit_id is not distinct from m.visit_id and f.seq > m.seq) as fix_seq
            from movement m
           where m.value = 0 and m.to_place in ('head', 'bin')
             and m.journal_kind in ('use', 'discard', 'weighing', 'settlement')
             and exists (select from fix f where f.studio_id = m.studio_id
               and f.product_id = m.product_id and f.lot_id = m.lot_id)
        ), standing as (
          select s.*, sum(s.quantity) over (partition by s.studio_id, s.fix_seq order by s.seq)
              as upto
            from source s
           where s.fix_seq is not null and not exists (
             select from movement r join movement m on m.studio_id = r.studio_id
                and m.id = r.reverses_id
              where r.studio_id = s.studio_id and m.seq = s.seq and r.seq < s.fix_seq)
        )
        select s.studio_id, s.seq, s.bowl_id, s.visit_id, s.product_id, s.lot_id, s.place,
            s.quantity, s.fix_seq,
            round(f.value * s.upto / f.quantity, 6)
              - round(f.value * (s.upto - s.quantity) / f.quantity, 6) as value
          from standing s join fix f on f.studio_id = s.studio_id and f.seq = s.fix_seq;
      grant select on cost_found_later to bowlworth_service;
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop view cost_found_later;
      drop table price_sheet;
      drop function refuse_sheet_change();
      drop index movement_used_in_visit;
      drop index visit_service_service;
      drop index visit_person;
      drop index visit_redo_of;
      alter table visit drop column deposits, drop column tip_method, drop column tip_person_id,
        drop column terms;
    `);
  }
}
