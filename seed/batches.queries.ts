/** SQL that writes visits and cards a batch at a time, and reads what they rest on. */

/** $1 visits, $2 their services, $3 their minutes: each a json array of whole rows. */
export const WRITE_VISITS = `
  with visits as (
    insert into visit (studio_id, id, client_id, person_id, kind, redo_of, started_at,
        closed_at, chair_minutes, payments, tip, tip_method, tip_person_id, terms, recorded_at)
    select current_studio(), v.id, v.client_id, v.person_id, v.kind, v.redo_of,
        v.started_at, v.closed_at, v.chair_minutes, v.payments, v.tip, v.tip_method,
        v.tip_person_id, v.terms, v.recorded_at
      from jsonb_populate_recordset(null::visit, $1::jsonb) v
  ), services as (
    insert into visit_service (studio_id, visit_id, position, service_id, price)
    select current_studio(), s.visit_id, s.position, s.service_id, s.price
      from jsonb_populate_recordset(null::visit_service, $2::jsonb) s
  )
  insert into visit_minutes (studio_id, visit_id, person_id, minutes)
  select current_studio(), m.visit_id, m.person_id, m.minutes
    from jsonb_populate_recordset(null::visit_minutes, $3::jsonb) m`;

/** What is in the price of each service. */
export const READ_IN_THE_PRICE = `
  select id as "serviceId", in_the_price as "inThePrice", on_top as "onTop" from service
   where studio_id = current_studio()`;

/** How much there is of what. */
export const COUNTS = `
  select (select count(*)::int from visit where studio_id = current_studio()) as visits,
    (select count(*)::int from bowl where studio_id = current_studio()) as bowls,
    (select count(*)::int from movement where studio_id = current_studio()) as movements`;

/** $1 tests, a json array of whole rows. */
export const WRITE_SENSITIVITY_TESTS = `
  insert into sensitivity_test (studio_id, id, client_id, line, placed_at, read_at, result,
      person_id)
  select current_studio(), t.id, t.client_id, t.line, t.placed_at, t.read_at, t.result,
      t.person_id
    from jsonb_populate_recordset(null::sensitivity_test, $1::jsonb) t`;
