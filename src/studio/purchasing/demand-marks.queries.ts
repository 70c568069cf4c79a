/** SQL of what people mark of demand: out of stock, one product in place of another. */

/** Marks, the latest first; of product $1, or of all where it is null. */
export const LIST_OUT = `
  select o.id, o.product_id, p.name, to_char(o.first_day, 'YYYY-MM-DD') as "from",
    to_char(o.last_day, 'YYYY-MM-DD') as "to"
    from out_of_stock o
    join product p on p.studio_id = o.studio_id and p.id = o.product_id
   where o.studio_id = current_studio() and ($1::uuid is null or o.product_id = $1)
   order by o.first_day desc, o.id`;

/** $1 id, $2 product, $3 from, $4 to, $5 person, $6 now. */
export const PUT_OUT = `
  insert into out_of_stock (studio_id, id, product_id, first_day, last_day, person_id,
    recorded_at)
  values (current_studio(), $1, $2, $3, $4, $5, $6)`;

export const DROP_OUT = `
  delete from out_of_stock where studio_id = current_studio() and id = $1`;

export const LIST_REPLACED = `
  select r.product_id, p.name, r.replaces_id, o.name as replaces, r.factor::text
    from replacement r
    join product p on p.studio_id = r.studio_id and p.id = r.product_id
    join product o on o.studio_id = r.studio_id and o.id = r.replaces_id
   where r.studio_id = current_studio() order by p.name, r.product_id`;

/** Products $1 that there are. */
export const KNOWN_PRODUCTS = `
  select id, name from product where studio_id = current_studio() and id = any($1::uuid[])`;

/** $1 product, $2 the one it replaces, $3 factor. */
export const PUT_REPLACED = `
  insert into replacement (studio_id, product_id, replaces_id, factor)
  values (current_studio(), $1, $2, $3)
  on conflict (studio_id, product_id) do update
    set replaces_id = excluded.replaces_id, factor = excluded.factor`;

export const DROP_REPLACED = `
  delete from replacement where studio_id = current_studio() and product_id = $1`;
