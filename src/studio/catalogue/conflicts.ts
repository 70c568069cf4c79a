/** Turns what a constraint of the database refuses into the house's own words. */
import type { Problem } from '../../../shared/problems/problem.js';

interface DatabaseError {
  readonly constraint?: string;
  readonly code?: string;
  readonly driverError?: DatabaseError;
}

/**
 * Waits for `work`; where a constraint refuses it, the sentence for that constraint is thrown.
 * @param sentences by constraint's name, or by SQLSTATE for a trigger
 */
export async function inWords<T>(
  work: Promise<T>,
  sentences: Readonly<Record<string, () => Problem>>,
): Promise<T> {
  try {
    return await work;
  } catch (error) {
    const refused = ((error as DatabaseError).driverError ?? error) as DatabaseError;
    const sentence = sentences[refused.constraint ?? ''] ?? sentences[refused.code ?? ''];
    throw sentence?.() ?? error;
  }
}
