/** SQL of orders: entered once, cancelled once; what came of them is kept by the deliveries. */

/** $1 one order, $2 its lines, both json. */
export const WRITE_ORDER = `
  with made as (
    insert into purchase_order (studio_id, id, supplier_id, ordered_on, recorded_at, person_id,
        note)
    select current_studio(), o.id, o.supplier_id, o.ordered_on, o.recorded_at, o.person_id, o.note
      from jsonb_to_record($1::jsonb) as o(id uuid, supplier_id uuid, ordered_on date,
        recorded_at timestamptz, person_id uuid, note text)
    returning id
  )
  insert into purchase_order_line (studio_id, order_id, position, product_id, pack_label,
      pack_quantity, order_code, packs, pack_price, quantity)
  select current_studio(), made.id, l.position, l.product_id, l.pack_label, l.pack_quantity,
      l.order_code, l.packs, l.pack_price, l.packs * l.pack_quantity
    from made, jsonb_to_recordset($2::jsonb) as l(position integer, product_id uuid,
      pack_label text, pack_quantity numeric, order_code text, packs integer,
      pack_price numeric)`;

/** Products with their packs and breaks, for the lines of an order. $1 product ids. */
export const READ_ORDERABLE = `
  select p.id, p.name, p.supplier_id,
    (select json_agg(json_build_object('label', k.label, 'quantity', k.quantity::text,
        'listPrice', k.list_price::text, 'orderCode', k.order_code,
        'breaks', (select coalesce(json_agg(json_build_object('fromPacks', b.from_packs,
            'packPrice', b.pack_price::text) order by b.from_packs), '[]')
          from price_break b where b.studio_id = k.studio_id and b.pack_id = k.id))
        order by k.position)
       from pack k where k.studio_id = p.studio_id and k.product_id = p.id) as packs
    from product p where p.studio_id = current_studio() and p.id = any($1::uuid[])`;

/** $1 supplier. */
export const READ_KNOWN_SUPPLIER = `
  select id from supplier where studio_id = current_studio() and id = $1`;

/** The state of an order o, from what its lines say. */
const STATE = `
    case when not exists (select from purchase_order_line l where l.studio_id = o.studio_id
        and l.order_id = o.id and l.received < l.quantity) then 'received'
      when o.cancelled_at is not null then 'cancelled'
      when exists (select from purchase_order_line l where l.studio_id = o.studio_id
        and l.order_id = o.id and l.received > 0) then 'partly received'
      else 'sent' end`;

const ORDER = `
  select o.id, o.seq, o.supplier_id, s.name as supplier, s.freight, s.free_freight_from,
    to_char(o.ordered_on, 'YYYY-MM-DD') as ordered_on, o.recorded_at, o.note, o.cancelled_at,
    st.currency, st.name as studio, ${STATE} as state,
    (select json_agg(json_build_object('productId', l.product_id, 'name', p.name,
        'unit', p.unit, 'packLabel', l.pack_label, 'packQuantity', l.pack_quantity::text,
        'orderCode', l.order_code, 'packs', l.packs, 'packPrice', l.pack_price::text,
        'quantity', l.quantity::text, 'received', l.received::text,
        'awaited', (case when l.cancelled then 0
          else greatest(0, l.quantity - l.received) end)::text) order by l.position)
       from purchase_order_line l
       join product p on p.studio_id = l.studio_id and p.id = l.product_id
      where l.studio_id = o.studio_id and l.order_id = o.id) as lines,
    (select coalesce(json_agg(d.id order by d.delivered_on, d.id), '[]') from delivery d
      where d.studio_id = o.studio_id and d.order_id = o.id
        and not exists (select from journal r
          where r.studio_id = d.studio_id and r.reverses_id = d.id)) as deliveries
    from purchase_order o
    join studio st on st.studio_id = o.studio_id
    left join supplier s on s.studio_id = o.studio_id and s.id = o.supplier_id
   where o.studio_id = current_studio()`;

/** $1 id. */
export const READ_ORDER = `${ORDER} and o.id = $1`;

/** Newest first. $1 seq of the last one seen, $2 limit, $3 state, $4 supplier. */
export const READ_ORDERS = `${ORDER} and ($1::bigint is null or o.seq < $1)
     and ($3::text is null or $3 = ${STATE}) and ($4::uuid is null or o.supplier_id = $4)
   order by o.seq desc limit $2`;

/** Locks an order until the end of the transaction. $1 id. */
export const LOCK_ORDER = `
  select id from purchase_order where studio_id = current_studio() and id = $1 for update`;

/** $1 id, $2 when. */
export const CANCEL_ORDER = `
  with rest as (
    update purchase_order_line set cancelled = true
     where studio_id = current_studio() and order_id = $1 and received < quantity
  )
  update purchase_order set cancelled_at = $2 where studio_id = current_studio() and id = $1`;
