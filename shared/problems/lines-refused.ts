/** A list refused as a whole, with everything that is wrong in it. */
import { Problem } from './problem.js';

/** One thing to correct in a list: where, which rule, and what to do. */
export interface LineError {
  /** JSON pointer (RFC 6901) whose first step is the index of the line, "/3/strength". */
  readonly pointer: string;
  readonly code: string;
  readonly detail: string;
}

/** All or nothing: `errors` names everything in the list that needs correcting. */
export class LinesRefused extends Problem<'lines_refused'> {
  constructor(
    readonly errors: readonly LineError[],
    lines: number,
  ) {
    const refused = new Set(errors.map(({ pointer }) => pointer.split('/')[1])).size;
    super('lines_refused', { refused, lines });
  }
}

/**
 * Runs `work` on every line and gathers what is refused, so that all of it is told at once.
 * @throws LinesRefused when any line was; anything but a Problem is thrown as it is
 */
export function eachLine<T, R>(lines: readonly T[], work: (line: T, index: number) => R): R[] {
  const errors: LineError[] = [];
  const done = lines.flatMap((line, index) => {
    try {
      return [work(line, index)];
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      errors.push(lineError(error as Problem, index));
      return [];
    }
  });
  if (errors.length > 0) throw new LinesRefused(errors, lines.length);
  return done;
}

/** A problem of the line at `index`, as an error of the list. */
export function lineError(problem: Problem, index: number): LineError {
  const { code, message, pointer = '' } = problem;
  return { pointer: `/${index}${pointer}`, code, detail: message };
}
