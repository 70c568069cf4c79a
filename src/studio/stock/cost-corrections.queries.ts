/** SQL of cost corrections: what was used at no cost, what lots cost so far. */

/** Bowls that hold something of the products at no cost. $1 products. */
export const READ_BOWLS_AT_NO_COST = `
  select distinct bowl_id from pour_holding
   where studio_id = current_studio() and product_id = any($1::uuid[])
     and value = 0 and quantity > 0`;

/** What went somewhere at a value of zero and is still there. $1 products. */
export const READ_USED_AT_NO_COST = `
  with there as (
    select product_id, lot_id, place, visit_id, sum(quantity) as quantity from (
      select m.product_id, m.lot_id, m.to_place as place, m.visit_id, m.quantity
        from movement m
       where m.studio_id = current_studio() and m.product_id = any($1::uuid[])
         and m.value = 0 and m.to_place in ('head', 'bin')
      union all
      select m.product_id, m.lot_id, m.from_place, m.visit_id, -m.quantity
        from movement m
       where m.studio_id = current_studio() and m.product_id = any($1::uuid[])
         and m.value = 0 and m.from_place in ('head', 'bin')) both_ways
     group by 1, 2, 3, 4 having sum(quantity) > 0
  )
  select product_id, lot_id, place, visit_id, null::uuid as bowl_id, null::uuid as pour_id,
    quantity from there
  union all
  select h.product_id, h.lot_id, 'bowl', b.visit_id, h.bowl_id, h.pour_id, h.quantity
    from pour_holding h
    join bowl b on b.studio_id = h.studio_id and b.id = h.bowl_id
   where h.studio_id = current_studio() and h.product_id = any($1::uuid[])
     and h.value = 0 and h.quantity > 0
   order by 1, 2, 3, 4, 5, 6`;

/** Lots with what one unit cost, corrections before included. $1 lots. */
export const READ_LOT_COSTS = `
  select l.id, l.product_id, l.quantity, l.cost / l.quantity + coalesce((
      select sum(each.change) from (
        select sum(case when m.to_place = 'shelf' then m.value else -m.value end)
            / max(m.quantity) as change
          from movement m
         where m.studio_id = l.studio_id and m.product_id = l.product_id and m.lot_id = l.id
           and m.reason = 'new cost' and (m.from_place = 'shelf' or m.to_place = 'shelf')
           and (m.from_place = 'correction' or m.to_place = 'correction')
           and not exists (select from movement r
             where r.studio_id = m.studio_id and r.reverses_id = m.id)
         group by m.journal_id) each), 0) as unit_cost
    from lot l
   where l.studio_id = current_studio() and l.id = any($1::uuid[]) and l.quantity > 0`;
