/** SQL of what is taken off the shelf without a bowl. */

/** The visit that something was used in. $1 visit. */
export const READ_USE_VISIT = `
  select id, closed_at from visit where studio_id = current_studio() and id = $1`;
