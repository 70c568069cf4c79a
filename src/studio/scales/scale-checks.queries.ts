/** SQL of the daily check of a scale. */
import { prepared } from '../../platform/database/transaction.js';

const instant = (column: string) =>
  `to_char(${column} at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** Checks, the newest first, each with the one before it. $1 bench or null for all, $2 how many. */
export const LIST_CHECKS = prepared(`
  select c.id, c.bench_id as "benchId", c.what, trim_scale(c.weight_g)::text as weight,
    trim_scale(c.interval_g)::text as interval, ${instant('c.checked_at')} as "checkedAt",
    (select json_build_object('weight', trim_scale(b.weight_g)::text,
        'checkedAt', ${instant('b.checked_at')})
       from scale_check b
      where b.studio_id = c.studio_id and b.bench_id is not distinct from c.bench_id
        and b.what = c.what and (b.checked_at, b.seq) < (c.checked_at, c.seq)
      order by b.checked_at desc, b.seq desc limit 1) as before,
    (select count(*)::int from bowl w
      where w.studio_id = c.studio_id and w.bench_id is not distinct from c.bench_id
        and (w.last_pour_at at time zone s.time_zone)::date
          = (c.checked_at at time zone s.time_zone)::date) as bowls
    from scale_check c join studio s on s.studio_id = c.studio_id
   where c.studio_id = current_studio() and ($1::uuid is null or c.bench_id = $1)
   order by c.checked_at desc, c.seq desc limit $2`);

/** $1 id, $2 bench, $3 what, $4 weight, $5 interval, $6 person, $7 checked, $8 recorded. */
export const PUT_CHECK = prepared(`
  insert into scale_check (studio_id, id, bench_id, what, weight_g, interval_g, person_id,
    checked_at, recorded_at)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7, $8)`);
