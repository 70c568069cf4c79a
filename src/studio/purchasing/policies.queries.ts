/** SQL of reorder policies: what they rest on, and where they are kept. */

/** What a policy and a plan need to know of every product that is kept. */
export const READ_TERMS = `
  select p.id, p.reorder_point::text, p.keep_sealed, p.service_level::text, p.supplier_id,
    p.lead_time_days as own_lead_time, sup.lead_time_days as supplier_lead_time, sup.order_day,
    (select json_agg(json_build_object('id', k.id, 'label', k.label,
        'quantity', k.quantity::text, 'listPrice', k.list_price::text,
        'orderCode', k.order_code) order by k.position)
       from pack k where k.studio_id = p.studio_id and k.product_id = p.id) as packs
    from product p
    left join supplier sup on sup.studio_id = p.studio_id and sup.id = p.supplier_id
   where p.studio_id = current_studio() and p.kind <> 'water' and p.retired_at is null
   order by p.name, p.id`;

/** Days from order to delivery, oldest first, where the day of the order is known. */
export const READ_RECEIPTS = `
  select d.supplier_id, d.delivered_on - coalesce(d.ordered_on, o.ordered_on) as days
    from delivery d
    left join purchase_order o on o.studio_id = d.studio_id and o.id = d.order_id
   where d.studio_id = current_studio() and d.supplier_id is not null
     and d.delivered_on >= coalesce(d.ordered_on, o.ordered_on)
     and not exists (select from journal r
       where r.studio_id = d.studio_id and r.reverses_id = d.id)
   order by d.delivered_on, d.id`;

/** Replaces all policies of the studio. $1 json of them, $2 made at. */
export const WRITE_POLICIES = `
  with told as (
    select * from jsonb_to_recordset($1::jsonb)
      as t(product_id uuid, point numeric, up_to numeric, basis jsonb)
  ), gone as (
    delete from reorder_policy where studio_id = current_studio()
      and product_id not in (select product_id from told)
  )
  insert into reorder_policy (studio_id, product_id, point, up_to, made_at, basis)
  select current_studio(), t.product_id, t.point, t.up_to, $2, t.basis from told t
  on conflict (studio_id, product_id) do update set point = excluded.point,
    up_to = excluded.up_to, made_at = excluded.made_at, basis = excluded.basis`;

/** Policies with what stands before them. */
export const READ_POLICIES = `
  select p.id as product_id, p.name, p.unit, p.reorder_point::text as typed, p.keep_sealed,
    (select k.quantity::text from pack k where k.studio_id = p.studio_id and k.product_id = p.id
      order by k.position limit 1) as pack,
    r.point::text, r.up_to::text, r.made_at, r.basis
    from product p
    left join reorder_policy r on r.studio_id = p.studio_id and r.product_id = p.id
   where p.studio_id = current_studio() and p.kind <> 'water' and p.retired_at is null
   order by p.name, p.id`;

/** When the policies were made last, and whether the diary changed since. */
export const READ_LAST_MADE = `
  select max(made_at) as at, coalesce((select d.changed_at from diary_change d
      where d.studio_id = current_studio()) > max(made_at), false) as outdated
    from reorder_policy where studio_id = current_studio()`;
