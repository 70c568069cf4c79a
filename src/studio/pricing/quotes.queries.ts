/** SQL of quotes: like visits, the menu of today, the quotes that are kept. */
import { prepared } from '../../platform/database/transaction.js';

/**
 * Closed visits of clients with just the services $1 (sorted) in the 24 months before $2, in the
 * order of time, with the hair of each client. Those with an open bowl are not over yet.
 */
export const READ_LIKE_VISITS = prepared(`
  select v.id, c.hair_length as "hairLength", c.hair_density as "hairDensity"
    from visit v left join client c on c.studio_id = v.studio_id and c.id = v.client_id
   where v.studio_id = current_studio() and v.kind = 'client' and v.closed_at is not null
     and v.started_at >= $2::timestamptz - interval '24 months' and v.started_at < $2::timestamptz
     and v.id in (select vs.visit_id from visit_service vs
       where vs.studio_id = current_studio() and vs.service_id = ($1::uuid[])[1])
     and (select array_agg(vs.service_id order by vs.service_id) from visit_service vs
       where vs.studio_id = v.studio_id and vs.visit_id = v.id) = $1::uuid[]
     and not exists (select from bowl b where b.studio_id = v.studio_id and b.visit_id = v.id
       and b.state = 'open')
   order by v.started_at, v.id`);

/** The services $1 as the menu has them on the studio's day of the instant $2. */
export const READ_MENU_NOW = prepared(`
  select id as "serviceId", name, trim_scale(price)::text as price,
    hands_on_minutes as "handsOnMinutes", chair_minutes as "chairMinutes",
    in_the_price as "inThePrice", on_top as "onTop", retired_at is not null as retired
    from menu_on(studio_day($2)) where id = any($1::uuid[])`);

/** The hair of the client $1. */
export const READ_HAIR = prepared(`
  select hair_length as "hairLength", hair_density as "hairDensity" from client
   where studio_id = current_studio() and id = $1`);

/** $1 id, $2 client, $3 person, $4 made, $5 the last day that it holds, $6 the quote. */
export const KEEP_QUOTE = prepared(`
  insert into quote (studio_id, id, client_id, person_id, made_at, valid_until, quote)
  values (current_studio(), $1, $2, $3, $4, $5, $6)`);

/** The quote $1. */
export const READ_QUOTE = prepared(`
  select quote from quote where studio_id = current_studio() and id = $1`);

/** Quotes, the newest first. $1 client or null, $2 seq of the last one shown, $3 how many. */
export const LIST_QUOTES = prepared(`
  select q.seq::text as place, q.quote from quote q
   where q.studio_id = current_studio() and ($1::uuid is null or q.client_id = $1)
     and ($2::bigint is null or q.seq < $2) order by q.seq desc limit $3`);
