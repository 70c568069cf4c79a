/** SQL of demand: net use by month, week and day, counts, open days, and how old all that is. */

/** Went into a bowl or was used, or came back from there; signed. */
const used = `((m.from_place = 'shelf' and m.to_place in ('bowl', 'head'))
        or (m.to_place = 'shelf' and m.from_place in ('bowl', 'head')))`;
const signed = `case when m.from_place = 'shelf' then m.quantity else -m.quantity end`;

/** Day of the studio, number of the last movement, and what people marked. $1 now. */
export const READ_MOMENT = `
  select to_char($1::timestamptz at time zone time_zone, 'YYYY-MM-DD') as today, time_zone,
    currency, (select coalesce(max(seq), 0)::text from movement
      where studio_id = current_studio()) as seq,
    (select coalesce(md5(string_agg(product_id::text || first_day || last_day, ','
        order by id)), '')
       from out_of_stock where studio_id = current_studio())
    || (select coalesce(md5(string_agg(product_id::text || replaces_id || factor, ','
        order by product_id)), '')
       from replacement where studio_id = current_studio()) as marks
    from studio where studio_id = current_studio()`;

/** Net use by product and month, from the roll-up. */
export const READ_MONTHS = `
  select m.product_id, to_char(m.month, 'YYYY-MM') as period, sum(${signed})::float8 as quantity
    from monthly_flow m where m.studio_id = current_studio() and ${used}
   group by 1, 2 order by 1, 2`;

/** Net use by product and period of $1 (week, day) from $2 on, up to $3 (exclusive). */
export const READ_PERIODS = `
  select m.product_id, to_char(date_trunc($1, m.happened_on::timestamp), 'YYYY-MM-DD') as period,
    sum(${signed})::float8 as quantity
    from movement m
   where m.studio_id = current_studio() and ${used} and m.happened_on >= $2::date
     and m.happened_on < $3::date and m.happened_at >= $2::date - interval '2 days'
   group by 1, 2 order by 1, 2`;

/** Days with any use, by month, from $1 on. */
export const READ_OPEN_DAYS = `
  select to_char(m.happened_on, 'YYYY-MM') as month, count(distinct m.happened_on)::int as days
    from movement m
   where m.studio_id = current_studio() and m.from_place = 'shelf'
     and m.to_place in ('bowl', 'head') and m.happened_at >= $1::date - interval '2 days'
   group by 1`;

/** Net missing by product and day of what counts found (late entries netted), from $1 on. */
export const READ_MISSING = `
  select m.product_id, to_char(m.happened_on, 'YYYY-MM-DD') as day,
    sum(case when m.to_place = 'correction' then m.quantity else -m.quantity end)::float8
      as missing
    from movement m
    left join movement o on o.studio_id = m.studio_id and o.id = m.reverses_id
   where m.studio_id = current_studio() and (m.from_place = 'correction'
      or m.to_place = 'correction') and m.happened_on >= $1::date
     and coalesce(m.reason, o.reason) in ('counted', 'already counted')
   group by 1, 2`;

/** Days on which a product was counted, that stand. $1 first day. */
export const READ_COUNT_DAYS = `
  select distinct c.product_id,
    to_char(c.counted_at at time zone s.time_zone, 'YYYY-MM-DD') as day
    from count_line c
    join studio s on s.studio_id = c.studio_id
   where c.studio_id = current_studio() and c.stands and c.counted_at >= $1::date
     and not exists (select from journal r
       where r.studio_id = c.studio_id and r.reverses_id = c.journal_id)`;

/** Products, retired ones too, with what a forecast and its reader need to know of them. */
export const READ_FORECASTABLES = `
  select p.id, p.name, p.kind, p.unit, p.strength_vol::text as strength,
    coalesce(p.density_g_per_ml, 1)::float8 as density, p.retired_at is not null as retired,
    (select to_char(m.happened_on, 'YYYY-MM-DD') from movement m
      where m.studio_id = p.studio_id and m.product_id = p.id
      order by m.happened_at limit 1) as first_day
    from product p
   where p.studio_id = current_studio() and p.kind <> 'water'
   order by p.name, p.id`;

/** Days that a person said are closed, from $1 on. */
export const READ_CLOSED_DAYS = `
  select distinct to_char(day, 'YYYY-MM-DD') as day
    from closure c, generate_series(greatest(c.first_day, $1::date)::timestamp,
      c.last_day::timestamp, '1 day') as day
   where c.studio_id = current_studio() and c.last_day >= $1::date order by 1`;

/** On how many days there was use, by day of the week (1 Monday), from $1 on. */
export const READ_WEEKDAYS = `
  select extract(isodow from m.happened_on)::int as weekday,
    count(distinct m.happened_on)::int as days
    from movement m
   where m.studio_id = current_studio() and m.from_place = 'shelf'
     and m.to_place in ('bowl', 'head') and m.happened_at >= $1::date - interval '2 days'
   group by 1`;

/** Days on which people marked a product as out of stock. */
export const READ_MARKS = `
  select product_id, to_char(first_day, 'YYYY-MM-DD') as "from",
    to_char(last_day, 'YYYY-MM-DD') as "to"
    from out_of_stock where studio_id = current_studio() order by 2, 3`;

/** Which product replaced which. */
export const READ_REPLACEMENTS = `
  select product_id, replaces_id, factor::float8 from replacement
   where studio_id = current_studio()`;

/** Visits with their services, from $1 on. */
export const READ_VISITS_DONE = `
  select v.id, to_char(v.started_at at time zone s.time_zone, 'YYYY-MM-DD') as day,
    array_agg(distinct vs.service_id) as services
    from visit v
    join studio s on s.studio_id = v.studio_id
    join visit_service vs on vs.studio_id = v.studio_id and vs.visit_id = v.id
   where v.studio_id = current_studio() and v.kind in ('client', 'redo', 'model')
     and v.started_at >= $1::date::timestamp at time zone s.time_zone
   group by 1, 2`;

/** Net use by visit (null: outside of visits) and product, from $1 on. */
export const READ_VISIT_USE = `
  select coalesce(b.visit_id, m.visit_id) as visit_id, m.product_id,
    sum(${signed})::float8 as quantity
    from movement m
    left join bowl b on b.studio_id = m.studio_id
      and b.id = coalesce(m.to_bowl_id, m.from_bowl_id)
   where m.studio_id = current_studio() and ${used} and m.happened_on >= $1::date
     and m.happened_at >= $1::date - interval '2 days'
   group by 1, 2`;
