/** SQL of products and packs; exact numbers travel as text without trailing zeros. */
import { prepared } from '../../platform/database/transaction.js';

/** Which of the products $1 this studio has not. */
export const MISSING_PRODUCTS = prepared(`
  select wanted.id from unnest($1::uuid[]) with ordinality as wanted(id, at)
   where not exists (select from product p
     where p.studio_id = current_studio() and p.id = wanted.id)
   order by wanted.at limit 1`);

const PRODUCT_FIELDS = `
  p.id, p.seq::text, p.name, p.kind, p.unit, p.line, trim_scale(p.strength_vol)::text as strength,
  trim_scale(p.percent)::text as percent, trim_scale(p.density_g_per_ml)::text as density,
  trim_scale(p.grams_per_piece)::text as "gramsPerPiece",
  trim_scale(p.dose_quantity)::text as dose, p.open_life_days as "openLifeDays",
  p.working_minutes as "workingMinutes", trim_scale(p.scalp_ceiling_vol)::text as "scalpCeiling",
  trim_scale(p.off_scalp_ceiling_vol)::text as "offScalpCeiling",
  p.supplier_id as "supplierId", trim_scale(p.reorder_point)::text as "reorderPoint",
  p.lead_time_days as "leadTimeDays", trim_scale(p.service_level)::text as "serviceLevel",
  p.keep_sealed as "keepSealed", p.named_later as "namedLater", p.retired_at as "retiredAt",
  (select coalesce(json_agg(json_build_object('id', k.id, 'label', k.label,
      'quantity', trim_scale(k.quantity)::text, 'gtin', k.gtin, 'orderCode', k.order_code,
      'emptyWeight', trim_scale(k.empty_weight_g)::text,
      'listPrice', trim_scale(k.list_price)::text) order by k.position), '[]')
     from pack k where k.studio_id = p.studio_id and k.product_id = p.id) as packs`;

/**
 * Products newest first. $1 below this seq, $2 how many, $3 retired too, $4 kind, $5 line,
 * $6 GTIN of 14 digits, $7 part of the name; null is every one.
 */
export const PRODUCTS = prepared(`
  select ${PRODUCT_FIELDS} from product p
   where p.studio_id = current_studio()
     and ($1::bigint is null or p.seq < $1::bigint)
     and ($3::boolean or p.retired_at is null)
     and ($4::text is null or p.kind = $4)
     and ($5::text is null or p.line = $5)
     and ($6::text is null or exists (select from pack k
       where k.studio_id = p.studio_id and k.product_id = p.id and k.gtin = $6))
     and ($7::text is null or position(lower($7) in lower(p.name)) > 0)
   order by p.seq desc limit $2`);

/** One product. $1 its id. */
export const PRODUCT = prepared(`
  select ${PRODUCT_FIELDS} from product p where p.studio_id = current_studio() and p.id = $1`);

/** Locks one product against other changes, and says whether it has ever moved. $1 its id. */
export const HOLD_PRODUCT = prepared(`
  select p.id, exists (select from movement m
      where m.studio_id = p.studio_id and m.product_id = p.id) as moved
    from product p where p.studio_id = current_studio() and p.id = $1 for no key update`);

/** Which of the GTINs $1 are taken, and by which product other than $2. */
export const GTINS_TAKEN = prepared(`
  select k.gtin, p.name from pack k
    join product p on p.studio_id = k.studio_id and p.id = k.product_id
   where k.studio_id = current_studio() and k.gtin = any($1::text[])
     and ($2::uuid is null or p.id <> $2)`);

/** Which of the suppliers $1 this studio has. */
export const SUPPLIERS_KNOWN = prepared(`
  select id from supplier where studio_id = current_studio() and id = any($1::uuid[])`);

/** Takes all packs off a product. $1 its id. */
export const DROP_PACKS = prepared(
  'delete from pack where studio_id = current_studio() and product_id = $1',
);

/** A product as it is read. */
export interface ProductRow {
  readonly id: string;
  readonly seq: string;
  readonly name: string;
  readonly kind: string;
  readonly unit: string;
  readonly line: string | null;
  readonly strength: string | null;
  readonly percent: string | null;
  readonly density: string | null;
  readonly gramsPerPiece: string | null;
  readonly dose: string | null;
  readonly openLifeDays: number | null;
  readonly workingMinutes: number | null;
  readonly scalpCeiling: string | null;
  readonly offScalpCeiling: string | null;
  readonly supplierId: string | null;
  readonly reorderPoint: string | null;
  readonly leadTimeDays: number | null;
  readonly serviceLevel: string | null;
  readonly keepSealed: number | null;
  readonly namedLater: boolean;
  readonly retiredAt: Date | null;
  readonly packs: readonly PackRow[];
}

/** A pack as it is read. */
export interface PackRow {
  readonly id: string;
  readonly label: string;
  readonly quantity: string;
  readonly gtin: string | null;
  readonly orderCode: string | null;
  readonly emptyWeight: string | null;
  readonly listPrice: string | null;
}
