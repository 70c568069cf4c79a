/** SQL of what was left over: sums, the jackknife's sums, and what like heads took. */
import type { WasteKey } from '../../../shared/contract/waste.js';

/** How a bowl is put into groups: its key, its label, and what has to be joined for them. */
const groups: Record<WasteKey, { key: string; label: string; join: string }> = {
  person: {
    key: `coalesce(b.sized_by::text, 'none')`,
    label: `coalesce(p.name, 'nobody noted')`,
    join: 'left join person p on p.studio_id = b.studio_id and p.id = b.sized_by',
  },
  service: {
    key: `coalesce(menu.ids, 'none')`,
    label: `coalesce(menu.names, 'no service')`,
    join: `left join lateral (
      select string_agg(e.id::text, '+' order by vs.position) as ids,
        string_agg(e.name, ' + ' order by vs.position) as names
        from visit_service vs
        join service e on e.studio_id = vs.studio_id and e.id = vs.service_id
       where vs.studio_id = b.studio_id and vs.visit_id = b.visit_id) menu on true`,
  },
  purpose: { key: 'b.purpose', label: 'b.purpose', join: '' },
  product: {
    key: 'part.product_id::text',
    label: 'p.name',
    join: `join part on part.bowl_id = b.id
      join product p on p.studio_id = b.studio_id and p.id = part.product_id`,
  },
  month: { key: `to_char(b.day, 'YYYY-MM')`, label: `to_char(b.day, 'YYYY-MM')`, join: '' },
  hair: {
    key: `coalesce(nullif(concat_ws(', ', c.hair_length, c.hair_density), ''), 'none')`,
    label: `coalesce(nullif(concat_ws(', ', c.hair_length, c.hair_density), ''), 'not noted')`,
    join: `left join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
      left join client c on c.studio_id = v.studio_id and c.id = v.client_id`,
  },
};

/** Keys whose rows are not ranked. */
const inOrderOfLabels: ReadonlySet<WasteKey> = new Set<WasteKey>(['person', 'month']);

/** Grams and value of a bowl, or of one product in it. */
const sums = {
  bowl: {
    mixed: 'b.mixed_g',
    wasted: 'b.wasted_g',
    value: 'coalesce(worth.bin_value, 0)',
  },
  product: { mixed: 'part.mixed_g', wasted: 'part.wasted_g', value: 'part.bin_value' },
};

/** Settled bowls of the days, and what became of each product in them; see `readWaste`. */
const BOWLS = `
  with b as (
    select b.studio_id, b.id, b.visit_id, b.purpose, b.sized_by, b.estimated, b.mixed_g, b.wasted_g,
      (b.last_pour_at at time zone s.time_zone)::date as day,
      b.why in ('spilled', 'mixed wrong') or b.borne_by = 'studio' as remade,
      b.visit_id is not null and count(*)
        filter (where b.why not in ('spilled', 'mixed wrong') and b.borne_by <> 'studio')
        over (partition by b.visit_id, b.purpose order by b.planned_at, b.id
          rows between unbounded preceding and 1 preceding) > 0 as ran_out
      from bowl b join studio s on s.studio_id = b.studio_id
     where b.studio_id = current_studio() and b.state = 'settled' and b.mixed_g > 0
       and b.last_pour_at >= $1::date::timestamp at time zone s.time_zone
       and b.last_pour_at < $2::date::timestamp at time zone s.time_zone
       and ($3::uuid is null or b.sized_by = $3)
  ), moved as (
    select b.id as bowl_id, m.product_id, m.from_pour_id as pour_id, m.to_place as place,
        m.quantity, m.value
      from b join movement m on m.studio_id = b.studio_id and m.from_bowl_id = b.id
     where m.to_place in ('head', 'bin')
    union all
    select b.id, m.product_id, m.to_pour_id, m.from_place, -m.quantity, -m.value
      from b join movement m on m.studio_id = b.studio_id and m.to_bowl_id = b.id
     where m.from_place in ('head', 'bin')
    union all
    select c.bowl_id, c.product_id, null, c.place, 0, c.value
      from cost_found_later c
     where c.studio_id = current_studio() and c.place = 'bin' and c.bowl_id in (select id from b)
  ), part as materialized (
    select m.bowl_id, m.product_id, sum(m.quantity * u.grams / u.quantity) as mixed_g,
        coalesce(sum(m.quantity * u.grams / u.quantity) filter (where m.place = 'bin'), 0)
          as wasted_g,
        coalesce(sum(m.value) filter (where m.place = 'bin'), 0) as bin_value
      from moved m left join pour u on u.studio_id = current_studio() and u.id = m.pour_id
     group by 1, 2
  ), worth as materialized (
    select bowl_id, sum(bin_value) as bin_value from part group by bowl_id`;

