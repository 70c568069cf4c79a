/** Quotes as they were told; what packs cost since when; figures of sheets. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Columns of a sheet's figures and where they are in it. */
const sheetFigures = [
  ['net', 'totals,net'],
  ['tax', 'totals,tax'],
  ['product', 'totals,product'],
  ['sundries', 'totals,sundries'],
  ['time_cost', 'totals,time'],
  ['overhead', 'totals,overhead'],
  ['fee', 'totals,fee'],
  ['commission', 'totals,commission'],
  ['contribution', 'totals,contribution'],
  ['profit', 'totals,profit'],
  ['product_value', 'ledger,product'],
  ['left_over_value', 'ledger,leftOver'],
  ['sundries_value', 'ledger,sundries'],
  ['not_charged_value', 'ledger,notCharged'],
] as const;

export class PricingHistory0009 implements MigrationInterface {
  readonly name = 'PricingHistory0009';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      create table quote (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        client_id uuid,
        person_id uuid,
        made_at timestamptz not null,
        valid_until date not null,
        quote jsonb not null,
        primary key (studio_id, id),
        foreign key (studio_id, client_id) references client,
        foreign key (studio_id, person_id) references person
      );
      create index quote_newest on quote (studio_id, seq);
      create index quote_client on quote (studio_id, client_id, seq);
      select guard_studio_table('quote', 'select, insert');

      -- What packs cost by the list, and since when; no day where nobody knows.
      create table list_price (
        studio_id uuid not null,
        seq bigint generated always as identity,
        list_id uuid not null,
        pack_id uuid not null,
        product_id uuid not null,
        label text not null,
        price numeric(18,6) not null check (price >= 0),
        starts_on date,
        supplier_id uuid,
        recorded_at timestamptz not null,
        primary key (studio_id, seq),
        foreign key (studio_id, product_id) references product,
        foreign key (studio_id, supplier_id) references supplier
      );
      create index list_price_product on list_price (studio_id, product_id, seq);
      select guard_studio_table('list_price', 'select, insert');

      -- Figures to add up over many sheets; they follow from the sheet and cannot differ from it.
      alter table price_sheet
        add column day date,
        ${sheetFigures
          .map(
            ([name, path]) =>
              `add column ${name} numeric(18,6) generated always as
                ((sheet #>> '{${path}}')::numeric) stored`,
          )
          .join(', ')},
        add column no_cost boolean generated always as
          (sheet -> 'noCost' <> '[]'::jsonb) stored;
      create index price_sheet_day on price_sheet (studio_id, day);
      create index price_sheet_replaced on price_sheet (studio_id, replaces)
        where replaces is not null;

      -- Closed visits without a sheet are few: found without looking at all the others.
      alter table visit add column has_sheet boolean not null default false;
      create index visit_without_sheet on visit (studio_id)
        where closed_at is not null and not has_sheet;
      update visit v set has_sheet = true where exists (select from price_sheet p
        where p.studio_id = v.studio_id and p.visit_id = v.id);

      -- Up to this movement all visits were looked at.
      create table price_sheet_looked (
        studio_id uuid primary key references studio,
        seq bigint not null
      );
      select guard_studio_table('price_sheet_looked', 'select, insert, update');
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop table price_sheet_looked;
      drop index visit_without_sheet;
      alter table visit drop column has_sheet;
      drop index price_sheet_replaced;
      drop index price_sheet_day;
      alter table price_sheet drop column no_cost, drop column day,
        ${sheetFigures.map(([name]) => `drop column ${name}`).join(', ')};
      drop table list_price;
      drop table quote;
    `);
  }
}
