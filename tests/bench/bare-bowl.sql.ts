/** The same bowl by one bare SQL function: same rows, same triggers, no service before it. */

/**
 * `bare_bowl(bowl, products, grams, leftover share)`: locks as the service does, draws lots in
 * their order, and writes everything that a recorded bowl writes, its once-only notes included.
 */
export const BARE_BOWL = `
  create function bare_bowl(p_bowl uuid, p_products uuid[], p_quantities numeric[],
    p_share numeric) returns void language plpgsql as $f$
  declare
    v_now timestamptz := now();
    v_pours uuid[] := array(select gen_random_uuid() from unnest(p_products));
    v_journals uuid[] := array(select gen_random_uuid() from unnest(p_products));
    v_settled uuid := gen_random_uuid();
    v_total numeric := (select sum(q) from unnest(p_quantities) q);
    v_left numeric := round(v_total * p_share, 3);
    v_movements jsonb;
  begin
    perform from request_once where studio_id = current_studio() and id = p_bowl;
    perform hold(array[p_bowl], p_products);

    with wanted as (
      select i, p_products[i] as product_id, p_quantities[i] as quantity
        from generate_subscripts(p_products, 1) i
    ), ordered as (
      select w.i, w.product_id, w.quantity as wanted, l.id as lot_id, h.quantity, h.value,
        sum(h.quantity) over (partition by w.i order by l.expires_on < v_now::date,
          l.expires_on nulls last, l.received_on, l.id) as upto
        from wanted w
        join lot_holding h on h.studio_id = current_studio() and h.product_id = w.product_id
          and h.quantity > 0
        join lot l on l.studio_id = h.studio_id and l.id = h.lot_id
    ), taken as (
      select i, product_id, lot_id, least(quantity, wanted - (upto - quantity)) as part,
        quantity, value from ordered where upto - quantity < wanted
    ), drawn as (
      select i, product_id, lot_id, part,
        case when part = quantity then value else round(value * part / quantity, 6) end as worth
        from taken
    ), split as (
      select d.*, round(part * p_share, 3) as wasted,
        round(worth * round(part * p_share, 3) / part, 6) as wasted_worth from drawn d
    )
    select jsonb_agg(m order by m.step, m.i) into v_movements from (
      select 0 as step, i, v_journals[i] as journal_id, 'pour' as kind, product_id, lot_id,
        'shelf' as f, 'bowl' as t, part as quantity, worth as value, null as reason from split
      union all
      select 1, i, v_settled, 'settlement', product_id, lot_id, 'bowl', 'head',
        part - wasted, worth - wasted_worth, null from split
      union all
      select 2, i, v_settled, 'settlement', product_id, lot_id, 'bowl', 'bin',
        wasted, wasted_worth, 'left over' from split where wasted > 0) m;

    insert into bowl (studio_id, id, purpose, state, planned_at, recorded_at, last_pour_at,
        settled_at, mixed_g, held_g, wasted_g, why, borne_by)
      values (current_studio(), p_bowl, 'bench', 'settled', v_now, v_now, v_now, v_now, v_total,
        0, v_left, 'left over', 'visit');
    insert into pour (studio_id, id, bowl_id, product_id, measured_quantity, measured_unit,
        quantity, unit, grams, poured_at, recorded_at, journal_id)
      select current_studio(), v_pours[i], p_bowl, p_products[i], p_quantities[i], 'g',
        p_quantities[i], 'g', p_quantities[i], v_now, v_now, v_journals[i]
        from generate_subscripts(p_products, 1) i;
    insert into settlement (studio_id, id, bowl_id, leftover_g, settled_at, recorded_at, why,
        borne_by, estimated, journal_id)
      values (current_studio(), v_settled, p_bowl, v_left, v_now, v_now, 'left over', 'visit',
        false, v_settled);
    insert into journal (studio_id, id, kind, happened_at, recorded_at, bowl_id)
      select current_studio(), j, 'pour', v_now, v_now, p_bowl from unnest(v_journals) j
      union all
      select current_studio(), v_settled, 'settlement', v_now, v_now, p_bowl;
    insert into movement (studio_id, id, journal_id, journal_kind, product_id, lot_id,
        from_place, to_place, from_bowl_id, from_pour_id, to_bowl_id, to_pour_id, quantity,
        value, reason, happened_at, happened_on, recorded_at)
      select current_studio(), gen_random_uuid(), m.journal_id, m.kind, m.product_id, m.lot_id,
        m.f, m.t, case when m.f = 'bowl' then p_bowl end,
        case when m.f = 'bowl' then v_pours[m.i] end, case when m.t = 'bowl' then p_bowl end,
        case when m.t = 'bowl' then v_pours[m.i] end, m.quantity, m.value, m.reason, v_now,
        v_now::date, v_now
        from jsonb_to_recordset(v_movements) m(step int, i int, journal_id uuid, kind text,
          product_id uuid, lot_id uuid, f text, t text, quantity numeric, value numeric,
          reason text);
    insert into request_once (studio_id, id, call, content_hash, answer, recorded_at)
      select current_studio(), o, 'bench', sha256(o::text::bytea), v_movements::json, v_now
        from unnest(v_pours || v_settled || p_bowl || gen_random_uuid()) o;
  end $f$`;
