/** The SQL of bowls: what a step reads of a bowl, and the statements that write it. */

const instant = (column: string) =>
  `to_char(${column} at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** A bowl with its pours, weighings, settlement and visit. $1 bowl ids. */
export const READ_BOWLS = `
  select b.id, b.visit_id, b.purpose, b.contact, b.plan, b.formula_id, b.vessel_id,
    b.tare_g::text, b.max_total_g::text, b.mark, b.state, b.sized_by, b.mixed_by, b.applied_by,
    b.bench_id, ${instant('b.planned_at')} as planned_at,
    ${instant('b.first_contact_at')} as first_contact_at,
    ${instant('b.last_pour_at')} as last_pour_at, ${instant('b.settled_at')} as settled_at,
    b.estimated, b.late, b.mixed_g::text, b.held_g::text, b.wasted_g::text, b.why, b.borne_by,
    ve.tare_g::text as vessel_tare_g, v.id is not null and v.closed_at is not null as visit_closed,
    (select coalesce(json_agg(json_build_object('id', p.id, 'productId', p.product_id,
        'kind', p.kind, 'measuredQuantity', p.measured_quantity::text,
        'measuredUnit', p.measured_unit, 'quantity', p.quantity::text, 'unit', p.unit,
        'grams', p.grams::text, 'assumedDensity', p.assumed_density,
        'pouredAt', ${instant('p.poured_at')}, 'estimated', p.estimated, 'scale', p.scale,
        'side', p.side, 'fromBowlId', p.from_bowl_id, 'journalId', p.journal_id,
        'reversed', p.reversed_at is not null)
        order by p.poured_at, p.recorded_at, p.id), '[]')
       from pour p where p.studio_id = b.studio_id and p.bowl_id = b.id) as pours,
    (select coalesce(json_agg(json_build_object('id', w.id, 'net', w.net_g::text,
        'at', ${instant('w.weighed_at')}, 'journalId', w.journal_id)
        order by w.weighed_at, w.recorded_at), '[]')
       from weighing w where w.studio_id = b.studio_id and w.bowl_id = b.id
        and w.reversed_at is null) as weighings,
    (select json_build_object('id', s.id, 'leftover', s.leftover_g::text,
        'at', ${instant('s.settled_at')}, 'why', s.why, 'borneBy', s.borne_by,
        'estimated', s.estimated, 'journalId', s.journal_id)
       from settlement s where s.studio_id = b.studio_id and s.bowl_id = b.id
        and s.reversed_at is null) as settlement,
    (select coalesce(json_agg(json_build_object('code', c.code, 'answer', c.answer,
        'at', ${instant('c.noted_at')}) order by c.noted_at), '[]')
       from caution_noted c where c.studio_id = b.studio_id and c.bowl_id = b.id) as noted
    from bowl b
    left join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
    left join vessel ve on ve.studio_id = b.studio_id and ve.id = b.vessel_id
   where b.studio_id = current_studio() and b.id = any($1::uuid[])`;

/**
 * Ids of bowls, newest first. $1 state or null, $2 visit or null; $3, $4 when the last one seen
 * was recorded, and its id; $5 limit.
 */
export const LIST_BOWLS = `
  select b.id, ${instant('b.recorded_at')} as recorded_at from bowl b
   where b.studio_id = current_studio()
     and ($1::text is null or b.state = $1) and ($2::uuid is null or b.visit_id = $2)
     and ($3::timestamptz is null or (b.recorded_at, b.id) < ($3, $4::uuid))
   order by b.recorded_at desc, b.id desc limit $5`;

/**
 * What went into and out of bowls, summed by pour, lot, way and whether it was a reversal.
 * $1 bowl ids.
 */
export const READ_FLOWS = `
  select m.product_id, m.lot_id, m.from_place, m.to_place, m.from_bowl_id, m.from_pour_id,
    m.to_bowl_id, m.to_pour_id, m.reverses_id is not null as reversal,
    sum(m.quantity)::text as quantity, sum(m.value)::text as value
    from movement m
   where m.studio_id = current_studio()
     and (m.from_bowl_id = any($1::uuid[]) or m.to_bowl_id = any($1::uuid[]))
   group by 1, 2, 3, 4, 5, 6, 7, 8, 9`;

/** A visit as a bowl needs it. $1 visit id. */
export const READ_VISIT = `
  select id, person_id, closed_at is not null as closed, ${instant('closed_at')} as closed_at
    from visit
   where studio_id = current_studio() and id = $1`;

/** A person of the studio. $1 person id. */
export const READ_PERSON = `
  select id from person where studio_id = current_studio() and id = $1`;

/** A saved formula's plan. $1 formula id. */
export const READ_FORMULA = `
  select plan, purpose from formula where studio_id = current_studio() and id = $1`;

/** A vessel's own weight. $1 vessel id. */
export const READ_VESSEL = `
  select tare_g::text from vessel where studio_id = current_studio() and id = $1`;

/** Developers with something on the shelf and the day of the lot drawn next. */
export const READ_DEVELOPERS_IN_STOCK = `
  select p.id from product p
    join product_holding h on h.studio_id = p.studio_id and h.product_id = p.id
   where p.studio_id = current_studio() and p.kind = 'developer' and p.retired_at is null
     and h.shelf_quantity > 0`;

/**
 * Writes bowls with their lines in one statement. $1 bowls, $2 pours, $3 weighings,
 * $4 settlements, each a json array of whole rows; a row that is there takes what may change.
 */
export const WRITE_BOWLS = `
  with bowls as (
    insert into bowl (studio_id, id, visit_id, purpose, contact, plan, formula_id, vessel_id,
        tare_g, max_total_g, mark, state, sized_by, mixed_by, applied_by, bench_id, planned_at,
        recorded_at, first_contact_at, last_pour_at, settled_at, estimated, late, mixed_g,
        held_g, wasted_g, why, borne_by)
    select current_studio(), b.id, b.visit_id, b.purpose, b.contact, b.plan, b.formula_id,
        b.vessel_id, b.tare_g, b.max_total_g, b.mark, b.state, b.sized_by, b.mixed_by,
        b.applied_by, b.bench_id, b.planned_at, b.recorded_at, b.first_contact_at,
        b.last_pour_at, b.settled_at, b.estimated, b.late, b.mixed_g, b.held_g, b.wasted_g,
        b.why, b.borne_by
      from jsonb_populate_recordset(null::bowl, $1::jsonb) b
    on conflict (studio_id, id) do update set visit_id = excluded.visit_id,
        plan = excluded.plan, contact = excluded.contact, max_total_g = excluded.max_total_g,
        state = excluded.state,
        first_contact_at = excluded.first_contact_at, last_pour_at = excluded.last_pour_at,
        settled_at = excluded.settled_at, estimated = excluded.estimated, late = excluded.late,
        mixed_g = excluded.mixed_g, held_g = excluded.held_g, wasted_g = excluded.wasted_g,
        why = excluded.why, borne_by = excluded.borne_by
  ), pours as (
    insert into pour (studio_id, id, bowl_id, product_id, kind, measured_quantity,
        measured_unit, quantity, unit, grams, assumed_density, side, poured_at, recorded_at,
        person_id, bench_id, estimated, scale, from_bowl_id, journal_id, reversed_at)
    select current_studio(), p.id, p.bowl_id, p.product_id, p.kind, p.measured_quantity,
        p.measured_unit, p.quantity, p.unit, p.grams, p.assumed_density, p.side, p.poured_at,
        p.recorded_at, p.person_id, p.bench_id, p.estimated, p.scale, p.from_bowl_id,
        p.journal_id, p.reversed_at
      from jsonb_populate_recordset(null::pour, $2::jsonb) p
    on conflict (studio_id, id) do update set journal_id = excluded.journal_id,
        reversed_at = excluded.reversed_at
  ), weighings as (
    insert into weighing (studio_id, id, bowl_id, net_g, weighed_at, recorded_at, person_id,
        journal_id, reversed_at)
    select current_studio(), w.id, w.bowl_id, w.net_g, w.weighed_at, w.recorded_at,
        w.person_id, w.journal_id, w.reversed_at
      from jsonb_populate_recordset(null::weighing, $3::jsonb) w
    on conflict (studio_id, id) do update set journal_id = excluded.journal_id,
        reversed_at = excluded.reversed_at
  )
  insert into settlement (studio_id, id, bowl_id, leftover_g, settled_at, recorded_at,
      person_id, why, borne_by, estimated, journal_id, reversed_at)
  select current_studio(), s.id, s.bowl_id, s.leftover_g, s.settled_at, s.recorded_at,
      s.person_id, s.why, s.borne_by, s.estimated, s.journal_id, s.reversed_at
    from jsonb_populate_recordset(null::settlement, $4::jsonb) s
  on conflict (studio_id, id) do update set journal_id = excluded.journal_id,
      reversed_at = excluded.reversed_at`;

/** $1 id, $2 bowl, $3 code, $4 answer, $5 person, $6 noted at, $7 recorded at. */
export const NOTE_CAUTION = `
  insert into caution_noted (studio_id, id, bowl_id, code, answer, person_id, noted_at,
    recorded_at)
  values (current_studio(), $1, $2, $3, $4, $5, $6, $7)`;
