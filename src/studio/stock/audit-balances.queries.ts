/** SQL of the audit: what is kept beside the movements equals what they add up to. $1 since seq. */
import type { AuditCheck } from './audit-ledger.queries.js';

const check = (name: string, rows: string, breaches: string): AuditCheck => ({
  name,
  sql: `select (${rows})::text as rows, (select says from (${breaches}) b limit 1) as breach`,
});

const own = 'studio_id = current_studio()';
const places = ['supplier', 'shelf', 'bowl', 'head', 'bin', 'correction', 'other studio'];
const column = (place: string, what: string) => `${place.replace(' ', '_')}_${what}`;

/** One row a place and product: what the product's holding says. */
const held = places
  .map(
    (place) => `select product_id, '${place}' as place, ${column(place, 'quantity')} as quantity,
       ${column(place, 'value')} as value from product_holding where ${own}`,
  )
  .join('\n     union all ');

/** One row a place and product: what its movements add up to. */
const moved = `
  select product_id, place, sum(quantity) as quantity, sum(value) as value from (
    select product_id, to_place as place, quantity, value from movement where ${own}
    union all
    select product_id, from_place, -quantity, -value from movement where ${own}) both_ways
   group by 1, 2`;

export const productHoldings = check(
  'products hold what moved',
  `select count(*) from product_holding where ${own} and $1::bigint is not null`,
  `select 'product ' || product_id || ' at ' || place || ': holds '
      || coalesce(h.quantity, 0) || ' for ' || coalesce(h.value, 0) || ', moved '
      || coalesce(m.quantity, 0) || ' for ' || coalesce(m.value, 0) as says
     from (${held}) h full join (${moved}) m using (product_id, place)
    where (coalesce(h.quantity, 0), coalesce(h.value, 0))
      <> (coalesce(m.quantity, 0), coalesce(m.value, 0))`,
);

export const lotHoldings = check(
  'lots hold what moved',
  `select count(*) from lot_holding where ${own} and $1::bigint is not null`,
  `select 'lot ' || lot_id || ': holds ' || coalesce(h.quantity, 0) || ' for '
      || coalesce(h.value, 0) || ', moved ' || coalesce(m.quantity, 0) || ' for '
      || coalesce(m.value, 0) as says
     from (select lot_id, quantity, value from lot_holding where ${own}) h
     full join (select lot_id,
         sum(case when to_place = 'shelf' then quantity else -quantity end) as quantity,
         sum(case when to_place = 'shelf' then value else -value end) as value
         from movement where ${own} and (from_place = 'shelf' or to_place = 'shelf')
        group by 1) m using (lot_id)
    where (coalesce(h.quantity, 0), coalesce(h.value, 0))
      <> (coalesce(m.quantity, 0), coalesce(m.value, 0))`,
);

export const pourHoldings = check(
  'bowls hold what moved',
  `select count(*) from pour_holding where ${own} and $1::bigint is not null`,
  `select 'pour ' || pour_id || ' of lot ' || lot_id || ': holds ' || coalesce(h.quantity, 0)
      || ' for ' || coalesce(h.value, 0) || ', moved ' || coalesce(m.quantity, 0) || ' for '
      || coalesce(m.value, 0) as says
     from (select bowl_id, pour_id, lot_id, quantity, value from pour_holding where ${own}) h
     full join (select bowl_id, pour_id, lot_id, sum(quantity) as quantity, sum(value) as value
        from (select to_bowl_id as bowl_id, to_pour_id as pour_id, lot_id, quantity, value
                from movement where ${own} and to_place = 'bowl'
              union all
              select from_bowl_id, from_pour_id, lot_id, -quantity, -value
                from movement where ${own} and from_place = 'bowl') both_ways
       group by 1, 2, 3) m using (bowl_id, pour_id, lot_id)
    where (coalesce(h.quantity, 0), coalesce(h.value, 0))
      <> (coalesce(m.quantity, 0), coalesce(m.value, 0))`,
);

export const monthlyFlows = check(
  'months add up',
  `select count(*) from monthly_flow where ${own} and $1::bigint is not null`,
  `select 'product ' || product_id || ', ' || month || ', ' || from_place || ' to ' || to_place
      || ': kept ' || coalesce(f.quantity, 0) || ' for ' || coalesce(f.value, 0) || ', moved '
      || coalesce(m.quantity, 0) || ' for ' || coalesce(m.value, 0) as says
     from (select product_id, month, from_place, to_place, reversal, quantity, value
        from monthly_flow where ${own}) f
     full join (select product_id, date_trunc('month', happened_on::timestamp)::date as month,
         from_place, to_place, reverses_id is not null as reversal,
         sum(quantity) as quantity, sum(value) as value
        from movement where ${own} group by 1, 2, 3, 4, 5) m
       using (product_id, month, from_place, to_place, reversal)
    where (coalesce(f.quantity, 0), coalesce(f.value, 0))
      <> (coalesce(m.quantity, 0), coalesce(m.value, 0))`,
);

/** The last count that stands, and what pours beyond the book are still unexplained. */
export const countsAndShortfalls = check(
  'counts and shortfalls',
  `select count(*) from product_holding where ${own} and $1::bigint is not null`,
  `select 'product ' || product_id || ': counted ' || coalesce(last_counted_at::text, 'never')
      || ' with ' || shortfall_open || ' open; recorded ' || coalesce(counted::text, 'never')
      || ' and ' || open as says
     from (select h.product_id, h.last_counted_at, h.shortfall_open,
        (select max(c.counted_at) from count_line c
          where c.studio_id = h.studio_id and c.product_id = h.product_id and c.stands
            and not exists (select from journal r
              where r.studio_id = c.studio_id and r.reverses_id = c.journal_id)) as counted,
        (select coalesce(sum(case when m.to_place = 'shelf' then m.quantity
              else -m.quantity end), 0)
           from movement m
          where m.studio_id = h.studio_id and m.product_id = h.product_id
            and (m.from_place = 'correction' or m.to_place = 'correction')
            and m.reason in ('shortfall', 'shortfall given back')
            and m.happened_at >= coalesce(h.last_counted_at, '-infinity')
            and not exists (select from movement r
              where r.studio_id = m.studio_id and r.reverses_id = m.id)) as open
        from product_holding h where h.${own}) told
    where last_counted_at is distinct from counted or shortfall_open <> open`,
);
