/** SQL of counts: what the book said at an instant, what counts took before, the count's lines. */

/**
 * What the book says at an instant, by when things happened. A count made at that very instant
 * is part of it. $1 products, $2 the instant.
 */
export const READ_BOOK = `
  select h.product_id, h.shelf_quantity - coalesce((
      select sum(case when m.to_place = 'shelf' then m.quantity else -m.quantity end)
        from movement m
        left join journal j on j.studio_id = m.studio_id and j.id = m.journal_id
          and m.journal_kind = 'reversal'
        left join journal o on o.studio_id = j.studio_id and o.id = j.reverses_id
       where m.studio_id = h.studio_id and m.product_id = h.product_id
         and (m.from_place = 'shelf' or m.to_place = 'shelf') and m.happened_at >= $2
         and not (m.happened_at = $2 and coalesce(o.kind, m.journal_kind) = 'count')), 0) as book
    from product_holding h
   where h.studio_id = current_studio() and h.product_id = any($1::uuid[])`;

/** What counts took and put back, and what late entries explained, as recorded. $1 products. */
export const READ_COUNT_HISTORY = `
  select m.product_id, m.lot_id, l.received_on, l.expires_on, m.quantity, m.value,
    m.from_place = 'shelf' as taken, m.reason = 'counted' as by_count
    from movement m
    join lot l on l.studio_id = m.studio_id and l.id = m.lot_id
   where m.studio_id = current_studio() and m.product_id = any($1::uuid[])
     and (m.from_place = 'correction' or m.to_place = 'correction')
     and m.reason in ('counted', 'already counted') and l.source <> 'shortfall'
     and not exists (select from movement r
       where r.studio_id = m.studio_id and r.reverses_id = m.id)
   order by m.seq`;

/** $1 lines, json. */
export const WRITE_COUNT_LINES = `
  insert into count_line (studio_id, journal_id, product_id, counted_at, counted, book, stands)
  select current_studio(), c.journal_id, c.product_id, c.counted_at, c.counted, c.book, c.stands
    from jsonb_to_recordset($1::jsonb) as c(journal_id uuid, product_id uuid,
      counted_at timestamptz, counted numeric, book numeric, stands boolean)`;
