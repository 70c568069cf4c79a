/** The ledger: journals of movements, append-only, and the holdings that a trigger keeps. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

const places = ['supplier', 'shelf', 'bowl', 'head', 'bin', 'correction', 'other studio'];

/** Which way each kind of journal may move a quantity. A reversal goes the other way round. */
const allowedWays: Record<string, readonly (readonly [from: string, to: string])[]> = {
  opening: [['supplier', 'shelf']],
  delivery: [['supplier', 'shelf']],
  pour: [['shelf', 'bowl']],
  'scooped back': [['bowl', 'shelf']],
  division: [['bowl', 'bowl']],
  weighing: [['bowl', 'head']],
  settlement: [
    ['bowl', 'head'],
    ['bowl', 'bin'],
  ],
  use: [['shelf', 'head']],
  discard: [['shelf', 'bin']],
  count: [
    ['shelf', 'correction'],
    ['correction', 'shelf'],
  ],
  'cost correction': ['shelf', 'bowl', 'head', 'bin'].flatMap((place) => [
    [place, 'correction'] as const,
    ['correction', place] as const,
  ]),
  'supplier return': [['shelf', 'supplier']],
  transfer: [
    ['shelf', 'other studio'],
    ['other studio', 'shelf'],
  ],
};

/** Beyond its own way, any journal may book a shortfall, give it back, or say "counted". */
const anyKind = [
  ['correction', 'shelf'],
  ['shelf', 'correction'],
] as const;

const list = (words: readonly string[]) => words.map((word) => `'${word}'`).join(', ');

function waysCheck(): string {
  const pair = ([from, to]: readonly [string, string]) => `('${from}', '${to}')`;
  const perKind = Object.entries(allowedWays).map(
    ([kind, ways]) =>
      `(journal_kind = '${kind}' and (from_place, to_place) in (${ways.map(pair).join(', ')}))`,
  );
  return [
    `journal_kind = 'reversal'`,
    `(from_place, to_place) in (${anyKind.map(pair).join(', ')})`,
    ...perKind,
  ].join('\n          or ');
}

/** Columns of a product's holding: quantity and value at every place, in and out netted. */
const net = places.map((place) => place.replace(' ', '_'));

