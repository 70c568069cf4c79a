/** Which HTTP status each kind of refusal has. */
import type { ProblemCode } from '../../../shared/problems/problem.js';
import type { RefusalKind } from '../../../shared/problems/refusal.js';

/** Exhaustive: a new kind without a status does not compile. */
const statusOfKind: Record<RefusalKind, number> = {
  malformed: 400,
  unauthenticated: 401,
  forbidden: 403,
  missing: 404,
  conflict: 409,
  refused: 422,
  too_often: 429,
  unavailable: 503,
};

/** Where HTTP itself has a more telling status than the kind's. */
const statusOfCode: Partial<Record<ProblemCode, number>> = {
  not_json: 415,
  body_too_large: 413,
};

/** The HTTP status of a refusal. */
export function statusOf(problem: { kind: RefusalKind; code: ProblemCode }): number {
  return statusOfCode[problem.code] ?? statusOfKind[problem.kind];
}
