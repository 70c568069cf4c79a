/** SQL of what many visits used at once; the same as of one visit, each row with its visit. */
import { prepared } from '../../platform/database/transaction.js';

const places = ['head', 'bin', 'bowl'];

/**
 * What the visits $1 used, bowl by bowl and product by product, from the ledger. A bowl counts for
 * the visit that it belongs to now, a use for the one it was booked for. `zero` is how much of it
 * has no value. Bowls first, then what was used without one.
 */
export const READ_FLOWS_OF_MANY = prepared(`
  with bowls as (
    select b.studio_id, b.id, b.visit_id, b.purpose, b.borne_by, b.planned_at from bowl b
     where b.studio_id = current_studio() and b.visit_id = any($1::uuid[])
       and b.state in ('open', 'settled')
  ), flow as (
    select b.visit_id, m.from_bowl_id as bowl_id, m.from_pour_id as pour_id, m.product_id,
        m.lot_id, m.to_place as place, m.quantity, m.value, m.seq
      from bowls b join movement m on m.studio_id = b.studio_id and m.from_bowl_id = b.id
     where m.to_place in ('head', 'bin')
    union all
    select b.visit_id, m.to_bowl_id, m.to_pour_id, m.product_id, m.lot_id, m.from_place,
        -m.quantity, -m.value, m.seq
      from bowls b join movement m on m.studio_id = b.studio_id and m.to_bowl_id = b.id
     where m.from_place in ('head', 'bin')
    union all
    select b.visit_id, h.bowl_id, h.pour_id, h.product_id, h.lot_id, 'bowl', h.quantity, h.value,
        null
      from bowls b join pour_holding h on h.studio_id = b.studio_id and h.bowl_id = b.id
     where h.quantity > 0
    union all
    select m.visit_id, null, null, m.product_id, m.lot_id, 'head',
        case when m.to_place = 'head' then m.quantity else -m.quantity end,
        case when m.to_place = 'head' then m.value else -m.value end, m.seq
      from movement m
     where m.studio_id = current_studio() and m.visit_id = any($1::uuid[])
       and m.from_bowl_id is null and m.to_bowl_id is null
       and (m.from_place, m.to_place) in (('shelf', 'head'), ('head', 'shelf'))
  ), part as (
    select f.visit_id, f.bowl_id, f.pour_id, f.product_id, f.lot_id, f.place,
        sum(f.quantity) as quantity, sum(f.value) as value, max(f.seq) as seq
      from flow f group by 1, 2, 3, 4, 5, 6
  ), weighed as (
    select p.*, u.poured_at, case when u.id is not null then p.quantity * u.grams / u.quantity
        when g.unit = 'g' then p.quantity
        when g.unit = 'ml' then p.quantity * coalesce(g.density_g_per_ml, 1)
        else p.quantity * coalesce(g.grams_per_piece, 0) end as grams
      from part p
      join product g on g.studio_id = current_studio() and g.id = p.product_id
      left join pour u on u.studio_id = current_studio() and u.id = p.pour_id
  )
  select w.visit_id, w.bowl_id, w.product_id, g.name, g.kind, g.unit, b.purpose, b.borne_by,
    ${places
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
   group by w.visit_id, w.bowl_id, w.product_id, g.name, g.kind, g.unit, b.purpose, b.borne_by,
     b.planned_at
  having sum(w.quantity) <> 0 or sum(w.value) <> 0
   order by w.visit_id, b.planned_at nulls last, w.bowl_id, min(w.poured_at), w.product_id`);

/** Costs that were found later for what the visits $1 used at none. */
export const READ_FOUND_OF_MANY = prepared(`
  select coalesce(b.visit_id, c.visit_id) as visit_id, c.bowl_id, c.product_id, c.place,
    sum(c.quantity)::text as quantity, sum(c.value)::text as value, max(c.fix_seq)::text as seq
    from cost_found_later c
    left join bowl b on b.studio_id = c.studio_id and b.id = c.bowl_id
   where c.studio_id = current_studio()
     and (b.visit_id = any($1::uuid[])
       or c.bowl_id is null and c.visit_id = any($1::uuid[]) and c.place = 'head')
   group by 1, 2, 3, 4`);

/** Bowls that were started for the visits $1, by the kind of product that most of it is. */
export const READ_STARTED_OF_MANY = prepared(`
  select distinct on (b.planned_at, b.id) b.visit_id, b.id, g.kind, b.borne_by
    from bowl b
    join pour u on u.studio_id = b.studio_id and u.bowl_id = b.id and u.reversed_at is null
    join product g on g.studio_id = u.studio_id and g.id = u.product_id
   where b.studio_id = current_studio() and b.visit_id = any($1::uuid[])
     and b.state in ('open', 'settled')
   group by b.visit_id, b.planned_at, b.id, g.kind, b.borne_by
   order by b.planned_at, b.id, g.kind in ('developer', 'additive', 'care', 'sundry', 'water'),
     sum(u.grams) desc, g.kind`);
