/** SQL of sheets that are due: closed visits whose newest sheet is older than what it rests on. */
import { prepared } from '../../platform/database/transaction.js';

/** The movement up to which visits were looked at, and whether a cost was corrected since. */
export const READ_LOOKED = prepared(`
  with looked as (
    select coalesce((select l.seq from price_sheet_looked l
      where l.studio_id = current_studio()), 0) as seq
  )
  select looked.seq::text as seq, exists (select from movement m
      where m.studio_id = current_studio() and m.seq > looked.seq
        and m.from_place = 'correction' and m.to_place in ('head', 'bin')) as corrected
    from looked`);

/** Visits with a movement after $1 to or from head and bin, and the last one of each. */
const TOUCHED = `
    select b.visit_id, m.seq from movement m
      join bowl b on b.studio_id = m.studio_id and b.id = m.from_bowl_id
     where m.studio_id = current_studio() and m.seq > $1::bigint and m.to_place in ('head', 'bin')
    union all
    select b.visit_id, m.seq from movement m
      join bowl b on b.studio_id = m.studio_id and b.id = m.to_bowl_id
     where m.studio_id = current_studio() and m.seq > $1::bigint
    union all
    select m.visit_id, m.seq from movement m
     where m.studio_id = current_studio() and m.seq > $1::bigint and m.visit_id is not null
       and m.from_bowl_id is null and m.to_bowl_id is null`;

const CORRECTED = `
    union all
    select b.visit_id, c.fix_seq from cost_found_later c
      join bowl b on b.studio_id = c.studio_id and b.id = c.bowl_id
     where c.studio_id = current_studio() and c.fix_seq > $1::bigint`;

const dueVisits = (touched: string) =>
  prepared(`
  with touched as (${touched}
  ), last as (
    select visit_id, max(seq) as seq from touched where visit_id is not null group by 1
  ), due as (
    select l.visit_id from last l
     where coalesce((select p.ledger_seq from price_sheet p
         where p.studio_id = current_studio() and p.visit_id = l.visit_id
         order by p.version desc limit 1), -1) < l.seq
    union
    select v.id from visit v where v.studio_id = current_studio() and v.closed_at is not null
       and not v.has_sheet and $4::boolean
       and v.started_at >= ($2::date - interval '2 days')::timestamptz
       and v.started_at < ($3::date + interval '2 days')::timestamptz
  )
  select v.id from due join visit v on v.studio_id = current_studio() and v.id = due.visit_id
   where v.closed_at is not null and not exists (select from bowl b
     where b.studio_id = v.studio_id and b.visit_id = v.id and b.state = 'open')
   order by v.closed_at, v.id`);

/**
 * Closed visits without an open bowl that need a new sheet. $1 looked at up to here. Of those that
 * have none (from before there was a tax rule, or brought along) the days from $2 to before $3, as
 * far as there is a rule now: $4.
 */
export const READ_DUE = dueVisits(TOUCHED);

/** The same where a cost was corrected since. */
export const READ_DUE_AFTER_CORRECTION = dueVisits(TOUCHED + CORRECTED);

/** Nobody else prices the visits $1 until the transaction ends. */
export const LOCK_VISITS = prepared(`
  select id from visit where studio_id = current_studio() and id = any($1::uuid[])
   order by id for no key update`);

/** The newest sheet of each of the visits $1. */
export const READ_NEWEST_OF_MANY = prepared(`
  select distinct on (visit_id) visit_id, id, version, basis from price_sheet
   where studio_id = current_studio() and visit_id = any($1::uuid[])
   order by visit_id, version desc`);

/**
 * Remembers that all was looked at that was recorded ten minutes before $1: by then what was
 * begun before has been written.
 */
export const HAVE_LOOKED = prepared(`
  insert into price_sheet_looked as l (studio_id, seq)
  select current_studio(), max(m.seq) from movement m
   where m.studio_id = current_studio() and m.seq > $2::bigint
     and m.recorded_at < $1::timestamptz - interval '10 minutes'
  having max(m.seq) is not null
  on conflict (studio_id) do update set seq = greatest(l.seq, excluded.seq)`);
