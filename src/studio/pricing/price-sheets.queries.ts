/** SQL of price sheets: what a visit used, what it would cost again, the sheets that are kept. */
import { prepared } from '../../platform/database/transaction.js';

/**
 * What the visit $1 used, bowl by bowl and product by product, from the ledger. A bowl counts for
 * the visit that it belongs to now, a use for the one it was booked for. `zero` is how much of it
 * has no value. Bowls first, then what was used without one.
 */
export const READ_VISIT_FLOWS = prepared(`
  with bowls as (
    select b.studio_id, b.id, b.purpose, b.borne_by, b.planned_at from bowl b
     where b.studio_id = current_studio() and b.visit_id = $1 and b.state in ('open', 'settled')
  ), flow as (
    select m.from_bowl_id as bowl_id, m.from_pour_id as pour_id, m.product_id, m.lot_id,
        m.to_place as place, m.quantity, m.value, m.seq
      from bowls b join movement m on m.studio_id = b.studio_id and m.from_bowl_id = b.id
     where m.to_place in ('head', 'bin')
    union all
    select m.to_bowl_id, m.to_pour_id, m.product_id, m.lot_id, m.from_place, -m.quantity,
        -m.value, m.seq
      from bowls b join movement m on m.studio_id = b.studio_id and m.to_bowl_id = b.id
     where m.from_place in ('head', 'bin')
    union all
    select h.bowl_id, h.pour_id, h.product_id, h.lot_id, 'bowl', h.quantity, h.value, null
      from bowls b join pour_holding h on h.studio_id = b.studio_id and h.bowl_id = b.id
     where h.quantity > 0
    union all
    select null, null, m.product_id, m.lot_id, 'head',
        case when m.to_place = 'head' then m.quantity else -m.quantity end,
        case when m.to_place = 'head' then m.value else -m.value end, m.seq
      from movement m
     where m.studio_id = current_studio() and m.visit_id = $1
       and m.from_bowl_id is null and m.to_bowl_id is null
       and (m.from_place, m.to_place) in (('shelf', 'head'), ('head', 'shelf'))
  ), part as (
    select f.bowl_id, f.pour_id, f.product_id, f.lot_id, f.place, sum(f.quantity) as quantity,
        sum(f.value) as value, max(f.seq) as seq
      from flow f group by 1, 2, 3, 4, 5
  ), weighed as (
    select p.*, u.poured_at, case when u.id is not null then p.quantity * u.grams / u.quantity
        when g.unit = 'g' then p.quantity
        when g.unit = 'ml' then p.quantity * coalesce(g.density_g_per_ml, 1)
        else p.quantity * coalesce(g.grams_per_piece, 0) end as grams
      from part p
      join product g on g.studio_id = current_studio() and g.id = p.product_id
      left join pour u on u.studio_id = current_studio() and u.id = p.pour_id
  )
  select w.bowl_id, w.product_id, g.name, g.kind, g.unit, b.purpose, b.borne_by,
    ${['head', 'bin', 'bowl']
      .map(
        (place) => `
    coalesce(sum(w.quantity) filter (where w.place = '${place}'), 0)::text as ${place}_quantity,
    coalesce(sum(w.value) filter (where w.place = '${place}'), 0)::text as ${place}_value,
    round(coalesce(sum(w.grams) filter (where w.place = '${place}'), 0), 3)::text
      as ${place}_grams,`,
      )
      .join('')}
    coalesce(sum(w.quantity) filter (where w.value = 0), 0)::text as zero,
    coalesce(max(w.seq), 0)::text as seq
    from weighed w
    join product g on g.studio_id = current_studio() and g.id = w.product_id
    left join bowls b on b.id = w.bowl_id
   group by w.bowl_id, w.product_id, g.name, g.kind, g.unit, b.purpose, b.borne_by, b.planned_at
  having sum(w.quantity) <> 0 or sum(w.value) <> 0
   order by b.planned_at nulls last, w.bowl_id, min(w.poured_at), w.product_id`);

