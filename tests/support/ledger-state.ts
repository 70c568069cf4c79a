/** All that a ledger says, without the ids that every service makes for itself. */
import type { TestDatabase } from './database.js';

/** A lot by where it came from: its journal is named by who entered it. */
const lot = (column: string) => `(select case l.source when 'shortfall' then 'shortfall'
    else l.source || ' ' || case when l.source = 'found' then l.received_on::text
      else l.journal_id::text end end
  from lot l where l.id = ${column})`;

const statements = {
  movements: `
    select m.journal_kind, m.product_id, ${lot('m.lot_id')} as lot, m.from_place, m.to_place,
      m.from_bowl_id, m.to_bowl_id, m.visit_id, m.quantity, m.value, m.reason, m.happened_at,
      m.happened_on::text, m.recorded_at, m.person_id, m.bench_id,
      (select o.seq - m.seq from movement o where o.id = m.reverses_id) as undoes
    from movement m order by m.seq`,
  journals: `
    select j.kind, j.happened_at, j.recorded_at, j.person_id, j.bench_id, j.visit_id, j.bowl_id,
      j.flags, (select min(m.seq) from movement m where m.journal_id = j.id) as first
    from journal j order by first, 1, 2`,
  products: `select * from product_holding order by product_id`,
  lots: `
    select h.product_id, ${lot('h.lot_id')} as lot, l.received_on::text, l.expires_on::text,
      l.quantity as came, l.cost, h.quantity, h.value
    from lot_holding h join lot l on l.id = h.lot_id order by 1, 2, 3, 4, 5, 6`,
  months: `select * from monthly_flow order by 1, 2, 3, 4, 5, 6`,
  bowls: `select * from bowl order by id`,
  pours: `
    select bowl_id, product_id, kind, measured_quantity, measured_unit, quantity, unit, grams,
      assumed_density, side, poured_at, recorded_at, person_id, bench_id, estimated, scale,
      reversed_at
    from pour order by bowl_id, poured_at, product_id, reversed_at`,
  inBowls: `
    select p.bowl_id, p.product_id, p.poured_at, ${lot('h.lot_id')} as lot, h.quantity, h.value
    from pour_holding h join pour p on p.id = h.pour_id order by 1, 2, 3, 4`,
  weighings: `
    select id, bowl_id, net_g, weighed_at, recorded_at, person_id, reversed_at
    from weighing order by id`,
  settlements: `
    select id, bowl_id, leftover_g, settled_at, recorded_at, person_id, why, borne_by, estimated,
      reversed_at from settlement order by id`,
  // a visit's sheet is made at its closing over HTTP, and of what was loaded when first asked for
  visits: `select (to_jsonb(v) - 'has_sheet') as visit from visit v order by v.id`,
  services: `select * from visit_service order by visit_id, position`,
  minutes: `select * from visit_minutes order by visit_id, person_id`,
  deliveries: `
    select d.*, l.position, l.product_id, l.pack_label, l.packs, l.free_packs, l.pack_price,
      l.quantity, l.cost
    from delivery d join delivery_line l on l.delivery_id = d.id order by d.id, l.position`,
  counts: `select * from count_line order by journal_id, product_id`,
};

export type LedgerState = Record<keyof typeof statements, Record<string, unknown>[]>;

/** Reads it as the owner of the database; there must be one studio in it. */
export async function ledgerState(database: TestDatabase): Promise<LedgerState> {
  const entries = Object.entries(statements);
  const read = [];
  for (const [name, sql] of entries) read.push([name, await database.asOwner(sql)] as const);
  return Object.fromEntries(read) as LedgerState;
}
