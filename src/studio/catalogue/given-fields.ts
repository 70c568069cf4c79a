/** Tells fields that were sent from fields that were left out. */

type GivenFields<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

/** The fields that were given: null empties a field, what is left out stays. */
export function givenFields<T extends object>(fields: T): GivenFields<T> {
  const given = Object.entries(fields).filter(([, value]) => value !== undefined);
  return Object.fromEntries(given) as GivenFields<T>;
}
