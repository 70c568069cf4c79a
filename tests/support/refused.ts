/** Catches the refusal that some work ends in, to look at its code, facts and words. */
import { Problem } from '../../shared/problems/problem.js';

/** The problem that `work` throws; fails when it throws none, or something else. */
export function refused(work: () => unknown): Problem {
  try {
    work();
  } catch (error) {
    if (error instanceof Problem) return error as Problem;
    throw error;
  }
  throw new Error('Expected a refusal, and there was none.');
}
