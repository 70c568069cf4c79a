/** SQL for whole catalogues at once: what is there by name, new prices, what an export writes. */
import { prepared } from '../../platform/database/transaction.js';

/** Until the end of the transaction no plan of earlier statements is used again. */
export const PLAN_ANEW = 'set local plan_cache_mode = force_custom_plan';

export const PRODUCT_NAMES = prepared(`
  select id, name, line, unit, retired_at is not null as retired
    from product where studio_id = current_studio() order by seq`);

export const SUPPLIER_NAMES = prepared(
  'select id, name from supplier where studio_id = current_studio() order by seq',
);

export const SERVICE_NAMES = prepared(
  'select id, name from service where studio_id = current_studio() order by seq',
);

export const CLIENT_NUMBERS = prepared(
  'select id, number from client where studio_id = current_studio() and forgotten_at is null',
);

export const FORMULA_NAMES = prepared(
  'select name, client_id as "clientId" from formula where studio_id = current_studio()',
);

export const PACK_NAMES = prepared(`
  select k.id, k.label, k.gtin, k.order_code as "orderCode", p.name, p.line
    from pack k join product p on p.studio_id = k.studio_id and p.id = k.product_id
   where k.studio_id = current_studio() and p.retired_at is null order by p.seq, k.position`);

/** Sets list prices. $1 json of packs and prices. */
export const SET_PRICES = prepared(`
  update pack k set list_price = t.price
    from jsonb_to_recordset($1::jsonb) as t(id uuid, price numeric)
   where k.studio_id = current_studio() and k.id = t.id`);

/** Every product that is not retired, a line for each of its packs, or one without. */
export const EXPORT_PRODUCTS = `
  select p.name, p.line, p.kind, p.unit, trim_scale(p.strength_vol)::text as strength,
    trim_scale(p.percent)::text as percent, trim_scale(p.density_g_per_ml)::text as density,
    trim_scale(p.grams_per_piece)::text as grams_per_piece,
    trim_scale(p.dose_quantity)::text as dose, p.open_life_days, p.working_minutes,
    trim_scale(p.scalp_ceiling_vol)::text as scalp_ceiling,
    trim_scale(p.off_scalp_ceiling_vol)::text as off_scalp_ceiling, s.name as supplier,
    trim_scale(p.reorder_point)::text as reorder_point, p.lead_time_days,
    trim_scale(p.service_level)::text as service_level, p.keep_sealed,
    k.label as pack, trim_scale(k.quantity)::text as pack_quantity,
    case when k.id is not null then p.unit end as pack_unit, k.gtin, k.order_code,
    trim_scale(k.empty_weight_g)::text as empty_weight_g,
    trim_scale(k.list_price)::text as list_price, k.position
    from product p
    left join supplier s on s.studio_id = p.studio_id and s.id = p.supplier_id
    left join pack k on k.studio_id = p.studio_id and k.product_id = p.id
   where p.studio_id = current_studio() and p.retired_at is null
   order by p.seq, k.position`;

export const EXPORT_SUPPLIERS = `
  select name, lead_time_days, trim_scale(minimum_order)::text as minimum_order,
    trim_scale(freight)::text as freight,
    trim_scale(free_freight_from)::text as free_freight_from, order_day
    from supplier where studio_id = current_studio() and retired_at is null order by seq`;

/** The menu as it is at the instant $1. */
export const EXPORT_SERVICES = `
  select name, trim_scale(price)::text as price, hands_on_minutes, chair_minutes, kit,
    in_the_price as "inThePrice", on_top as "onTop"
    from menu_on(studio_day($1)) where retired_at is null order by seq`;

export const EXPORT_CLIENTS = `
  select number, name, contact, notes, next_time, hair_length, hair_density, sixteen_or_older
    from client
   where studio_id = current_studio() and retired_at is null and forgotten_at is null
   order by number`;

export const EXPORT_FORMULAS = `
  select f.name, c.number as client, f.purpose, f.plan, f.minutes_on_hair, f.next_time
    from formula f left join client c on c.studio_id = f.studio_id and c.id = f.client_id
   where f.studio_id = current_studio() and f.retired_at is null order by f.seq`;
