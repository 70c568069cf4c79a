/** SQL of deliveries: the paper of what arrived, beside the ledger; lists of them and of lots. */

/** Noon of a day in the studio's time zone. $1 day. */
export const READ_NOON = `
  select ($1::date + time '12:00') at time zone time_zone as noon
    from studio where studio_id = current_studio()`;

/** $1 supplier. */
export const READ_SUPPLIER = `
  select id from supplier where studio_id = current_studio() and id = $1`;

/** $1 one delivery, $2 its lines, both json. */
export const WRITE_DELIVERY = `
  with made as (
    insert into delivery (studio_id, id, supplier_id, order_id, ordered_on, delivered_on,
        invoice_no, freight, other_cost, discount, non_recoverable_tax)
    select current_studio(), d.id, d.supplier_id, d.order_id, d.ordered_on, d.delivered_on,
        d.invoice_no, d.freight, d.other_cost, d.discount, d.non_recoverable_tax
      from jsonb_to_record($1::jsonb) as d(id uuid, supplier_id uuid, order_id uuid,
        ordered_on date, delivered_on date, invoice_no text, freight numeric,
        other_cost numeric, discount numeric, non_recoverable_tax numeric)
    returning id
  )
  insert into delivery_line (studio_id, delivery_id, position, product_id, lot_id, pack_label,
      packs, free_packs, pack_price, quantity, cost)
  select current_studio(), made.id, l.position, l.product_id, l.lot_id, l.pack_label, l.packs,
      l.free_packs, l.pack_price, l.quantity, l.cost
    from made, jsonb_to_recordset($2::jsonb) as l(position integer, product_id uuid,
      lot_id uuid, pack_label text, packs integer, free_packs integer, pack_price numeric,
      quantity numeric, cost numeric)`;

const DELIVERY = `
  select d.id, d.supplier_id, d.order_id, d.ordered_on, d.delivered_on, d.invoice_no, d.freight,
    d.other_cost, d.discount, d.non_recoverable_tax,
    exists (select from journal r
      where r.studio_id = d.studio_id and r.reverses_id = d.id) as reversed,
    (select json_agg(json_build_object('productId', l.product_id, 'lotId', l.lot_id,
        'packLabel', l.pack_label, 'packs', l.packs, 'freePacks', l.free_packs,
        'packPrice', l.pack_price::text, 'quantity', l.quantity::text, 'unit', p.unit,
        'cost', l.cost::text, 'expiresOn', lot.expires_on) order by l.position)
       from delivery_line l
       join product p on p.studio_id = l.studio_id and p.id = l.product_id
       join lot on lot.studio_id = l.studio_id and lot.id = l.lot_id
      where l.studio_id = d.studio_id and l.delivery_id = d.id) as lines
    from delivery d where d.studio_id = current_studio()`;

/** $1 id. */
export const READ_DELIVERY = `${DELIVERY} and d.id = $1`;

/** Newest first. $1, $2 day and id of the last one seen; $3 limit; $4 supplier; $5 product. */
export const READ_DELIVERIES = `${DELIVERY}
     and ($1::date is null or (d.delivered_on, d.id) < ($1::date, $2::uuid))
     and ($4::uuid is null or d.supplier_id = $4)
     and ($5::uuid is null or exists (select from delivery_line l
       where l.studio_id = d.studio_id and l.delivery_id = d.id and l.product_id = $5))
   order by d.delivered_on desc, d.id desc limit $3`;

/**
 * Lots, newest first. $1, $2 day and id of the last one seen; $3 limit; $4 product; $5 empty
 * ones too; $6 today.
 */
export const READ_LOT_LIST = `
  select l.id, l.product_id, p.name, l.source, l.received_on, l.expires_on, l.lot_code,
    l.quantity, l.cost, p.unit, coalesce(h.quantity, 0) as on_hand,
    case when s.costing_method = 'fifo' then coalesce(h.value, 0) end as value,
    coalesce(l.expires_on < $6::date, false) as expired
    from lot l
    join studio s on s.studio_id = l.studio_id
    join product p on p.studio_id = l.studio_id and p.id = l.product_id
    left join lot_holding h on h.studio_id = l.studio_id and h.lot_id = l.id
   where l.studio_id = current_studio() and l.source <> 'shortfall'
     and ($1::date is null or (l.received_on, l.id) < ($1::date, $2::uuid))
     and ($4::uuid is null or l.product_id = $4)
     and ($5 or h.quantity > 0)
   order by l.received_on desc, l.id desc limit $3`;
