/** The ledger's SQL: what a posting locks and reads, and the one statement that appends. */

/** One round trip with the lock before it; a statement of its own, so that it sees what is. */
export const HOLD = 'select hold($1::uuid[], $2::uuid[])';

/** The studio as a posting needs it. */
export const READ_STUDIO = `
  select currency, country, time_zone as "timeZone", demo,
    to_char(locked_before, 'YYYY-MM-DD') as "lockedBefore"
    from studio where studio_id = current_studio()`;

/**
 * Products with all that a posting needs of them. Exact numbers travel as text.
 * $1 product ids, $2 first day of the months whose use counts as recent.
 */
export const READ_PRODUCTS = `
  select p.id, p.name, p.kind, p.unit, p.line,
    p.strength_vol::text, p.percent::text, p.density_g_per_ml::text, p.grams_per_piece::text,
    p.dose_quantity::text,
    p.scalp_ceiling_vol::text, p.off_scalp_ceiling_vol::text,
    p.reorder_point::text, p.keep_sealed, p.service_level::text,
    coalesce(p.lead_time_days, sup.lead_time_days) as lead_time_days,
    s.costing_method, coalesce(h.shelf_value, 0)::text as shelf_value,
    coalesce(h.shortfall_open, 0)::text as shortfall_open,
    to_char(h.last_counted_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')
      as last_counted_at,
    (select l.id from lot l where l.studio_id = p.studio_id and l.product_id = p.id
        and l.source = 'shortfall') as shortfall_lot_id,
    (select coalesce(json_agg(json_build_object('id', l.id, 'quantity', lh.quantity::text,
        'value', lh.value::text, 'expiresOn', l.expires_on, 'receivedOn', l.received_on)), '[]')
       from lot_holding lh
       join lot l on l.studio_id = lh.studio_id and l.id = lh.lot_id
      where lh.studio_id = p.studio_id and lh.product_id = p.id and lh.quantity > 0) as lots,
    (select coalesce(json_agg(json_build_object('id', k.id, 'label', k.label,
        'quantity', k.quantity::text, 'emptyWeightG', k.empty_weight_g::text,
        'listPrice', k.list_price::text) order by k.position), '[]')
       from pack k where k.studio_id = p.studio_id and k.product_id = p.id) as packs,
    policy.point::text as policy_point, coalesce(awaited.quantity, 0)::text as on_order,
    recent.quantity::text as recent_use,
    to_char(recent.since, 'YYYY-MM-DD') as recent_since,
    case when coalesce(h.shelf_quantity, 0) = 0 then coalesce(
      (select m.value / m.quantity from movement m
        where m.studio_id = p.studio_id and m.product_id = p.id and m.value > 0
          and (m.from_place = 'shelf' and m.to_place <> 'correction'
            or m.from_place = 'correction' and m.reason = 'new cost')
        order by m.happened_at desc, m.seq desc limit 1),
      (select l.cost / l.quantity from lot l
        where l.studio_id = p.studio_id and l.product_id = p.id and l.quantity > 0
          and l.cost > 0 order by l.received_on desc, l.id desc limit 1),
      (select k.list_price / k.quantity from pack k
        where k.studio_id = p.studio_id and k.product_id = p.id and k.list_price > 0
        order by k.position limit 1)) end::text as fallback_unit_cost
  from product p
  join studio s on s.studio_id = p.studio_id
  left join product_holding h on h.studio_id = p.studio_id and h.product_id = p.id
  left join supplier sup on sup.studio_id = p.studio_id and sup.id = p.supplier_id
  left join reorder_policy policy on policy.studio_id = p.studio_id and policy.product_id = p.id
  left join lateral (
    select sum(l.quantity - l.received) as quantity from purchase_order_line l
     where l.studio_id = p.studio_id and l.product_id = p.id and l.received < l.quantity
       and not l.cancelled
  ) awaited on true
  left join lateral (
    select sum(case when f.reversal then -f.quantity else f.quantity end) as quantity,
      min(f.month) as since
      from monthly_flow f
     where f.studio_id = p.studio_id and f.product_id = p.id and f.month >= $2::date
       and ((not f.reversal and f.from_place = 'shelf' and f.to_place in ('bowl', 'head'))
         or (f.reversal and f.to_place = 'shelf' and f.from_place in ('bowl', 'head')))
  ) recent on true
  where p.studio_id = current_studio() and p.id = any($1::uuid[])`;

/**
 * Shortfalls and what was given back for them, in the order of recording. $1 product, $2 the
 * instant from which they are not counted yet, $3 journals to leave out.
 */
