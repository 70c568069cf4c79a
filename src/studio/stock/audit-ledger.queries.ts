/** SQL of the audit: the ledger's own invariants, recomputed from its movements. $1 since seq. */

/** Answers one row: how many rows it looked at, and the first breach in words or null. */
export interface AuditCheck {
  readonly name: string;
  readonly sql: string;
}

/** Rows of a part, and the first sentence of its breaches. */
const check = (name: string, rows: string, breaches: string): AuditCheck => ({
  name,
  sql: `select (${rows})::text as rows, (select says from (${breaches}) b limit 1) as breach`,
});

const own = 'studio_id = current_studio()';
const since = `${own} and seq > $1::bigint`;
const inside = `('shelf', 'bowl', 'head', 'bin')`;
const outside = `('supplier', 'correction', 'other studio')`;

const signed = (what: string, place: string) =>
  `case when m.to_place = ${place} then m.${what} else 0 end
    - case when m.from_place = ${place} then m.${what} else 0 end`;

/**
 * Nothing appears or vanishes: in the order of recording, what is inside the studio is what came
 * from outside less what went back; no place inside ever holds less than nothing.
 */
export const conserved = check(
  'conserved',
  `select count(*) from movement where ${since}`,
  `select 'product ' || product_id || ': after movement ' || seq || ' the studio holds '
      || quantity || ' worth ' || value || ' and got ' || got || ' worth ' || worth as says
     from (select product_id, seq,
        sum(case when to_place in ${inside} then quantity else 0 end
          - case when from_place in ${inside} then quantity else 0 end) over w as quantity,
        sum(case when to_place in ${inside} then value else 0 end
          - case when from_place in ${inside} then value else 0 end) over w as value,
        sum(case when from_place in ${outside} then quantity else 0 end
          - case when to_place in ${outside} then quantity else 0 end) over w as got,
        sum(case when from_place in ${outside} then value else 0 end
          - case when to_place in ${outside} then value else 0 end) over w as worth
        from movement where ${own}
      window w as (partition by product_id order by seq)) running
    where seq > $1::bigint and ((quantity, value) is distinct from (got, worth) or quantity < 0)
    order by seq`,
);

/** A lot never holds less than nothing, in the order of recording. */
export const lotsNotBelowZero = check(
  'lots never below zero',
  `select count(distinct lot_id) from movement where ${since}`,
  `select 'lot ' || lot_id || ': ' || quantity || ' after movement ' || seq as says
     from (select lot_id, seq,
        sum(${signed('quantity', `'shelf'`)}) over (partition by lot_id order by seq) as quantity
        from movement m where ${own} and (from_place = 'shelf' or to_place = 'shelf')) running
    where quantity < 0 and seq > $1::bigint order by seq`,
);

/**
 * An empty lot has given away exactly what it cost; under \`average\` an empty shelf has. A lot
 * came with the quantity and cost that it says.
 */
export const emptiedLots = check(
  'emptied lots drew their cost',
  `select count(*) from lot where ${own} and $1::bigint is not null`,
  `select says from (
     select 'lot ' || m.lot_id || ' is empty and ' || sum(${signed('value', `'shelf'`)})
         || ' of its cost is left' as says
       from movement m join studio s using (studio_id)
      where m.${own} and s.costing_method = 'fifo'
      group by m.lot_id
     having sum(${signed('quantity', `'shelf'`)}) = 0 and sum(${signed('value', `'shelf'`)}) <> 0
     union all
     select 'product ' || m.product_id || ' has an empty shelf worth '
         || sum(${signed('value', `'shelf'`)})
       from movement m where m.${own}
      group by m.product_id
     having sum(${signed('quantity', `'shelf'`)}) = 0 and sum(${signed('value', `'shelf'`)}) <> 0
     union all
     select 'lot ' || l.id || ' says ' || l.quantity || ' for ' || l.cost || ' and came with '
         || coalesce(sum(m.quantity), 0) || ' for ' || coalesce(sum(m.value), 0)
       from lot l
       left join movement m on m.studio_id = l.studio_id and m.lot_id = l.id
        and m.journal_id = l.journal_id and m.to_place = 'shelf'
        and m.from_place in ('supplier', 'other studio', 'correction')
      where l.${own} and l.source <> 'shortfall'
      group by l.id, l.quantity, l.cost
     having (coalesce(sum(m.quantity), 0), coalesce(sum(m.value), 0))
       is distinct from (l.quantity, l.cost)) found`,
);

/** What a reversal undoes it undoes exactly, once, and as a whole journal. */
export const reversals = check(
  'reversals are exact',
  `select count(*) from journal where ${own} and kind = 'reversal' and $1::bigint is not null`,
  `select says from (
     select 'movement ' || r.seq || ' does not undo ' || m.seq || ' exactly' as says
       from movement r join movement m on m.studio_id = r.studio_id and m.id = r.reverses_id
      where r.${own} and r.seq > $1::bigint
        and (r.product_id, r.lot_id, r.quantity, r.value, r.from_place, r.to_place,
             r.from_pour_id, r.to_pour_id, r.happened_at)
          is distinct from (m.product_id, m.lot_id, m.quantity, m.value, m.to_place,
             m.from_place, m.to_pour_id, m.from_pour_id, m.happened_at)
     union all
     select 'movement ' || seq || ' undoes one that is not there' from movement r
      where r.${own} and r.reverses_id is not null and r.seq > $1::bigint
        and not exists (select from movement m
          where m.studio_id = r.studio_id and m.id = r.reverses_id)
     union all
     select 'journal ' || j.reverses_id || ' was undone without its movement ' || m.seq
       from journal j join movement m on m.studio_id = j.studio_id and m.journal_id = j.reverses_id
      where j.${own} and not exists (select from movement r
        where r.studio_id = m.studio_id and r.reverses_id = m.id)
     union all
     select 'reversal ' || o.id || ' was itself undone'
       from journal j join journal o on o.studio_id = j.studio_id and o.id = j.reverses_id
      where j.${own} and o.kind = 'reversal') found`,
);

/** Every id once; every movement in a journal of its kind; nothing undone twice. */
export const onceOnly = check(
  'once only',
  `select count(*) from movement where ${since}`,
  `select says from (
     select 'movement ' || id || ' is there ' || count(*) || ' times' as says
       from movement where ${own} group by id having count(*) > 1
     union all
     select 'movement ' || reverses_id || ' was undone ' || count(*) || ' times'
       from movement where ${own} and reverses_id is not null
      group by reverses_id having count(*) > 1
     union all
     select 'journal ' || reverses_id || ' was undone ' || count(*) || ' times'
       from journal where ${own} and reverses_id is not null
      group by reverses_id having count(*) > 1
     union all
     select 'movement ' || m.seq || ' is not in a journal of kind ' || m.journal_kind
       from movement m left join journal j on j.studio_id = m.studio_id and j.id = m.journal_id
      where m.${own} and m.seq > $1::bigint and j.kind is distinct from m.journal_kind
     union all
     select 'request ' || id || ' is kept ' || count(*) || ' times'
       from request_once where ${own} group by id having count(*) > 1) found`,
);
