/** SQL of price sheets: what a visit used, what it would cost again, the sheets that are kept. */
import { prepared } from '../../platform/database/transaction.js';

/**
 * What one stock unit would cost now: the list price with the share of freight and the like of the
 * last 12 months' deliveries, else the newest lot; water costs nothing. $1 products, $2 now, $3
 * list prices by pack that are taken instead of those there are.
 */
export const READ_REPLACEMENT = prepared(`
  select p.id, round(case when p.kind = 'water' then 0 else coalesce(
      (select k.price / k.quantity from (
          select coalesce(($3::jsonb ->> pack.id::text)::numeric, pack.list_price) as price,
            pack.quantity, pack.position
            from pack where pack.studio_id = p.studio_id and pack.product_id = p.id) k
        where k.price > 0
        order by k.position limit 1) * (1 + coalesce(extra.share, 0)),
      (select l.cost / l.quantity from lot l
        where l.studio_id = p.studio_id and l.product_id = p.id and l.cost > 0
          and l.quantity > 0 and l.source in ('delivery', 'opening', 'transfer')
        order by l.received_on desc, l.id desc limit 1)) end, 15)::text as unit_cost
    from product p
    left join lateral (
      select sum(d.extra) / nullif(sum(d.landed - d.extra), 0) as share from (
        select d.freight + d.other_cost + d.non_recoverable_tax as extra,
          (select sum(l.cost) from delivery_line l
            where l.studio_id = d.studio_id and l.delivery_id = d.id) as landed
          from delivery d
         where d.studio_id = p.studio_id
           and d.delivered_on > ($2::timestamptz)::date - 365
           and exists (select from delivery_line l where l.studio_id = d.studio_id
             and l.delivery_id = d.id and l.product_id = p.id)
           and not exists (select from journal r
             where r.studio_id = d.studio_id and r.reverses_id = d.id)) d
    ) extra on true
   where p.studio_id = current_studio() and p.id = any($1::uuid[])`);

/** What an hour and a commission of the people $1 are. */
export const READ_RATES = prepared(`
  select id, name, kind, hour_rate::text as "hourRate",
    case when commission_share is not null then json_build_object(
      'share', trim_scale(commission_share)::text, 'on', commission_on) end as commission
    from person where studio_id = current_studio() and id = any($1::uuid[])`);

/** Whether anything was used for the visit $1 without a bowl. */
export const READ_HAS_USES = prepared(`
  select exists (select from movement m where m.studio_id = current_studio() and m.visit_id = $1
    and m.from_bowl_id is null and m.to_bowl_id is null and m.journal_kind = 'use'
    and m.to_place = 'head') as used`);

const SHEET_FIELDS = `
  id, version, replaces, to_char(made_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')
    as made_at, basis, sheet`;

/** The newest sheet of the visit $1. */
export const READ_NEWEST_SHEET = prepared(`
  select ${SHEET_FIELDS} from price_sheet
   where studio_id = current_studio() and visit_id = $1 order by version desc limit 1`);

/** All sheets of the visit $1, the newest first. */
export const READ_SHEETS = prepared(`
  select ${SHEET_FIELDS} from price_sheet
   where studio_id = current_studio() and visit_id = $1 order by version desc`);

/**
 * Keeps sheets under the days of their visits: that on which the last of its bowls was settled,
 * that of its closing where it has none. $1 rows of id, visit_id, version, replaces, made_at,
 * ledger_seq, basis in hexadecimal digits, sheet.
 */
export const KEEP_SHEETS = prepared(`
  with kept as (
    insert into price_sheet (studio_id, id, visit_id, version, replaces, made_at, ledger_seq,
        basis, sheet, day)
    select current_studio(), n.id, v.id, n.version, n.replaces, n.made_at, n.ledger_seq,
      decode(n.basis, 'hex'), n.sheet,
      (coalesce((select max(b.settled_at) from bowl b where b.studio_id = v.studio_id
          and b.visit_id = v.id and b.state = 'settled'), v.closed_at)
        at time zone s.time_zone)::date
      from jsonb_to_recordset($1::jsonb) as n(id uuid, visit_id uuid, version integer,
        replaces uuid, made_at timestamptz, ledger_seq bigint, basis text, sheet jsonb)
      join visit v on v.studio_id = current_studio() and v.id = n.visit_id
      join studio s on s.studio_id = v.studio_id
    returning visit_id
  )
  update visit v set has_sheet = true from kept
   where v.studio_id = current_studio() and v.id = kept.visit_id and not v.has_sheet`);
