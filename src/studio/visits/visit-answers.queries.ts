/** SQL of what is asked before a visit's first bowl. */
import { prepared } from '../../platform/database/transaction.js';

/** The latest word on each question of the visit $1, in the order in which they were heard. */
const latest = (column: string) => `
  (select a.${column} from visit_answer a
    where a.studio_id = v.studio_id and a.visit_id = v.id and a.${column} is not null
    order by a.seq desc limit 1)`;

/** Answers of a visit, and what is noted of its client. $1 visit, $2 line or null, $3 now. */
export const READ_ANSWERS = prepared(`
  select ${latest('scalp_sound')} as "scalpSound",
    ${latest('earlier_reaction')} as "earlierReaction",
    ${latest('henna_or_metal')} as "hennaOrMetal",
    coalesce(${latest('sixteen_or_older')}, c.sixteen_or_older) as "sixteenOrOlder",
    ${latest('sensitivity_test')} as "sensitivityTest",
    (select json_build_object('line', t.line, 'result', t.result, 'hoursAgo',
        (extract(epoch from $3::timestamptz - t.placed_at) / 3600)::numeric(12,3)::text)
       from sensitivity_test t
      where t.studio_id = v.studio_id and t.client_id = v.client_id and t.placed_at <= $3
      order by t.line is not distinct from $2 desc, t.placed_at desc, t.seq desc limit 1) as test
    from visit v left join client c on c.studio_id = v.studio_id and c.id = v.client_id
   where v.studio_id = current_studio() and v.id = $1`);

/** $1 id, $2 visit, $3 to $7 the answers, $8 person, $9 answered, $10 recorded. */
export const PUT_ANSWERS = prepared(`
  insert into visit_answer (studio_id, id, visit_id, scalp_sound, earlier_reaction,
    henna_or_metal, sixteen_or_older, sensitivity_test, person_id, answered_at, recorded_at)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`);
