/** SQL of what a person who rents a chair took of the studio's product. */
import { prepared } from '../../platform/database/transaction.js';

/** The person $1. */
export const READ_RENTER = prepared(`
  select name, kind from person where studio_id = current_studio() and id = $1`);

/**
 * By product, what bowls of the person $1 took that were settled in the days from $2 to before
 * $3, and what was used for her visits; what the studio bears stands beside it. A bowl is hers by
 * its visit, without one by who applied, mixed or sized it.
 */
export const READ_TAKEN_BY = prepared(`
  with own as (
    select b.studio_id, b.id, b.borne_by
      from bowl b join studio s on s.studio_id = b.studio_id
      left join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
     where b.studio_id = current_studio() and b.state = 'settled'
       and b.settled_at >= $2::date::timestamp at time zone s.time_zone
       and b.settled_at < $3::date::timestamp at time zone s.time_zone
       and case when v.id is null then coalesce(b.applied_by, b.mixed_by, b.sized_by)
         else v.person_id end = $1
  ), moved as (
    select m.product_id, m.to_place as place, o.borne_by, m.quantity, m.value from own o
      join movement m on m.studio_id = o.studio_id and m.from_bowl_id = o.id
     where m.to_place in ('head', 'bin')
    union all
    select m.product_id, m.from_place, o.borne_by, -m.quantity, -m.value from own o
      join movement m on m.studio_id = o.studio_id and m.to_bowl_id = o.id
     where m.from_place in ('head', 'bin')
    union all
    select c.product_id, c.place, o.borne_by, 0, c.value
      from cost_found_later c join own o on o.id = c.bowl_id
     where c.studio_id = current_studio()
    union all
    select m.product_id, 'head', null,
        case when m.to_place = 'head' then m.quantity else -m.quantity end,
        case when m.to_place = 'head' then m.value else -m.value end
      from movement m left join visit v on v.studio_id = m.studio_id and v.id = m.visit_id
     where m.studio_id = current_studio() and m.from_bowl_id is null and m.to_bowl_id is null
       and (m.from_place, m.to_place) in (('shelf', 'head'), ('head', 'shelf'))
       and m.happened_on >= $2::date and m.happened_on < $3::date
       and case when v.id is null then m.person_id else v.person_id end = $1
  ), part as (
    select *, place = 'bin' and coalesce(borne_by, 'visit') = 'studio' as studio_bears from moved
  )
  select g.id as "productId", g.name as product, g.unit,
    coalesce(sum(p.quantity) filter (where not p.studio_bears), 0)::text as quantity,
    coalesce(sum(p.value) filter (where not p.studio_bears), 0)::text as value,
    coalesce(sum(p.value) filter (where p.studio_bears), 0)::text as "notCharged"
    from part p join product g on g.studio_id = current_studio() and g.id = p.product_id
   group by g.id, g.name, g.unit having sum(p.quantity) <> 0 or sum(p.value) <> 0
   order by g.name, g.id`);

/** Bowls of the person $1 that are open. */
export const READ_OPEN_BOWLS_OF = prepared(`
  select count(*)::int as bowls from bowl b
    left join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
   where b.studio_id = current_studio() and b.state = 'open'
     and case when v.id is null then coalesce(b.applied_by, b.mixed_by, b.sized_by)
       else v.person_id end = $1`);
