/** SQL of a visit beside its quote. */
import { prepared } from '../../platform/database/transaction.js';

/**
 * Grams that are mixed in a visit $1 and the 90 % point of grams of the newest quote that holds on
 * its day for its client and services; null where there is none.
 */
export const READ_MIXED_AND_QUOTED = prepared(`
  select (select coalesce(sum(b.mixed_g), 0)::text from bowl b
      where b.studio_id = v.studio_id and b.visit_id = v.id
        and coalesce(b.borne_by, 'visit') = 'visit') as mixed,
    (select q.quote #>> '{grams,high}' from quote q
      where q.studio_id = v.studio_id and q.client_id = v.client_id
        and q.made_at <= coalesce(v.closed_at, $2::timestamptz)
        and q.valid_until >= (v.started_at at time zone s.time_zone)::date
        and (select array_agg(e->>'serviceId' order by e->>'serviceId')
            from jsonb_array_elements(q.quote->'services') e)
          = (select array_agg(vs.service_id::text order by vs.service_id::text)
            from visit_service vs where vs.studio_id = v.studio_id and vs.visit_id = v.id)
      order by q.seq desc limit 1) as quoted
    from visit v join studio s on s.studio_id = v.studio_id
   where v.studio_id = current_studio() and v.id = $1`);