export const READ_SHORTFALLS = `
  select m.reason, m.from_place, m.lot_id, m.happened_at, m.happened_on, m.quantity, m.value
    from movement m
   where m.studio_id = current_studio() and m.product_id = $1
     and (m.from_place = 'correction' or m.to_place = 'correction')
     and m.reason in ('shortfall', 'shortfall given back')
     and m.happened_at >= coalesce($2::timestamptz, '-infinity')
     and m.journal_id <> all($3::uuid[])
     and not exists (select from movement r
       where r.studio_id = m.studio_id and r.reverses_id = m.id)
   order by m.seq`;

/**
 * What shelves held from a day on after everything that happened, in the order of time; what
 * arrived on a day was there for all of it, an opening always. $1 products, $2 the first day.
 */
export const READ_LEVELS = `
  with moments as (
    select product_id, on_day, at, sum(net) as net from (
      select m.product_id, m.happened_on as on_day,
        case when m.from_place not in ('supplier', 'other studio') then m.happened_at end as at,
        case when m.to_place = 'shelf' then m.quantity else -m.quantity end as net
        from movement m
       where m.studio_id = current_studio() and m.product_id = any($1::uuid[])
         and m.happened_at >= $2::date - interval '2 days' and m.happened_on >= $2::date
         and (m.from_place = 'shelf' or m.to_place = 'shelf') and m.journal_kind <> 'opening'
      union all select p, $2::date, null, 0 from unnest($1::uuid[]) p) each_one
     group by 1, 2, 3
  )
  select d.product_id, d.on_day, d.at,
    h.shelf_quantity - coalesce(sum(d.net) over (partition by d.product_id
      order by d.on_day desc, d.at desc nulls last
      rows between unbounded preceding and 1 preceding), 0) as quantity
    from moments d
    join product_holding h on h.studio_id = current_studio() and h.product_id = d.product_id
   order by d.product_id, d.on_day, d.at nulls first`;

/**
 * Appends journals, lots and movements in one statement; the trigger keeps the holdings.
 * $1 json of journals, $2 of lots, $3 of movements, $4 of what only the posting can tell.
 */
export const APPEND = `
  with journals as (
    insert into journal (studio_id, id, kind, happened_at, recorded_at, person_id, bench_id,
        visit_id, bowl_id, reverses_id, flags, note)
    select current_studio(), j.id, j.kind, j.happened_at, j.recorded_at, j.person_id,
        j.bench_id, j.visit_id, j.bowl_id, j.reverses_id, j.flags, j.note
      from jsonb_to_recordset($1::jsonb) as j(id uuid, kind text, happened_at timestamptz,
        recorded_at timestamptz, person_id uuid, bench_id uuid, visit_id uuid, bowl_id uuid,
        reverses_id uuid, flags text[], note text)
  ), lots as (
    insert into lot (studio_id, id, product_id, source, received_on, expires_on, lot_code,
        quantity, cost, journal_id)
    select current_studio(), l.id, l.product_id, l.source, l.received_on, l.expires_on,
        l.lot_code, l.quantity, l.cost, l.journal_id
      from jsonb_to_recordset($2::jsonb) as l(id uuid, product_id uuid, source text,
        received_on date, expires_on date, lot_code text, quantity numeric, cost numeric,
        journal_id uuid)
  ), told as (
    update product_holding h set shortfall_open = t.shortfall_open,
        last_counted_at = t.last_counted_at
      from jsonb_to_recordset($4::jsonb) as t(product_id uuid, shortfall_open numeric,
        last_counted_at timestamptz)
     where h.studio_id = current_studio() and h.product_id = t.product_id
  )
  insert into movement (studio_id, id, journal_id, journal_kind, product_id, lot_id, from_place,
      to_place, from_bowl_id, from_pour_id, to_bowl_id, to_pour_id, visit_id, quantity, value,
      reason, happened_at, happened_on, recorded_at, person_id, bench_id, reverses_id)
  select current_studio(), m.id, m.journal_id, m.journal_kind, m.product_id, m.lot_id,
      m.from_place, m.to_place, m.from_bowl_id, m.from_pour_id, m.to_bowl_id, m.to_pour_id,
      m.visit_id, m.quantity, m.value, m.reason, m.happened_at, m.happened_on, m.recorded_at,
      m.person_id, m.bench_id, m.reverses_id
    from rows from (jsonb_to_recordset($3::jsonb) as (id uuid, journal_id uuid,
      journal_kind text, product_id uuid, lot_id uuid, from_place text, to_place text,
      from_bowl_id uuid, from_pour_id uuid, to_bowl_id uuid, to_pour_id uuid, visit_id uuid,
      quantity numeric, value numeric, reason text, happened_at timestamptz, happened_on date,
      recorded_at timestamptz, person_id uuid, bench_id uuid, reverses_id uuid))
      with ordinality as m
   order by m.ordinality`;

