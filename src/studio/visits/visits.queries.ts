/** SQL of visits: what is shown of them, and the statements that write them. */
import { prepared } from '../../platform/database/transaction.js';

const instant = (column: string) =>
  `to_char(${column} at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** True for a visit that began on the studio's day of the instant $1. */
const TODAY = `(v.started_at at time zone s.time_zone)::date
    = ($1::timestamptz at time zone s.time_zone)::date`;

/** Visits with services, minutes, bowls. $1 now, $2 ids. */
export const READ_VISITS = prepared(`
  select v.id, v.client_id, v.person_id, v.kind, v.redo_of, ${instant('v.started_at')}
      as started_at, ${instant('v.closed_at')} as closed_at, v.chair_minutes, v.discount,
    v.payments, v.deposits, v.tip::text, v.tip_method, v.tip_person_id, v.terms,
    case when c.id is not null then json_build_object('number', c.number, 'name', c.name) end
      as client,
    ${TODAY} as today,
    (select coalesce(json_agg(json_build_object('serviceId', e.id, 'name', e.name,
        'price', trim_scale(vs.price)::text,
        'handsOnMinutes', coalesce(n.hands_on_minutes, e.hands_on_minutes),
        'chairMinutes', coalesce(n.chair_minutes, e.chair_minutes),
        'kit', coalesce(n.kit, e.kit), 'inThePrice', coalesce(n.in_the_price, e.in_the_price),
        'onTop', coalesce(n.on_top, e.on_top)) order by vs.position), '[]')
       from visit_service vs join service e on e.studio_id = vs.studio_id and e.id = vs.service_id
       left join service_version n on n.studio_id = vs.studio_id and n.id = vs.version_id
      where vs.studio_id = v.studio_id and vs.visit_id = v.id) as services,
    (select coalesce(json_agg(json_build_object('personId', m.person_id, 'minutes', m.minutes)
        order by m.minutes desc, m.person_id), '[]')
       from visit_minutes m where m.studio_id = v.studio_id and m.visit_id = v.id) as minutes,
    (select coalesce(json_agg(json_build_object('id', b.id, 'purpose', b.purpose,
        'state', b.state, 'mark', b.mark, 'estimated', b.estimated, 'late', b.late,
        'lastAt', ${instant(`greatest(b.last_pour_at, (select max(w.weighed_at) from weighing w
          where w.studio_id = b.studio_id and w.bowl_id = b.id and w.reversed_at is null))`)},
        'hands', array_remove(array[b.sized_by, b.mixed_by, b.applied_by], null))
        order by b.planned_at, b.id), '[]')
       from bowl b where b.studio_id = v.studio_id and b.visit_id = v.id) as bowls,
    (select coalesce(json_agg(r.id order by r.started_at), '[]') from visit r
      where r.studio_id = v.studio_id and r.redo_of = v.id) as redone_by
    from visit v join studio s on s.studio_id = v.studio_id
    left join client c on c.studio_id = v.studio_id and c.id = v.client_id
   where v.studio_id = current_studio() and v.id = any($2::uuid[])`);

/** Nobody else closes, reopens or prices this visit until the transaction ends. $1 id. */
export const LOCK_VISIT = prepared(`
  select id from visit where studio_id = current_studio() and id = $1 for no key update`);

/**
 * Ids of visits, the latest first. $1 now, $2 only today's, $3 person whose own are shown beside
 * today's, $4, $5 days from and to, $6 client, $7 person, $8 closed or open or null for both,
 * $9, $10 start and id of the last one shown, $11 how many.
 */
export const LIST_VISITS = prepared(`
  select v.id, ${instant('v.started_at')} as started_at
    from visit v join studio s on s.studio_id = v.studio_id
   where v.studio_id = current_studio()
     and (not $2::boolean or ${TODAY} or $3::uuid is not null and (v.person_id = $3
       or exists (select from bowl b where b.studio_id = v.studio_id and b.visit_id = v.id
         and $3 in (b.sized_by, b.mixed_by, b.applied_by))))
     and ($4::date is null or v.started_at >= $4::date::timestamp at time zone s.time_zone)
     and ($5::date is null or v.started_at < $5::date::timestamp at time zone s.time_zone)
     and ($6::uuid is null or v.client_id = $6) and ($7::uuid is null or v.person_id = $7)
     and ($8::boolean is null or (v.closed_at is not null) = $8)
     and ($9::timestamptz is null or (v.started_at, v.id) < ($9, $10::uuid))
   order by v.started_at desc, v.id desc limit $11`);

/** Services as the menu had them at an instant. $1 ids, $2 the instant. */
export const READ_MENU = prepared(`
  select id, name, price::text, version_id as "versionId", retired_at is not null as retired
    from menu_on(studio_day($2)) where id = any($1::uuid[])`);

/** Which of client $1, person $2 and visit $3 there are, and the visit's client. */
export const READ_NAMED = prepared(`
  select (select json_build_object('retired', retired_at is not null) from client
      where studio_id = current_studio() and id = $1) as client,
    (select json_build_object('name', name, 'retired', retired_at is not null) from person
      where studio_id = current_studio() and id = $2) as person,
    (select json_build_object('clientId', client_id) from visit
      where studio_id = current_studio() and id = $3) as redone`);

/** Which of the people $1 are unknown. */
export const MISSING_PEOPLE = prepared(`
  select id from unnest($1::uuid[]) as asked(id) where not exists (select from person p
    where p.studio_id = current_studio() and p.id = asked.id)`);

/** $1 id, $2 client, $3 person, $4 kind, $5 redo of, $6 started, $7 recorded. */
export const START_VISIT = prepared(`
  insert into visit (studio_id, id, client_id, person_id, kind, redo_of, started_at, recorded_at)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7)`);

/** $1 id, $2 client, $3 person, $4 kind, $5 redo of. */
export const CHANGE_VISIT = prepared(`
  update visit set client_id = $2, person_id = $3, kind = $4, redo_of = $5
   where studio_id = current_studio() and id = $1`);

export const CLEAR_SERVICES = prepared(`
  delete from visit_service where studio_id = current_studio() and visit_id = $1`);

/** $1 visit, $2 services, $3 prices and $4 versions, in order. */
export const PUT_SERVICES = prepared(`
  insert into visit_service (studio_id, visit_id, position, service_id, price, version_id)
  select current_studio(), $1, s.position, s.id, s.price, s.version
    from unnest($2::uuid[], $3::numeric[], $4::uuid[])
      with ordinality as s(id, price, version, position)`);

/**
 * $1 id, $2 closed, $3 chair minutes, $4 discount, $5 payments, $6 deposits, $7 tip, $8 how it was
 * paid, $9 to whom, $10 the studio's rules and rates.
 */
export const CLOSE_VISIT = prepared(`
  update visit set closed_at = $2, chair_minutes = $3, discount = $4, payments = $5,
         deposits = $6, tip = $7, tip_method = $8, tip_person_id = $9, terms = $10
   where studio_id = current_studio() and id = $1`);

/** $1 id, $2 true to work by the studio's rules at the next closing. */
export const REOPEN_VISIT = prepared(`
  update visit set closed_at = null, terms = case when $2 then null else terms end
   where studio_id = current_studio() and id = $1`);

export const CLEAR_MINUTES = prepared(`
  delete from visit_minutes where studio_id = current_studio() and visit_id = $1`);

/** $1 visit, $2 people, $3 minutes. */
export const PUT_MINUTES = prepared(`
  insert into visit_minutes (studio_id, visit_id, person_id, minutes)
  select current_studio(), $1, m.person_id, m.minutes
    from unnest($2::uuid[], $3::int[]) as m(person_id, minutes)`);