/**
 * Left over by one key. A bowl belongs to the studio's day of its last pour. What the studio bears
 * stands beside it. `leftOutShares` and `leftOutSquares` are the sums, over bowls, of the share
 * with that bowl left out, and of its square. $1, $2 days from and to, $3 who sized it, or null.
 */
export function readWaste(by: WasteKey): string {
  const group = groups[by];
  const sum = by === 'product' ? sums.product : sums.bowl;
  return `${BOWLS}
  ), item as (
    select ${group.key} as key, ${group.label} as label, ${sum.mixed} as mixed,
        ${sum.wasted} as wasted, ${sum.value} as value, b.remade, b.estimated, b.ran_out,
        not b.remade and not b.estimated as weighed
      from b left join worth on worth.bowl_id = b.id
        ${group.join}
  ), total as (
    select key, max(label) as label, count(*) filter (where weighed) as bowls,
        count(*) filter (where not remade and estimated) as estimated_bowls,
        count(*) filter (where remade) as remade_bowls,
        count(*) filter (where ran_out) as ran_out,
        coalesce(sum(mixed) filter (where weighed), 0) as mixed,
        coalesce(sum(wasted) filter (where weighed), 0) as wasted,
        coalesce(sum(wasted) filter (where remade), 0) as remade,
        coalesce(sum(value) filter (where weighed), 0) as value
      from item group by key
  ), left_out as (
    select i.key, (t.wasted - i.wasted) / (t.mixed - i.mixed) as share
      from item i join total t on t.key = i.key
     where i.weighed and t.mixed > i.mixed
  )
  select t.key, t.label, t.bowls::int, t.estimated_bowls::int as "estimatedBowls",
    t.remade_bowls::int as "remadeBowls", t.ran_out::int as "ranOut",
    round(t.mixed, 9)::text as mixed,
    round(t.wasted, 9)::text as wasted, round(t.remade, 9)::text as remade, t.value::text,
    round(coalesce(sum(l.share), 0), 24)::text as "leftOutShares",
    round(coalesce(sum(l.share * l.share), 0), 24)::text as "leftOutSquares"
    from total t left join left_out l on l.key = t.key
   group by t.key, t.label, t.bowls, t.estimated_bowls, t.remade_bowls, t.ran_out, t.mixed,
     t.wasted, t.remade, t.value
   order by ${inOrderOfLabels.has(by) ? '' : 't.wasted desc, '}t.label, t.key`;
}

/**
 * What bowls of the purpose $1 took since $4: weighed ones that the visit bore, with whether the
 * visit has the service $2, and the client's hair. A head of which one bowl was not weighed is
 * left out. $3 the bowl's own visit, which does not count.
 */
export const READ_TAKEN = `
  select coalesce(b.visit_id, b.id) as "visitId", b.purpose,
    (row_number() over (order by b.planned_at, b.id))::int as "order",
    (b.mixed_g - b.wasted_g)::text as applied, b.wasted_g::text as leftover,
    exists (select from visit_service vs where vs.studio_id = b.studio_id
      and vs.visit_id = b.visit_id and vs.service_id = $2) as "sameService",
    c.hair_length as "hairLength", c.hair_density as "hairDensity"
    from bowl b
    left join visit v on v.studio_id = b.studio_id and v.id = b.visit_id
    left join client c on c.studio_id = v.studio_id and c.id = v.client_id
   where b.studio_id = current_studio() and b.purpose = $1 and b.state = 'settled'
     and b.mixed_g > 0 and not b.estimated and b.borne_by <> 'studio'
     and b.why not in ('spilled', 'mixed wrong')
     and b.last_pour_at >= $4::timestamptz - interval '24 months'
     and ($3::uuid is null or b.visit_id is distinct from $3)
     and not exists (select from bowl o where o.studio_id = b.studio_id
       and o.visit_id = b.visit_id and o.purpose = b.purpose
       and (o.state = 'open' or o.state = 'settled' and o.estimated))
   order by 3`;