/** A journal with its movements, for its reversal. $1 journal id. */
export const READ_JOURNAL = `
  select j.id, j.kind, j.happened_at, j.visit_id, j.bowl_id, j.reverses_id,
    (select r.id from journal r where r.studio_id = j.studio_id and r.reverses_id = j.id)
      as reversed_by,
    (select coalesce(json_agg(json_build_object('id', m.id, 'productId', m.product_id,
        'lotId', m.lot_id, 'from', m.from_place, 'to', m.to_place,
        'fromBowlId', m.from_bowl_id, 'fromPourId', m.from_pour_id,
        'toBowlId', m.to_bowl_id, 'toPourId', m.to_pour_id, 'visitId', m.visit_id,
        'quantity', m.quantity::text, 'value', m.value::text, 'reason', m.reason,
        'happenedAt', to_char(m.happened_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'),
        'happenedOn', m.happened_on, 'undone', r.id is not null) order by m.seq), '[]')
       from movement m
       left join movement r on r.studio_id = m.studio_id and r.reverses_id = m.id
      where m.studio_id = j.studio_id and m.journal_id = j.id) as movements,
    (select coalesce(json_agg(c.product_id), '[]') from count_line c
      where c.studio_id = j.studio_id and c.journal_id = j.id) as counted
    from journal j where j.studio_id = current_studio() and j.id = $1`;

/** Lots with what they hold on the shelf now. $1 lot ids. */
export const READ_LOTS = `
  select l.id, l.product_id, l.source, to_char(l.received_on, 'YYYY-MM-DD') as received_on,
    to_char(l.expires_on, 'YYYY-MM-DD') as expires_on, l.quantity::text, l.cost::text,
    coalesce(h.quantity, 0)::text as held_quantity, coalesce(h.value, 0)::text as held_value
    from lot l
    left join lot_holding h on h.studio_id = l.studio_id and h.lot_id = l.id
   where l.studio_id = current_studio() and l.id = any($1::uuid[])`;

/** What the named bowls hold, pour by pour and lot by lot. $1 bowl ids. */
export const READ_POUR_HOLDINGS = `
  select bowl_id, pour_id, product_id, lot_id, quantity::text, value::text from pour_holding
   where studio_id = current_studio() and bowl_id = any($1::uuid[]) and quantity > 0
   order by pour_id, lot_id`;

/**
 * The lines of a count that is undone. `last`: no other count of the product stands after it;
 * then `previous` is the instant of the one before, and `dependents` are the corrections that
 * let this count stand against entries that came late. $1 journal id.
 */
export const READ_COUNT_TO_UNDO = `
  select c.product_id, s.last, s.previous,
    (select coalesce(json_agg(json_build_object('id', m.id, 'productId', m.product_id,
        'lotId', m.lot_id, 'from', m.from_place, 'to', m.to_place, 'visitId', m.visit_id,
        'quantity', m.quantity::text, 'value', m.value::text, 'reason', m.reason,
        'happenedAt', to_char(m.happened_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'),
        'happenedOn', m.happened_on) order by m.seq), '[]')
       from movement m
      where s.last and m.studio_id = c.studio_id and m.product_id = c.product_id
        and (m.from_place = 'correction' or m.to_place = 'correction')
        and m.reason = 'already counted' and m.recorded_at >= j.recorded_at
        and m.happened_at < c.counted_at
        and m.happened_at >= coalesce(s.previous, '-infinity')
        and not exists (select from movement r
          where r.studio_id = m.studio_id and r.reverses_id = m.id)) as dependents
    from count_line c
    join journal j on j.studio_id = c.studio_id and j.id = c.journal_id
    cross join lateral (
      select c.stands and not coalesce(bool_or((o.counted_at, k.recorded_at, k.id)
          > (c.counted_at, j.recorded_at, j.id)), false) as last,
        max(o.counted_at) as previous
        from count_line o
        join journal k on k.studio_id = o.studio_id and k.id = o.journal_id
       where o.studio_id = c.studio_id and o.product_id = c.product_id and o.stands
         and o.journal_id <> c.journal_id
         and not exists (select from journal r
           where r.studio_id = k.studio_id and r.reverses_id = k.id)
    ) s
   where c.studio_id = current_studio() and c.journal_id = $1`;
