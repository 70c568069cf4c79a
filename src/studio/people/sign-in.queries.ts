/** The SQL of signing in: tokens, sessions, wrong PINs. */
import { prepared } from '../../platform/database/transaction.js';

/** The caller behind a token's hash. $1 hash. */
export const CALLER_BY_TOKEN = prepared(`
  select t.id as "tokenId", t.role, t.name, t.bench_id as "benchId", null as "personId",
         t.used_at as "usedAt"
    from token t
   where t.studio_id = current_studio() and t.secret_hash = $1 and t.revoked_at is null`);

/** The caller behind a session's hash. $1 hash, $2 now. */
export const CALLER_BY_SESSION = prepared(`
  select t.id as "tokenId", p.role, p.name, t.bench_id as "benchId", p.id as "personId",
         t.used_at as "usedAt"
    from session s
    join person p on p.studio_id = s.studio_id and p.id = s.person_id
    join token t on t.studio_id = s.studio_id and t.id = s.token_id
   where s.studio_id = current_studio() and s.secret_hash = $1
     and s.ended_at is null and s.expires_at > $2
     and p.retired_at is null and t.revoked_at is null`);

/** $1 token id, $2 now. */
export const TOKEN_USED = `
  update token set used_at = $2 where studio_id = current_studio() and id = $1`;

/** People who can sign in here, by name. */
export const NAMES = `
  select id, name from person
   where studio_id = current_studio() and retired_at is null and pin_hash is not null
   order by lower(name), id`;

/** $1 person id. */
export const PERSON_TO_SIGN_IN = `
  select id, name, pin_hash as "pinHash" from person
   where studio_id = current_studio() and id = $1 and retired_at is null`;

/** Waits until no other try of this person on this device is under way. $1 person, $2 token. */
export const WRONG_PINS_LOCK = `
  insert into wrong_pin (studio_id, person_id, token_id, tries, locks)
  values (current_studio(), $1, $2, 0, 0)
  on conflict (studio_id, person_id, token_id) do update set tries = wrong_pin.tries
  returning tries, locks, locked_until as "lockedUntil"`;

/** $1 person, $2 token, $3 tries, $4 locks, $5 locked until or null. */
export const WRONG_PINS_NOTE = `
  update wrong_pin set tries = $3, locks = $4, locked_until = $5
   where studio_id = current_studio() and person_id = $1 and token_id = $2`;

/** $1 person. */
export const WRONG_PINS_FORGET = `
  delete from wrong_pin where studio_id = current_studio() and person_id = $1`;

/** $1 id, $2 hash, $3 person, $4 token, $5 started, $6 expires. */
export const SESSION_START = `
  insert into session (studio_id, id, secret_hash, person_id, token_id, started_at, expires_at)
  values (current_studio(), $1, $2, $3, $4, $5, $6)`;

/** $1 hash, $2 now. */
export const SESSION_END = `
  update session set ended_at = $2
   where studio_id = current_studio() and secret_hash = $1 and ended_at is null`;

/** $1 person, $2 now. */
export const SESSIONS_END_OF_PERSON = `
  update session set ended_at = $2
   where studio_id = current_studio() and person_id = $1 and ended_at is null`;

/** Sessions that ended or ran out a month ago. $1 a month ago. */
export const SESSIONS_SWEEP = `
  delete from session
   where studio_id = current_studio() and coalesce(ended_at, expires_at) < $1`;

/** What a signed-in screen shows. $1 person or null, $2 bench or null, $3 session hash or null. */
export const SESSION_VIEW = `
  select s.studio_id as "studioId", s.name, s.currency, s.time_zone as "timeZone", s.demo,
         p.name as "personName", b.name as "benchName", e.expires_at as "expiresAt"
    from studio s
    left join person p on p.studio_id = s.studio_id and p.id = $1
    left join bench b on b.studio_id = s.studio_id and b.id = $2
    left join session e on e.studio_id = s.studio_id and e.secret_hash = $3
   where s.studio_id = current_studio()`;

const TOKEN_FIELDS = `
  id, name, role, bench_id as "benchId", made_at as "madeAt", used_at as "usedAt",
  revoked_at as "revokedAt"`;

/** $1 id, $2 name, $3 role, $4 bench or null, $5 hash, $6 now, $7 person or null. */
export const TOKEN_MAKE = `
  insert into token (studio_id, id, name, role, bench_id, secret_hash, made_at, made_by)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7)
  returning ${TOKEN_FIELDS}`;

/** Newest first. $1 ids before this one or null, $2 how many. */
export const TOKENS = `
  select ${TOKEN_FIELDS} from token
   where studio_id = current_studio() and ($1::uuid is null or id < $1)
   order by id desc limit $2`;

/** $1 token, $2 now. */
export const TOKEN_REVOKE = `
  update token set revoked_at = coalesce(revoked_at, $2)
   where studio_id = current_studio() and id = $1
  returning ${TOKEN_FIELDS}`;

/** $1 bench, $2 now. */
export const TOKENS_REVOKE_OF_BENCH = `
  update token set revoked_at = $2
   where studio_id = current_studio() and bench_id = $1 and revoked_at is null`;

/** $1 person, $2 PIN's hash. */
export const PIN_SET = `
  update person set pin_hash = $2 where studio_id = current_studio() and id = $1`;

/** The studio's row stands for the set of its owners. */
export const OWNERS_LOCK = `
  select from studio where studio_id = current_studio() for update`;
