/** SQL of a history that comes from a file, and goes into one. */

/** Noon of days in the studio's time zone, and its day now. $1 the days, $2 the instant now. */
export const READ_NOONS = `
  select to_char(d, 'YYYY-MM-DD') as day, (d + time '12:00') at time zone time_zone as noon,
    to_char($2::timestamptz at time zone time_zone, 'YYYY-MM-DD') as today
    from studio, unnest($1::date[]) as d
   where studio_id = current_studio()`;

/** Which of these entries are in the ledger. $1 their ids. */
export const READ_ENTERED = `
  select id from journal where studio_id = current_studio() and id = any($1::uuid[])`;

/**
 * Deliveries that stand, a row for each of their lines. A line's cost is what it came to with its
 * share of freight and the like, so that these are not told a second time.
 */
export const EXPORT_DELIVERIES = `
  select d.delivered_on, s.name as supplier, d.invoice_no, d.ordered_on,
    l.product_id as "productId", l.pack_label as pack, l.packs, l.free_packs,
    case when l.packs is null and l.free_packs is null then trim_scale(l.quantity)::text
      end as quantity,
    trim_scale(l.cost)::text as cost, lot.expires_on, lot.lot_code
    from delivery d
    join delivery_line l on l.studio_id = d.studio_id and l.delivery_id = d.id
    join lot on lot.studio_id = l.studio_id and lot.id = l.lot_id
    left join supplier s on s.studio_id = d.studio_id and s.id = d.supplier_id
   where d.studio_id = current_studio()
     and not exists (select from journal r
       where r.studio_id = d.studio_id and r.reverses_id = d.id)
   order by d.delivered_on, d.id, l.position`;

/** What went into bowls or was used, less what was scooped back or undone, day by day. */
export const EXPORT_USAGE = `
  with used as (
    select happened_on, product_id,
      sum(case when from_place = 'shelf' then quantity else -quantity end) as quantity
      from movement
     where studio_id = current_studio()
       and ((from_place = 'shelf' and to_place in ('bowl', 'head'))
         or (to_place = 'shelf' and from_place in ('bowl', 'head')))
     group by happened_on, product_id
  )
  select u.happened_on as used_on, u.product_id as "productId",
    trim_scale(u.quantity)::text as quantity, p.unit
    from used u
    join product p on p.studio_id = current_studio() and p.id = u.product_id
   where u.quantity > 0
   order by u.happened_on, p.name, p.id`;