/** Costs that were found later for what the visit $1 used at none. */
export const READ_FOUND_COSTS = prepared(`
  select c.bowl_id, c.product_id, c.place, sum(c.quantity)::text as quantity,
    sum(c.value)::text as value, max(c.fix_seq)::text as seq
    from cost_found_later c
   where c.studio_id = current_studio()
     and (c.bowl_id in (select b.id from bowl b
         where b.studio_id = current_studio() and b.visit_id = $1)
       or c.bowl_id is null and c.visit_id = $1 and c.place = 'head')
   group by 1, 2, 3`);

/** Bowls that were started for the visit $1, by the kind of product that most of it is. */
export const READ_STARTED_BOWLS = prepared(`
  select distinct on (b.planned_at, b.id) b.id, g.kind, b.borne_by
    from bowl b
    join pour u on u.studio_id = b.studio_id and u.bowl_id = b.id and u.reversed_at is null
    join product g on g.studio_id = u.studio_id and g.id = u.product_id
   where b.studio_id = current_studio() and b.visit_id = $1 and b.state in ('open', 'settled')
   group by b.planned_at, b.id, g.kind, b.borne_by
   order by b.planned_at, b.id, g.kind in ('developer', 'additive', 'care', 'sundry', 'water'),
     sum(u.grams) desc, g.kind`);

/**
 * What one stock unit would cost now: the list price with the share of freight and the like of the
 * last 12 months' deliveries, else the newest lot; water costs nothing. $1 products, $2 now.
 */
export const READ_REPLACEMENT = prepared(`
  select p.id, round(case when p.kind = 'water' then 0 else coalesce(
      (select k.list_price / k.quantity from pack k
        where k.studio_id = p.studio_id and k.product_id = p.id and k.list_price > 0
        order by k.position limit 1) * (1 + coalesce(extra.share, 0)),
      (select l.cost / l.quantity from lot l
        where l.studio_id = p.studio_id and l.product_id = p.id and l.cost > 0
          and l.quantity > 0 and l.source in ('delivery', 'opening', 'transfer')
        order by l.received_on desc, l.id desc limit 1)) end, 15)::text as unit_cost
    from product p
    left join lateral (
      select sum(d.extra) / nullif(sum(d.landed - d.extra), 0) as share from (
        select d.freight + d.other_cost + d.non_recoverable_tax as extra,
          (select sum(l.cost) from delivery_line l
            where l.studio_id = d.studio_id and l.delivery_id = d.id) as landed
          from delivery d
         where d.studio_id = p.studio_id
           and d.delivered_on > ($2::timestamptz)::date - 365
           and exists (select from delivery_line l where l.studio_id = d.studio_id
             and l.delivery_id = d.id and l.product_id = p.id)
           and not exists (select from journal r
             where r.studio_id = d.studio_id and r.reverses_id = d.id)) d
    ) extra on true
   where p.studio_id = current_studio() and p.id = any($1::uuid[])`);

/** What an hour and a commission of the people $1 are. */
export const READ_RATES = prepared(`
  select id, name, kind, hour_rate::text as "hourRate",
    case when commission_share is not null then json_build_object(
      'share', trim_scale(commission_share)::text, 'on', commission_on) end as commission
    from person where studio_id = current_studio() and id = any($1::uuid[])`);

/** Whether anything was used for the visit $1 without a bowl. */
export const READ_HAS_USES = prepared(`
  select exists (select from movement m where m.studio_id = current_studio() and m.visit_id = $1
    and m.from_bowl_id is null and m.to_bowl_id is null and m.journal_kind = 'use'
    and m.to_place = 'head') as used`);

const SHEET_FIELDS = `
  id, version, replaces, to_char(made_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')
    as made_at, basis, sheet`;

/** The newest sheet of the visit $1. */
export const READ_NEWEST_SHEET = prepared(`
  select ${SHEET_FIELDS} from price_sheet
   where studio_id = current_studio() and visit_id = $1 order by version desc limit 1`);

/** All sheets of the visit $1, the newest first. */
export const READ_SHEETS = prepared(`
  select ${SHEET_FIELDS} from price_sheet
   where studio_id = current_studio() and visit_id = $1 order by version desc`);

/** $1 id, $2 visit, $3 version, $4 replaces, $5 made, $6 last movement, $7 basis, $8 sheet. */
export const KEEP_SHEET = prepared(`
  insert into price_sheet (studio_id, id, visit_id, version, replaces, made_at, ledger_seq, basis,
      sheet)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7, $8)`);
