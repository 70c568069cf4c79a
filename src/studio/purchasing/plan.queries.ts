/** SQL of the order plan: what is on the shelf and on order, prices, lives, rooms, suppliers. */

/** Per product: lots on the shelf, on order, life and price of the last deliveries, limits. */
export const READ_PLAN_STOCK = `
  select p.id,
    (select coalesce(json_agg(json_build_object('quantity', lh.quantity::float8,
        'expiresOn', l.expires_on) order by l.expires_on nulls last), '[]')
       from lot_holding lh
       join lot l on l.studio_id = lh.studio_id and l.id = lh.lot_id
      where lh.studio_id = p.studio_id and lh.product_id = p.id and lh.quantity > 0) as lots,
    (select coalesce(sum(l.quantity - l.received), 0)::float8 from purchase_order_line l
      where l.studio_id = p.studio_id and l.product_id = p.id and l.received < l.quantity
        and not l.cancelled) as on_order,
    (select percentile_disc(0.5) within group (order by d.expires_on - d.received_on)
       from (select l.expires_on, l.received_on from lot l
         where l.studio_id = p.studio_id and l.product_id = p.id and l.source = 'delivery'
           and l.expires_on > l.received_on order by l.received_on desc limit 6) d) as life_days,
    (select json_object_agg(x.pack_label, x.pack_price::text) from (
       select distinct on (l.pack_label) l.pack_label, l.pack_price from delivery_line l
         join delivery d on d.studio_id = l.studio_id and d.id = l.delivery_id
        where l.studio_id = p.studio_id and l.product_id = p.id and l.pack_price > 0
          and l.pack_label is not null
        order by l.pack_label, d.delivered_on desc) x) as last_prices,
    (select s.most_packs from storage_limit s
      where s.studio_id = p.studio_id and s.product_id = p.id) as most_packs
    from product p
   where p.studio_id = current_studio() and p.kind <> 'water' and p.retired_at is null`;

export const READ_BREAKS = `
  select b.pack_id, b.from_packs, b.pack_price::text from price_break b
   where b.studio_id = current_studio() order by b.pack_id, b.from_packs`;

export const READ_SUPPLIERS = `
  select id, name, minimum_order::text, freight::text, free_freight_from::text
    from supplier where studio_id = current_studio() order by name, id`;

/** Packs of one product. $1 product. */
export const READ_PRODUCT_PACKS = `
  select p.name, k.id, k.label, k.list_price::text from product p
    left join pack k on k.studio_id = p.studio_id and k.product_id = p.id
   where p.studio_id = current_studio() and p.id = $1 order by k.position`;

/** Replaces what is known of one product. $1 product, $2 most packs or null. */
export const WRITE_ORDER_TERMS = `
  with gone as (
    delete from price_break where studio_id = current_studio() and pack_id in
      (select id from pack where studio_id = current_studio() and product_id = $1)
  ), unlimited as (
    delete from storage_limit where studio_id = current_studio() and product_id = $1
      and $2::int is null
  ), limited as (
    insert into storage_limit (studio_id, product_id, most_packs)
    select current_studio(), $1, $2::int where $2::int is not null
    on conflict (studio_id, product_id) do update set most_packs = excluded.most_packs
  )
  select 1`;

/** $1 json of breaks. */
export const WRITE_BREAKS = `
  insert into price_break (studio_id, pack_id, from_packs, pack_price)
  select current_studio(), b.pack_id, b.from_packs, b.pack_price
    from jsonb_to_recordset($1::jsonb) as b(pack_id uuid, from_packs integer,
      pack_price numeric)`;

/** Terms of one product. $1 product. */
export const READ_ORDER_TERMS = `
  select p.id, (select s.most_packs from storage_limit s
      where s.studio_id = p.studio_id and s.product_id = p.id) as most_packs,
    (select coalesce(json_agg(json_build_object('packLabel', k.label, 'fromPacks', b.from_packs,
        'packPrice', b.pack_price::text) order by k.position, b.from_packs), '[]')
       from price_break b join pack k on k.studio_id = b.studio_id and k.id = b.pack_id
      where b.studio_id = p.studio_id and k.product_id = p.id) as breaks
    from product p where p.studio_id = current_studio() and p.id = $1`;
