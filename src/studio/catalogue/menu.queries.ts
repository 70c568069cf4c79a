/** SQL of the menu: what a service is on a day, its versions, and the ones that are entered. */
import { prepared } from '../../platform/database/transaction.js';

const TERMS = `trim_scale(price)::text as price, hands_on_minutes as "handsOnMinutes",
    chair_minutes as "chairMinutes", kit, in_the_price as "inThePrice", on_top as "onTop"`;

/** The services $2 as they are on the day $1. */
export const READ_TERMS = prepared(`
  select id, ${TERMS}, version_id as "versionId", starts_on::text as "startsOn"
    from menu_on($1::date) where id = any($2::uuid[])`);

/** The same of all services on the studio's day of the instant $1. */
export const READ_TERMS_NOW = prepared(`
  select id, ${TERMS} from menu_on(studio_day($1)) where id = any($2::uuid[])`);

/** The menu on the day $1, and the next version of each service after it. */
export const READ_MENU_ON = prepared(`
  select m.id as "serviceId", m.name, ${TERMS}, m.starts_on::text as "startsOn",
    (select json_build_object('startsOn', n.starts_on, 'price', trim_scale(n.price)::text)
       from service_version n
      where n.studio_id = current_studio() and n.service_id = m.id and n.withdrawn_at is null
        and n.starts_on > $1::date
      order by n.starts_on, n.seq desc limit 1) as next
    from menu_on($1::date) m where m.retired_at is null order by m.name, m.id`);

/** All that the service $1 is, was and is to be, the one that starts last first. */
export const READ_VERSIONS = prepared(`
  select v.id, v.starts_on::text as "startsOn", ${TERMS},
    to_char(v.made_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as "madeAt",
    p.name as "madeBy", v.withdrawn_at is not null as withdrawn
    from service_version v
    left join person p on p.studio_id = v.studio_id and p.id = v.person_id
   where v.studio_id = current_studio() and v.service_id = $1
   order by v.starts_on desc, v.seq desc`);

/** What the service $1 was from the beginning. */
export const READ_FIRST = prepared(`
  select name, ${TERMS} from service where studio_id = current_studio() and id = $1`);

/** Whether the service $1 is in a visit, or has a version. */
export const READ_IS_USED = prepared(`
  select exists (select from visit_service where studio_id = current_studio() and service_id = $1)
      or exists (select from service_version where studio_id = current_studio()
        and service_id = $1) as used`);

/** Nobody else changes the service $1 until the transaction ends. */
export const LOCK_SERVICE = prepared(`
  select id from service where studio_id = current_studio() and id = $1 for no key update`);

/**
 * $1 id, $2 service, $3 starts on, $4 price, $5 hands-on and $6 chair minutes, $7 kit, $8 in the
 * price, $9 on top, $10 made at, $11 person.
 */
export const ADD_VERSION = prepared(`
  insert into service_version (studio_id, id, service_id, starts_on, price, hands_on_minutes,
    chair_minutes, kit, in_the_price, on_top, made_at, person_id)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`);

/** $1 service, $2 version, $3 now. */
export const WITHDRAW_VERSION = prepared(`
  update service_version set withdrawn_at = coalesce(withdrawn_at, $3)
   where studio_id = current_studio() and service_id = $1 and id = $2`);

/** The studio's day of the instant $1. */
export const READ_TODAY = prepared(`select studio_day($1)::text as today`);
