/** Fields of a request that a line of a file gives. */

type Given<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

/** The fields without those whose cells are empty. */
export function given<T extends object>(fields: T): Given<T> {
  const entries = Object.entries(fields).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as Given<T>;
}
