/** SQL of the audit: bowls against the ledger, and what the database itself must guard. */
import type { AuditCheck } from './audit-ledger.queries.js';

const check = (name: string, rows: string, breaches: string): AuditCheck => ({
  name,
  sql: `select (${rows})::text as rows, (select says from (${breaches}) b limit 1) as breach`,
});

const own = 'studio_id = current_studio()';

/** A settled bowl holds zero of everything, per pour's product and lot, by its movements. */
export const settledBowls = check(
  'settled bowls are empty',
  `select count(*) from bowl where ${own} and state = 'settled' and $1::bigint is not null`,
  `select 'bowl ' || b.id || ' is settled and holds ' || sum(x.quantity) || ' for '
      || sum(x.value) || ' of product ' || x.product_id || ', lot ' || x.lot_id as says
     from bowl b
     join (select to_bowl_id as bowl_id, product_id, lot_id, quantity, value
             from movement where ${own} and to_place = 'bowl'
           union all
           select from_bowl_id, product_id, lot_id, -quantity, -value
             from movement where ${own} and from_place = 'bowl') x on x.bowl_id = b.id
    where b.${own} and b.state = 'settled'
    group by b.id, x.product_id, x.lot_id
   having sum(x.quantity) <> 0 or sum(x.value) <> 0`,
);

/** Every pour that stands moved its quantity into its bowl; one that was undone moved nothing. */
export const poursMoved = check(
  'pours moved their quantity',
  `select count(*) from pour where ${own} and $1::bigint is not null`,
  `select 'pour ' || p.id || ' says ' || case when p.reversed_at is null then p.quantity else 0 end
      || ' and moved ' || coalesce(m.quantity, 0) as says
     from pour p
     left join (select pour_id, sum(quantity) as quantity from (
         select to_pour_id as pour_id, quantity from movement
          where ${own} and to_place = 'bowl' and reverses_id is null
            and from_place in ('shelf', 'bowl')
         union all
         select from_pour_id, -quantity from movement
          where ${own} and from_place = 'bowl' and reverses_id is not null
            and to_place in ('shelf', 'bowl')) net
        group by pour_id) m on m.pour_id = p.id
    where p.${own}
      and coalesce(m.quantity, 0) <> case when p.reversed_at is null then p.quantity else 0 end`,
);

/** A bowl's grams are those of its pours, less what was scooped back or handed on. */
export const bowlsWeigh = check(
  'bowls weigh what was poured',
  `select count(*) from bowl where ${own} and $1::bigint is not null`,
  `select 'bowl ' || b.id || ' says ' || b.mixed_g || ' g mixed and its pours come to '
      || round(coalesce(x.grams, 0), 3) || ' g' as says
     from bowl b
     left join (select p.bowl_id,
         sum(p.grams - coalesce(g.quantity, 0) * p.grams / p.quantity) as grams
        from pour p
        left join (select pour_id, sum(quantity) as quantity from (
            select from_pour_id as pour_id, quantity from movement
             where ${own} and from_place = 'bowl' and reverses_id is null
               and to_place in ('shelf', 'bowl')
            union all
            select to_pour_id, -quantity from movement
             where ${own} and to_place = 'bowl' and reverses_id is not null
               and from_place in ('shelf', 'bowl')) net
           group by pour_id) g on g.pour_id = p.id
       where p.${own} and p.reversed_at is null
       group by p.bowl_id) x on x.bowl_id = b.id
    where b.${own} and abs(b.mixed_g - coalesce(x.grams, 0)) > 0.001`,
);

const ledgerTables = `array['movement', 'journal', 'lot']`;

/** The service can neither change nor delete what is recorded. */
export const appendOnly = check(
  'append-only',
  `select cardinality(${ledgerTables}) + 0 * $1::bigint`,
  `select says from (
     select t || ' has no trigger that refuses changes' as says
       from unnest(${ledgerTables}) t
      where not exists (select from pg_trigger g
        where g.tgrelid = t::regclass and g.tgname = t || '_append_only'
          and g.tgenabled in ('O', 'A') and g.tgtype & 56 = 56) -- delete, update, truncate
     union all
     select 'the service may ' || p || ' on ' || t
       from unnest(${ledgerTables}) t, unnest(array['update', 'delete', 'truncate']) p
      where has_table_privilege('bowlworth_service', t, p)
     union all
     select 'the service owns ' || c.relname from pg_class c join pg_roles r on r.oid = c.relowner
      where r.rolname = 'bowlworth_service' and c.relkind = 'r'
     union all
     select 'the service’s role passes every guard' from pg_roles
      where rolname = 'bowlworth_service' and (rolsuper or rolbypassrls)) found`,
);

/** Studios are kept apart by the database, whatever a query forgets. */
export const studiosApart = check(
  'studios apart',
  `select count(*) + 0 * $1::bigint from information_schema.columns
    where table_schema = 'public' and column_name = 'studio_id'`,
  `select 'table ' || c.relname || ' does not keep studios apart' as says
     from pg_class c
     join pg_attribute a on a.attrelid = c.oid and a.attname = 'studio_id' and not a.attisdropped
    where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
      and not (c.relrowsecurity and c.relforcerowsecurity
        and exists (select from pg_policy p where p.polrelid = c.oid))
    order by c.relname`,
);
