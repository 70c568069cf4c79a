/** Tells errors of a database that is away, or busy, from errors of a statement. */

const codesOfAbsence = new Set([
  ...['ECONNREFUSED', 'ECONNRESET', 'ENOENT', 'EPIPE', 'ETIMEDOUT', 'ENOTFOUND', 'EAI_AGAIN'],
  ...['57P01', '57P02', '57P03', '53300', '53400', '55P03', '25P03'],
]);
const wordsOfAbsence = [
  'Connection terminated',
  'timeout exceeded when trying to connect',
  'not queryable',
  'Cannot use a pool after calling end',
];

/** True when the same request may well succeed a little later. */
export function isDatabaseAway(error: unknown): boolean {
  const code = sqlState(error) ?? '';
  if (codesOfAbsence.has(code) || code.startsWith('08')) return true;
  const message = error instanceof Error ? error.message : '';
  return wordsOfAbsence.some((words) => message.includes(words));
}

/** PostgreSQL's SQLSTATE of an error, also where TypeORM has wrapped it. */
export function sqlState(error: unknown): string | undefined {
  const { code, driverError } = (error ?? {}) as { code?: unknown; driverError?: unknown };
  if (typeof code === 'string') return code;
  return driverError === undefined ? undefined : sqlState(driverError);
}
