/** A list refused as a whole, with everything that is wrong in it. */
import { Problem } from './problem.js';

/** One thing to correct in a list: where, which rule, and what to do. */
export interface LineError {
  /** JSON pointer (RFC 6901) to the line and into it, "/3/strength". */
  readonly pointer: string;
  readonly code: string;
  readonly detail: string;
}

/** What one line of a list is refused for; lines are counted from 0. */
export interface LineRefusal {
  readonly line: number;
  readonly problem: Problem;
}

/** All or nothing: `errors` names everything in the list that needs correcting. */
export class LinesRefused extends Problem<'lines_refused'> {
  readonly errors: readonly LineError[];

  /** @param prefix pointer to the list, "/products"; none where the list is all there is */
  constructor(
    readonly refusals: readonly LineRefusal[],
    readonly lines: number,
    prefix = '',
  ) {
    super('lines_refused', { refused: new Set(refusals.map(({ line }) => line)).size, lines });
    this.errors = refusals.map(({ line, problem: { code, message, pointer = '' } }) => ({
      pointer: `${prefix}/${line}${pointer}`,
      code,
      detail: message,
    }));
  }
}

/** Gathers what is refused in a list, so that all of it is told at once. */
export class LineCheck {
  private readonly refusals: LineRefusal[] = [];

  constructor(private readonly lines: number) {}

  refuse(line: number, problem: Problem): void {
    this.refusals.push({ line, problem });
  }

  /** What `work` makes of a line; undefined where it is refused. */
  of<R>(line: number, work: () => R): R | undefined {
    try {
      return work();
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      this.refuse(line, error as Problem);
      return undefined;
    }
  }

  /** @throws LinesRefused where anything was refused */
  done(): void {
    if (this.refusals.length === 0) return;
    const sorted = [...this.refusals].sort((a, b) => a.line - b.line);
    throw new LinesRefused(sorted, this.lines);
  }
}

/** For a list of one: its own problem instead of the list's. */
export async function asOneLine<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    throw error instanceof LinesRefused ? (error.refusals[0]?.problem ?? error) : error;
  }
}
