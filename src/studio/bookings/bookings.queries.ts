/** SQL of bookings: what is kept of a diary, what is shown of it, how its words are read. */

/** Day, time zone of the studio. $1 now. */
export const READ_TODAY = `
  select time_zone, to_char($1::timestamptz at time zone time_zone, 'YYYY-MM-DD') as today
    from studio where studio_id = current_studio()`;

/** Typed rules in their order. */
export const READ_RULES = `
  select words, service_ids from booking_rule where studio_id = current_studio()
   order by position`;

export const CLEAR_RULES = `delete from booking_rule where studio_id = current_studio()`;

/** $1 json list of words and service_ids, in their order. */
export const PUT_RULES = `
  insert into booking_rule (studio_id, position, words, service_ids)
  select current_studio(), r.position, r.rule ->> 'words',
    array(select jsonb_array_elements_text(r.rule -> 'service_ids')::uuid)
    from jsonb_array_elements($1::jsonb) with ordinality as r(rule, position)`;

/** The menu. */
export const READ_MENU_NAMES = `
  select id, name, retired_at is not null as retired from service
   where studio_id = current_studio() order by name, id`;

/** Clients that have a name. */
export const READ_CLIENT_NAMES = `
  select id, name from client
   where studio_id = current_studio() and name is not null and retired_at is null`;

const kept = `id, uid_hash, occurrence, sequence, starts_at, ends_at, all_day, who, what, client_id,
    called_off_at, visit_id, to_char(day, 'YYYY-MM-DD') as day`;

/** Bookings of a diary by the diary's ids. $1 source, $2 hashes. */
export const READ_KEPT = `
  select ${kept} from booking
   where studio_id = current_studio() and source = $1 and uid_hash = any($2::text[])
   order by id for update`;

/** Bookings of a diary that are still to come. $1 source, $2 day, $3 before. */
export const READ_TO_COME = `
  select ${kept} from booking
   where studio_id = current_studio() and source = $1 and day >= $2::date and starts_at < $3
     and called_off_at is null and visit_id is null
   order by id for update`;

/** $1 json rows, $2 source, $3 now. */
export const PUT_BOOKINGS = `
  insert into booking (studio_id, id, source, uid_hash, occurrence, sequence, starts_at, ends_at,
    all_day, day, who, what, client_id, booked_at, recorded_at)
  select current_studio(), b.id, $2, b.uid_hash, b.occurrence, b.sequence, b.starts_at, b.ends_at,
    b.all_day, b.day, b.who, b.what, b.client_id, b.booked_at, $3
    from jsonb_to_recordset($1::jsonb) as b(id uuid, uid_hash text, occurrence text,
      sequence int, starts_at timestamptz, ends_at timestamptz, all_day boolean, day date,
      who text, what text, client_id uuid, booked_at timestamptz)
  on conflict (studio_id, source, uid_hash, occurrence) do update
    set sequence = excluded.sequence, starts_at = excluded.starts_at,
        ends_at = excluded.ends_at, all_day = excluded.all_day, day = excluded.day,
        who = excluded.who, what = excluded.what, client_id = excluded.client_id,
        called_off_at = null`;

/** $1 ids, $2 now. */
export const CALL_OFF = `
  update booking set called_off_at = $2
   where studio_id = current_studio() and id = any($1::uuid[])`;

/** Names of days long gone are of no use to anybody. $1 the first day that keeps them. */
export const FORGET_NAMES = `
  update booking set who = null
   where studio_id = current_studio() and day < $1::date and who is not null`;

/** Bookings of days $1 to before $2, with the client's name as it is now. $3 only this one. */
export const LIST_BOOKINGS = `
  select b.id, to_char(b.day, 'YYYY-MM-DD') as day, b.starts_at, b.ends_at, b.all_day, b.who,
    b.what, b.client_id, b.called_off_at, b.visit_id, c.number as client_number,
    c.name as client_name
    from booking b
    left join client c on c.studio_id = b.studio_id and c.id = b.client_id
   where b.studio_id = current_studio() and b.day >= $1::date and b.day < $2::date
     and ($3::uuid is null or b.id = $3)
   order by b.day, b.starts_at, b.id`;

/** Which day a booking is on. $1 id. */
export const LOCK_BOOKING = `
  select to_char(day, 'YYYY-MM-DD') as day, visit_id, called_off_at is not null as called_off,
    client_id, what
    from booking where studio_id = current_studio() and id = $1 for update`;

/** $1 booking, $2 visit. */
export const BEGUN = `
  update booking set visit_id = $2, called_off_at = null
   where studio_id = current_studio() and id = $1`;

/** Words with how often they are booked, the most frequent first. $1 today, $2 since. */
export const READ_WORDS = `
  select what, count(*)::int as bookings,
    (count(*) filter (where day >= $1::date))::int as upcoming
    from booking
   where studio_id = current_studio() and day >= $2::date and called_off_at is null
   group by what order by 3 desc, 2 desc, 1`;

/** Every booking from $1 to before $2, called off or not, for what can be learned of them. */
export const READ_BOOKED = `
  select to_char(b.day, 'YYYY-MM-DD') as day, b.what, b.visit_id is not null as came,
    to_char(b.booked_at at time zone s.time_zone, 'YYYY-MM-DD') as booked_on,
    to_char(b.called_off_at at time zone s.time_zone, 'YYYY-MM-DD') as called_off_on
    from booking b join studio s on s.studio_id = b.studio_id
   where b.studio_id = current_studio() and b.day >= $1::date and b.day < $2::date`;

/** The diary changed. $1 now, $2 true where a file was read. */
export const NOTE_CHANGE = `
  insert into diary_change (studio_id, changed_at, read_at)
  values (current_studio(), $1, case when $2::boolean then $1::timestamptz end)
  on conflict (studio_id) do update
    set changes = diary_change.changes + 1, changed_at = excluded.changed_at,
        read_at = coalesce(excluded.read_at, diary_change.read_at)`;

/** How far the diary has come: changes with every file, rule, closed day and visit begun. */
export const READ_DIARY_STATE = `
  select coalesce(d.changes, 0) || ' ' || (select count(*) from booking
      where studio_id = current_studio() and visit_id is not null) as state,
    to_char(read_at at time zone s.time_zone, 'YYYY-MM-DD') as read_on
    from studio s left join diary_change d on d.studio_id = s.studio_id
   where s.studio_id = current_studio()`;

/** Closed days, the earliest first. */
export const READ_CLOSURES = `
  select id, to_char(first_day, 'YYYY-MM-DD') as "from", to_char(last_day, 'YYYY-MM-DD') as "to",
    name
    from closure where studio_id = current_studio() order by first_day, last_day, id`;

/** $1 json rows; those that are there already stay. */
export const ADD_CLOSURES = `
  insert into closure (studio_id, id, first_day, last_day, name)
  select current_studio(), c.id, c."from", c."to", c.name
    from jsonb_to_recordset($1::jsonb) as c(id uuid, "from" date, "to" date, name text)
  on conflict (studio_id, first_day, last_day, name) do nothing`;

export const DROP_CLOSURE = `
  delete from closure where studio_id = current_studio() and id = $1`;
