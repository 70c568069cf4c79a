/** SQL of clients: who may see whom, numbers, forgetting, the bowls of earlier visits. */
import { prepared } from '../../platform/database/transaction.js';

/** Clients with a visit that began today, by the studio's calendar. $1 now. */
const HERE_TODAY = `exists (
  select from visit v join studio s on s.studio_id = v.studio_id
   where v.studio_id = c.studio_id and v.client_id = c.id
     and v.started_at >= date_trunc('day', $1::timestamptz at time zone s.time_zone)
       at time zone s.time_zone
     and v.started_at < (date_trunc('day', $1::timestamptz at time zone s.time_zone)
       + interval '1 day') at time zone s.time_zone)`;

const CLIENT_FIELDS = `
  c.id, c.seq::text, c.number, c.name, c.contact, c.notes, c.next_time as "nextTime",
  c.hair_length as "hairLength", c.hair_density as "hairDensity",
  c.sixteen_or_older as "sixteenOrOlder", c.retired_at as "retiredAt",
  c.forgotten_at as "forgottenAt"`;

/**
 * Clients newest first. $1 now, $2 only those here today, $3 below this seq, $4 how many,
 * $5 retired too, $6 part of the name, or the number.
 */
export const CLIENTS = prepared(`
  select ${CLIENT_FIELDS} from client c
   where c.studio_id = current_studio()
     and (not $2::boolean or ${HERE_TODAY})
     and ($3::bigint is null or c.seq < $3::bigint)
     and ($5::boolean or c.retired_at is null)
     and ($6::text is null or position(lower($6) in lower(c.name)) > 0 or c.number::text = $6)
   order by c.seq desc limit $4`);

/** One client. $1 now, $2 only if here today, $3 id. */
export const CLIENT = prepared(`
  select ${CLIENT_FIELDS} from client c
   where c.studio_id = current_studio() and c.id = $3 and (not $2::boolean or ${HERE_TODAY})`);

/** Whether a person $2 has served, or tested, the client $1. */
export const IS_OWN_CLIENT = prepared(`
  select exists (select from visit v where v.studio_id = current_studio()
      and v.client_id = $1 and v.person_id = $2)
    or exists (select from bowl b join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
      where v.studio_id = current_studio() and v.client_id = $1
        and $2 in (b.mixed_by, b.applied_by))
    or exists (select from sensitivity_test t where t.studio_id = current_studio()
      and t.client_id = $1 and t.person_id = $2) as own`);

/** Sensitivity tests of a client $1, newest first. */
export const SENSITIVITY_TESTS = prepared(`
  select id, client_id as "clientId", line, placed_at as "placedAt", read_at as "readAt", result
    from sensitivity_test where studio_id = current_studio() and client_id = $1
   order by placed_at desc, seq desc`);

/** Nobody else gives out a client's number until this transaction ends. */
export const HOLD_NUMBERS = prepared(
  'select studio_id from studio where studio_id = current_studio() for no key update',
);

/** The highest client number, and which of the numbers $1 are taken. */
export const NUMBERS = prepared(`
  select coalesce(max(number), 0) as highest,
    coalesce(array_agg(number) filter (where number = any($1::int[])), '{}') as taken
    from client where studio_id = current_studio()`);

/** Empties all that is personal of a client. $1 id, $2 now. */
export const FORGET_CLIENT = prepared(`
  update client set name = null, contact = null, notes = null, next_time = null,
      hair_length = null, hair_density = null, sixteen_or_older = null,
      forgotten_at = coalesce(forgotten_at, $2), retired_at = coalesce(retired_at, $2)
   where studio_id = current_studio() and id = $1`);

/** Free words of a client's formulas, which may name her; what was mixed stays. $1 id, $2 now. */
export const FORGET_FORMULAS = prepared(`
  update formula set name = 'formula', next_time = null, retired_at = coalesce(retired_at, $2)
   where studio_id = current_studio() and client_id = $1`);

export const FORGET_TESTS = prepared(
  'delete from sensitivity_test where studio_id = current_studio() and client_id = $1',
);

/** Bowls of a client $1, the latest visit first. $2, $3 start and bowl of the last one shown. */
export const CLIENT_BOWLS = prepared(`
  select b.id, b.visit_id as "visitId", v.started_at as "visitStartedAt", b.purpose, b.state,
    b.formula_id as "formulaId", b.plan->'request' as plan, b.last_pour_at as "lastPourAt",
    trim_scale(b.mixed_g)::text as mixed,
    trim_scale(b.mixed_g - b.held_g - b.wasted_g)::text as applied,
    trim_scale(b.wasted_g)::text as wasted, b.estimated,
    (select coalesce(json_agg(json_build_object('productId', u.product_id, 'name', p.name,
        'side', u.side, 'quantity', trim_scale(u.quantity)::text, 'unit', u.unit,
        'grams', trim_scale(u.grams)::text) order by u.poured_at, u.id), '[]')
       from pour u join product p on p.studio_id = u.studio_id and p.id = u.product_id
      where u.studio_id = b.studio_id and u.bowl_id = b.id and u.reversed_at is null) as pours
    from bowl b join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
   where b.studio_id = current_studio() and v.client_id = $1 and b.state <> 'void'
     and ($2::timestamptz is null or (v.started_at, b.id) < ($2::timestamptz, $3::uuid))
   order by v.started_at desc, b.id desc limit $4`);
