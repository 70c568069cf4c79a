/** SQL of price lists: packs, visits that show the volume, what the list prices were. */
import { prepared } from '../../platform/database/transaction.js';

/** Packs that a list may name: of products in use, of the supplier $1 or of any. */
export const READ_PACKS = prepared(`
  select k.id, k.label, k.gtin, k.order_code as "orderCode", p.id as "productId",
    p.name as product, trim_scale(k.list_price)::text as price
    from pack k join product p on p.studio_id = k.studio_id and p.id = k.product_id
   where k.studio_id = current_studio() and p.retired_at is null
     and ($1::uuid is null or p.supplier_id = $1 or p.supplier_id is null)
   order by p.seq, k.position`);

/** Closed visits of clients in the $2 months before $1, none of them with an open bowl. */
export const READ_RECENT_VISITS = prepared(`
  select v.id, menu.key, menu.label, menu.price::text as menu
    from visit v
    join lateral (select string_agg(e.id::text, '+' order by e.id) as key,
        string_agg(e.name, ' + ' order by e.name) as label, sum(e.price) as price
        from visit_service vs
        join menu_on(studio_day($1)) e on e.id = vs.service_id
       where vs.studio_id = v.studio_id and vs.visit_id = v.id) menu on menu.key is not null
   where v.studio_id = current_studio() and v.kind = 'client' and v.closed_at is not null
     and v.started_at >= $1::timestamptz - $2::integer * interval '1 month'
     and v.started_at < $1::timestamptz
     and not exists (select from bowl b where b.studio_id = v.studio_id and b.visit_id = v.id
       and b.state = 'open')
   order by v.started_at, v.id`);

/** Services as the menu has them on the studio's day of the instant $1. */
export const READ_PRICES_NOW = prepared(`
  select id, trim_scale(price)::text as price, in_the_price as "inThePrice", on_top as "onTop"
    from menu_on(studio_day($1))`);

/** The newest price noted of each pack of $1. */
export const READ_LAST_NOTED = prepared(`
  select distinct on (pack_id) pack_id as id, trim_scale(price)::text as price
    from list_price where studio_id = current_studio() and pack_id = any($1::uuid[])
   order by pack_id, seq desc`);

/** Notes list prices. $1 rows of list, pack, product, label, price, starts_on, supplier, at. */
export const NOTE_PRICES = prepared(`
  insert into list_price (studio_id, list_id, pack_id, product_id, label, price, starts_on,
      supplier_id, recorded_at)
  select current_studio(), n.list_id, n.pack_id, n.product_id, n.label, n.price, n.starts_on,
    n.supplier_id, n.recorded_at
    from rows from (jsonb_to_recordset($1::jsonb) as (list_id uuid, pack_id uuid, product_id uuid,
      label text, price numeric, starts_on date, supplier_id uuid, recorded_at timestamptz))
      with ordinality as n(list_id, pack_id, product_id, label, price, starts_on, supplier_id,
        recorded_at, place)
   order by n.place`);

/** What was noted of the product $1, the newest first. */
export const READ_NOTED = prepared(`
  select n.pack_id as "packId", n.label as pack, trim_scale(n.price)::text as price,
    n.starts_on::text as "startsOn", n.supplier_id as "supplierId"
    from list_price n where n.studio_id = current_studio() and n.product_id = $1
   order by n.seq desc`);

/** Whether the supplier $1 is there. */
export const HAS_SUPPLIER = prepared(`
  select id from supplier where studio_id = current_studio() and id = $1`);
