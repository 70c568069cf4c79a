/** SQL of the shelf's reports: what is there, what it was worth, what was used. */

/** Products to show: those kept, and retired ones that are still there. */
export const READ_SHELF_IDS = `
  select p.id, p.named_later as "namedLater",
    coalesce(h.supplier_quantity <> 0 or h.last_counted_at is not null, false) as entered
    from product p
    left join product_holding h on h.studio_id = p.studio_id and h.product_id = p.id
   where p.studio_id = current_studio() and p.kind <> 'water'
     and (p.retired_at is null or h.shelf_quantity > 0)
   order by p.name, p.id`;

/**
 * What the shelf was worth at the end of a day, by when things happened: whole months from the
 * roll-up, the days of the last one from its movements. $1 the day.
 */
export const READ_SHELF_ON = `
  with moved as (
    select product_id,
      sum(case when to_place = 'shelf' then quantity else -quantity end) as quantity,
      sum(case when to_place = 'shelf' then value else -value end) as value
      from monthly_flow
     where studio_id = current_studio() and (from_place = 'shelf' or to_place = 'shelf')
       and month < date_trunc('month', ($1::date + 1)::timestamp)::date
     group by product_id
    union all
    select product_id, case when to_place = 'shelf' then quantity else -quantity end,
      case when to_place = 'shelf' then value else -value end
      from movement
     where studio_id = current_studio() and (from_place = 'shelf' or to_place = 'shelf')
       and happened_on between date_trunc('month', ($1::date + 1)::timestamp)::date and $1::date
       and happened_at >= date_trunc('month', ($1::date + 1)::timestamp) - interval '2 days'
       and happened_at < $1::date + interval '3 days'
  )
  select p.id, p.name, p.unit, sum(m.quantity) as quantity, sum(m.value) as value
    from moved m
    join product p on p.studio_id = current_studio() and p.id = m.product_id
   group by p.id, p.name, p.unit having sum(m.quantity) <> 0 or sum(m.value) <> 0
   order by p.name, p.id`;

/** What a row is told apart by, and what is shown of it. */
const usageKeys = {
  product: ['p.name', 'f.product_id'],
  strength: ['p.strength_vol as strength'],
  month: [`to_char(f.month, 'YYYY-MM') as month`],
} as const;

export type UsageKey = keyof typeof usageKeys;

/** Millilitres of a developer that is kept by weight, so that one strength adds up. */
const developerQuantity = `case when p.unit = 'g'
  then f.quantity / coalesce(p.density_g_per_ml, 1) else f.quantity end`;

/**
 * What went into bowls or was used, less what was scooped back or undone: whole months from the
 * roll-up, the days before and after them from their movements. $1 from, $2 to (exclusive).
 */
export function readUsage(by: readonly UsageKey[]): string {
  const keys: string[] = by.flatMap((key) => usageKeys[key]);
  const byStrength = by.includes('strength');
  const unit = byStrength ? `case when p.unit = 'g' then 'ml' else p.unit end` : 'p.unit';
  const quantity = byStrength ? developerQuantity : 'f.quantity';
  const groups = keys.map((key) => key.split(' as ')[0]);
  const used = (way: string) => `
      ((${way}from_place = 'shelf' and ${way}to_place in ('bowl', 'head'))
        or (${way}to_place = 'shelf' and ${way}from_place in ('bowl', 'head')))`;
  const sign = `case when from_place = 'shelf' then 1 else -1 end`;
  return `
  with bounds as (
    select $1::date as first, $2::date as past,
      date_trunc('month', $1::date + interval '1 month - 1 day')::date as whole,
      greatest(date_trunc('month', $2::timestamp)::date,
        date_trunc('month', $1::date + interval '1 month - 1 day')::date) as rest
  ), flows as (
    select r.product_id, r.month, ${sign} * r.quantity as quantity, ${sign} * r.value as value
      from bounds b, monthly_flow r
     where r.studio_id = current_studio() and r.month >= b.whole and r.month < b.rest
       and ${used('r.')}
    union all
    select m.product_id, date_trunc('month', m.happened_on::timestamp)::date,
      ${sign} * m.quantity, ${sign} * m.value
      from bounds b, movement m
     where m.studio_id = current_studio()
       and m.happened_at >= b.first - interval '2 days'
       and m.happened_at < b.past + interval '2 days'
       and m.happened_on >= b.first and m.happened_on < b.past
       and (m.happened_on < b.whole or m.happened_on >= b.rest)
       and ${used('m.')}
  )
  select ${[...keys, `${unit} as unit`].join(', ')}, sum(${quantity}) as quantity,
    sum(f.value) as value
    from flows f
    join product p on p.studio_id = current_studio() and p.id = f.product_id
   where ${byStrength ? `p.kind = 'developer'` : 'true'}
   group by ${[...groups, unit].join(', ')}
  having sum(f.quantity) <> 0 or sum(f.value) <> 0
   order by ${Array.from({ length: groups.length + 1 }, (_, index) => index + 1).join(', ')}`;
}
