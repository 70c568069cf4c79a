/** SQL of the ledger's movements: filtered, in pages, newest first. */

const MOVEMENT = `
  select m.seq, m.id, m.journal_id, m.journal_kind, m.product_id, m.lot_id, m.from_place,
    m.to_place, m.from_bowl_id, m.to_bowl_id, m.visit_id, m.quantity, m.value, p.unit, p.name,
    m.reason, m.happened_at, m.happened_on, m.recorded_at, m.person_id, m.bench_id, m.reverses_id
    from movement m
    join product p on p.studio_id = m.studio_id and p.id = m.product_id
   where m.studio_id = current_studio()`;

/** The movements of one journal in the order of recording. $1 journal. */
export const READ_MOVEMENTS_OF = `${MOVEMENT} and m.journal_id = $1 order by m.seq`;

/** A filter, and the condition that its value is put into; \`$\` stands for the parameter. */
export const movementFilters = {
  product: 'm.product_id = $',
  lot: 'm.lot_id = $',
  visit: 'm.visit_id = $',
  journal: 'm.journal_id = $',
  kind: 'm.journal_kind = $',
  person: 'm.person_id = $',
  bowl: '(m.from_bowl_id = $ or m.to_bowl_id = $)',
  from: `m.happened_on >= $::date and m.happened_at >= $::date - interval '2 days'`,
  to: `m.happened_on < $::date and m.happened_at < $::date + interval '2 days'`,
  before: 'm.seq < $::bigint',
} as const;

export type MovementFilter = keyof typeof movementFilters;

/** The statement for the filters that were given, and its parameters. */
export function readMovements(
  given: Partial<Record<MovementFilter, string | undefined>>,
  limit: number,
): { text: string; parameters: unknown[] } {
  const parameters: unknown[] = [limit];
  const conditions: string[] = [];
  for (const [name, value] of Object.entries(given)) {
    if (value === undefined) continue;
    parameters.push(value);
    const condition = movementFilters[name as MovementFilter];
    conditions.push(`and ${condition.replaceAll('$', `$${parameters.length}`)}`);
  }
  const text = `${MOVEMENT} ${conditions.join(' ')} order by m.seq desc limit $1`;
  return { text, parameters };
}

/** The journal of an entry, named by its own id or by that of one of its movements. $1 id. */
export const READ_JOURNAL_ID = `
  select coalesce(
    (select id from journal where studio_id = current_studio() and id = $1),
    (select journal_id from movement where studio_id = current_studio() and id = $1)) as id`;

/**
 * Whether something of a journal's goods has been used since, and not been put back. Under
 * \`average\` every draw of the product touches its value. $1 journal, $2 its lots, $3 by product.
 */
export const READ_TOUCHED = `
  select exists (
    select from movement m
     where m.studio_id = current_studio() and m.from_place = 'shelf'
       and m.product_id in (select product_id from movement
         where studio_id = m.studio_id and journal_id = $1)
       and ($3 or m.lot_id = any($2::uuid[])) and m.journal_id <> $1
       and m.seq > (select max(seq) from movement
         where studio_id = m.studio_id and journal_id = $1)
       and m.reverses_id is null
       and not exists (select from movement r
         where r.studio_id = m.studio_id and r.reverses_id = m.id)) as touched`;

/** Who booked a journal, and on which day. $1 journal. */
export const READ_BOOKED_BY = `
  select j.person_id, (j.recorded_at at time zone s.time_zone)::date = ($2::timestamptz at time zone
    s.time_zone)::date as today
    from journal j join studio s on s.studio_id = j.studio_id
   where j.studio_id = current_studio() and j.id = $1`;