export class Ledger0005 implements MigrationInterface {
  readonly name = 'Ledger0005';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(this.tables());
    await runner.query(this.holdings());
    await runner.query(this.triggers());
    await runner.query(this.guards());
  }

  private tables(): string {
    return `
      create table journal (
        studio_id uuid not null references studio,
        id uuid not null,
        kind text not null check (kind in (${list([...Object.keys(allowedWays), 'reversal'])})),
        happened_at timestamptz not null,
        recorded_at timestamptz not null,
        person_id uuid,
        bench_id uuid,
        visit_id uuid,
        bowl_id uuid,
        reverses_id uuid,
        flags text[] not null default '{}',
        note text,
        primary key (studio_id, id),
        unique (studio_id, reverses_id),
        foreign key (studio_id, reverses_id) references journal,
        foreign key (studio_id, person_id) references person,
        foreign key (studio_id, visit_id) references visit,
        foreign key (studio_id, bowl_id) references bowl,
        check ((kind = 'reversal') = (reverses_id is not null))
      );
      create index journal_bowl on journal (studio_id, bowl_id);

      create table lot (
        studio_id uuid not null,
        id uuid not null,
        product_id uuid not null,
        source text not null check (source in
          ('opening', 'delivery', 'found', 'shortfall', 'transfer')),
        received_on date not null,
        expires_on date,
        lot_code text,
        quantity numeric(14,3) not null check (quantity >= 0),
        cost numeric(18,6) not null check (cost >= 0),
        journal_id uuid not null,
        primary key (studio_id, id),
        unique (studio_id, product_id, id),
        foreign key (studio_id, product_id) references product
      );
      create unique index lot_shortfall on lot (studio_id, product_id)
        where source = 'shortfall';
      create index lot_product on lot (studio_id, product_id, received_on);

      create table movement (
        studio_id uuid not null,
        seq bigint generated always as identity,
        id uuid not null,
        journal_id uuid not null,
        journal_kind text not null,
        product_id uuid not null,
        lot_id uuid not null,
        from_place text not null check (from_place in (${list(places)})),
        to_place text not null check (to_place in (${list(places)})),
        from_bowl_id uuid,
        from_pour_id uuid,
        to_bowl_id uuid,
        to_pour_id uuid,
        visit_id uuid,
        quantity numeric(14,3) not null check (quantity > 0),
        value numeric(18,6) not null check (value >= 0),
        reason text,
        happened_at timestamptz not null,
        happened_on date not null,
        recorded_at timestamptz not null,
        person_id uuid,
        bench_id uuid,
        reverses_id uuid,
        primary key (studio_id, seq),
        unique (studio_id, id),
        foreign key (studio_id, journal_id) references journal,
        foreign key (studio_id, product_id, lot_id) references lot (studio_id, product_id, id),
        foreign key (studio_id, from_pour_id) references pour,
        foreign key (studio_id, to_pour_id) references pour,
        check (from_place <> to_place or from_place = 'bowl'),
        check ((from_place = 'bowl') = (from_bowl_id is not null)),
        check ((from_place = 'bowl') = (from_pour_id is not null)),
        check ((to_place = 'bowl') = (to_bowl_id is not null)),
        check ((to_place = 'bowl') = (to_pour_id is not null)),
        check (journal_kind = 'reversal' or reverses_id is null),
        constraint movement_way check (
          ${waysCheck()})
      );
      create unique index movement_reversed_once on movement (studio_id, reverses_id)
        where reverses_id is not null;
      create index movement_journal on movement (studio_id, journal_id);
      create index movement_product_time on movement (studio_id, product_id, happened_at);
      create index movement_from_bowl on movement (studio_id, from_bowl_id)
        where from_bowl_id is not null;
      create index movement_to_bowl on movement (studio_id, to_bowl_id)
        where to_bowl_id is not null;
      create index movement_correction on movement (studio_id, product_id, seq)
        where from_place = 'correction' or to_place = 'correction';
      create index movement_time on movement using brin (happened_at);

      create table delivery (
        studio_id uuid not null,
        id uuid not null,
        supplier_id uuid,
        order_id uuid,
        ordered_on date,
        delivered_on date not null,
        invoice_no text,
        freight numeric(18,6) not null check (freight >= 0),
        other_cost numeric(18,6) not null check (other_cost >= 0),
        discount numeric(18,6) not null check (discount >= 0),
        non_recoverable_tax numeric(18,6) not null check (non_recoverable_tax >= 0),
        primary key (studio_id, id),
        foreign key (studio_id, id) references journal,
        foreign key (studio_id, supplier_id) references supplier
      );
      create table delivery_line (
        studio_id uuid not null,
        delivery_id uuid not null,
        position integer not null,
        product_id uuid not null,
        lot_id uuid not null,
        pack_label text,
        packs integer,
        free_packs integer,
        pack_price numeric(18,6),
        quantity numeric(14,3) not null,
        cost numeric(18,6) not null,
        primary key (studio_id, delivery_id, position),
        foreign key (studio_id, delivery_id) references delivery,
        foreign key (studio_id, product_id, lot_id) references lot (studio_id, product_id, id)
      );
      create index delivery_line_product on delivery_line (studio_id, product_id);

      create table count_line (
        studio_id uuid not null,
        journal_id uuid not null,
        product_id uuid not null,
        counted_at timestamptz not null,
        counted numeric(14,3) not null check (counted >= 0),
        book numeric(14,3) not null,
        -- False where a later count stood already, so that this one changed nothing.
        stands boolean not null default true,
        primary key (studio_id, journal_id, product_id),
        foreign key (studio_id, journal_id) references journal,
        foreign key (studio_id, product_id) references product
      );
      create index count_line_product on count_line (studio_id, product_id, counted_at);
    `;
  }

  private holdings(): string {
    const columns = net
      .map(
        (place) => `
        ${place}_quantity numeric(14,3) not null default 0,
        ${place}_value numeric(18,6) not null default 0,`,
      )
      .join('');
    const inside = ['shelf', 'bowl', 'head', 'bin'];
    const outside = ['supplier', 'correction', 'other_studio'];
    const balance = (what: string) =>
      `${inside.map((place) => `${place}_${what}`).join(' + ')} + ` +
      `${outside.map((place) => `${place}_${what}`).join(' + ')} = 0`;
    return `
      -- One row a product: what is at every place. What came from outside is negative there,
      -- so that the row adds up to zero.
      create table product_holding (
        studio_id uuid not null,
        product_id uuid not null,
        developer boolean not null,
        ${columns}
        shortfall_open numeric(14,3) not null default 0 check (shortfall_open >= 0),
        last_counted_at timestamptz,
        primary key (studio_id, product_id),
        foreign key (studio_id, product_id) references product,
        constraint conserved_quantity check (${balance('quantity')}),
        constraint conserved_value check (${balance('value')}),
        ${inside
          .map(
            (place) => `constraint ${place}_not_negative check
          (${place}_quantity >= 0 and ${place}_value >= 0)`,
          )
          .join(',\n        ')},
        constraint empty_shelf_has_no_value check (shelf_quantity > 0 or shelf_value = 0)
      ) with (fillfactor = 50); -- updated by every posting: room for it on its own page

      create table lot_holding (
        studio_id uuid not null,
        product_id uuid not null,
        lot_id uuid not null,
        averaged boolean not null,
        quantity numeric(14,3) not null default 0 check (quantity >= 0),
        value numeric(18,6) not null default 0,
        primary key (studio_id, lot_id),
        foreign key (studio_id, product_id, lot_id) references lot (studio_id, product_id, id),
        constraint lot_value check (averaged or (value >= 0 and (quantity > 0 or value = 0)))
      );
      create index lot_holding_on_shelf on lot_holding (studio_id, product_id)
        where quantity > 0;

      create table pour_holding (
        studio_id uuid not null,
        bowl_id uuid not null,
        pour_id uuid not null,
        product_id uuid not null,
        lot_id uuid not null,
        quantity numeric(14,3) not null default 0 check (quantity >= 0),
        value numeric(18,6) not null default 0 check (value >= 0),
        primary key (studio_id, bowl_id, pour_id, lot_id),
        foreign key (studio_id, pour_id) references pour,
        check (quantity > 0 or value = 0)
      );

      create table monthly_flow (
        studio_id uuid not null,
        product_id uuid not null,
        month date not null check (extract(day from month) = 1),
        from_place text not null,
        to_place text not null,
        reversal boolean not null,
        quantity numeric(14,3) not null,
        value numeric(18,6) not null,
        primary key (studio_id, product_id, month, from_place, to_place, reversal),
        foreign key (studio_id, product_id) references product
      ) with (fillfactor = 70);
    `;
  }

  private triggers(): string {
    const delta = (place: string, what: string) => {
      const name = place.replace('_', ' ');
      return `sum(case when to_place = '${name}' then ${what} else 0 end
          - case when from_place = '${name}' then ${what} else 0 end) as ${place}_${what}`;
    };
    const deltas = net.flatMap((place) => [delta(place, 'quantity'), delta(place, 'value')]);
    const sets = net.flatMap((place) =>
      ['quantity', 'value'].map(
        (what) => `${place}_${what} = h.${place}_${what} + d.${place}_${what}`,
      ),
    );
    return `
      create function keep_holdings() returns trigger language plpgsql security definer
      set search_path = public as $f$
      begin
        insert into product_holding (studio_id, product_id, developer)
          select distinct m.studio_id, m.product_id, p.kind = 'developer'
            from moved m join product p using (studio_id)
           where p.id = m.product_id
          on conflict do nothing;
        update product_holding h set ${sets.join(',\n            ')}
          from (select studio_id, product_id, ${deltas.join(',\n            ')}
                  from moved group by studio_id, product_id) d
         where h.studio_id = d.studio_id and h.product_id = d.product_id;

        insert into lot_holding (studio_id, product_id, lot_id, averaged)
          select distinct m.studio_id, m.product_id, m.lot_id, s.costing_method = 'average'
            from moved m join studio s using (studio_id)
           where m.from_place = 'shelf' or m.to_place = 'shelf'
          on conflict do nothing;
        update lot_holding h set quantity = h.quantity + d.quantity, value = h.value + d.value
          from (select studio_id, lot_id,
                  sum(case when to_place = 'shelf' then quantity else -quantity end) as quantity,
                  sum(case when to_place = 'shelf' then value else -value end) as value
                  from moved where from_place = 'shelf' or to_place = 'shelf'
                 group by studio_id, lot_id) d
         where h.studio_id = d.studio_id and h.lot_id = d.lot_id;

        if exists (select from moved where from_place = 'bowl' or to_place = 'bowl') then
          insert into pour_holding (studio_id, bowl_id, pour_id, product_id, lot_id)
            select distinct studio_id, to_bowl_id, to_pour_id, product_id, lot_id
              from moved where to_place = 'bowl'
            on conflict do nothing;
          update pour_holding h set quantity = h.quantity + d.quantity, value = h.value + d.value
            from (select studio_id, bowl_id, pour_id, lot_id,
                    sum(quantity) as quantity, sum(value) as value
                    from (select studio_id, to_bowl_id as bowl_id, to_pour_id as pour_id,
                            lot_id, quantity, value from moved where to_place = 'bowl'
                          union all
                          select studio_id, from_bowl_id, from_pour_id, lot_id,
                            -quantity, -value from moved where from_place = 'bowl') both_ways
                   group by studio_id, bowl_id, pour_id, lot_id) d
           where h.studio_id = d.studio_id and h.bowl_id = d.bowl_id
             and h.pour_id = d.pour_id and h.lot_id = d.lot_id;
        end if;

        insert into monthly_flow (studio_id, product_id, month, from_place, to_place,
            reversal, quantity, value)
          select studio_id, product_id, date_trunc('month', happened_on)::date,
              from_place, to_place, reverses_id is not null, sum(quantity), sum(value)
            from moved group by 1, 2, 3, 4, 5, 6 order by 1, 2, 3, 4, 5, 6
          on conflict (studio_id, product_id, month, from_place, to_place, reversal)
          do update set quantity = monthly_flow.quantity + excluded.quantity,
            value = monthly_flow.value + excluded.value;
        return null;
      end $f$;

      create trigger movement_keeps_holdings after insert on movement
        referencing new table as moved for each statement execute function keep_holdings();

      create function refuse_change() returns trigger language plpgsql as $f$
      begin
        raise exception 'the ledger is append-only: % on % is refused; reverse and enter anew',
          tg_op, tg_table_name using errcode = 'restrict_violation';
      end $f$;
      create trigger movement_append_only before update or delete or truncate on movement
        for each statement execute function refuse_change();
      create trigger journal_append_only before update or delete or truncate on journal
        for each statement execute function refuse_change();
      create trigger lot_append_only before update or delete or truncate on lot
        for each statement execute function refuse_change();

      -- Locks what a posting will change, always in the same order: bowls by id, then the
      -- products' holdings, the shared developers last. Holdings not there yet start at zero.
      create function hold(bowls uuid[], products uuid[]) returns void language plpgsql
      security definer set search_path = public as $f$
      begin
        perform from bowl where studio_id = current_studio() and id = any(bowls)
          order by id for update;
        insert into product_holding (studio_id, product_id, developer)
          select p.studio_id, p.id, p.kind = 'developer' from product p
           where p.studio_id = current_studio() and p.id = any(products)
             and not exists (select from product_holding h
               where h.studio_id = p.studio_id and h.product_id = p.id)
           order by 3, 2
          on conflict do nothing;
        perform from product_holding
          where studio_id = current_studio() and product_id = any(products)
          order by developer, product_id for no key update;
      end $f$;

      -- A product that has moved keeps its unit and kind; the costing method is fixed likewise.
      create function keep_what_moved() returns trigger language plpgsql as $f$
      begin
        if tg_table_name = 'product' then
          if (old.unit, old.kind) is distinct from (new.unit, new.kind) and exists (
            select from movement where studio_id = old.studio_id and product_id = old.id) then
            raise exception 'unit and kind are fixed at the first movement'
              using errcode = 'restrict_violation';
          end if;
        elsif old.costing_method <> new.costing_method and exists (
          select from movement where studio_id = old.studio_id) then
          raise exception 'the costing method is fixed at the first movement'
            using errcode = 'restrict_violation';
        end if;
        return new;
      end $f$;
      create trigger product_keeps_unit before update of unit, kind on product
        for each row execute function keep_what_moved();
      create trigger studio_keeps_method before update of costing_method on studio
        for each row execute function keep_what_moved();
    `;
  }

  private guards(): string {
    return `
      select guard_studio_table(t, 'select, insert')
        from unnest(array['journal', 'lot', 'movement', 'delivery', 'delivery_line',
          'count_line']) t;
      select guard_studio_table(t, 'select')
        from unnest(array['lot_holding', 'pour_holding', 'monthly_flow']) t;
      -- Places are kept by the trigger alone; these two are told by the posting itself.
      select guard_studio_table('product_holding', 'select');
      grant update (shortfall_open, last_counted_at) on product_holding to bowlworth_service;
    `;
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop trigger product_keeps_unit on product;
      drop trigger studio_keeps_method on studio;
      drop function keep_what_moved();
      drop table monthly_flow, pour_holding, lot_holding, product_holding, count_line,
        delivery_line, delivery, movement, lot, journal;
      drop function hold(uuid[], uuid[]);
      drop function keep_holdings();
      drop function refuse_change();
    `);
  }
}
