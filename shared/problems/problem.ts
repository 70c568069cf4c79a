/** The one error that the house throws on purpose: a code, its facts, where in the request. */
import { catalogue, type ProblemCode, type ProblemFacts } from './catalogue.js';
import type { Facts, RefusalKind } from './refusal.js';

export type { ProblemCode } from './catalogue.js';

/** Something refused, with what the person can do about it. */
export class Problem<C extends ProblemCode = ProblemCode> extends Error {
  override readonly name = 'Problem';
  readonly kind: RefusalKind;
  readonly title: string;
  readonly facts: Facts;

  /**
   * @param code one of the catalogue's snake_case names
   * @param facts figures and names that the advice speaks of
   * @param pointer JSON pointer (RFC 6901) to the field it is about, where there is one
   */
  constructor(
    readonly code: C,
    facts: ProblemFacts<C>,
    readonly pointer?: string,
  ) {
    const entry = catalogue[code];
    super((entry.advice as (facts: Facts) => string)(facts));
    this.kind = entry.kind;
    this.title = entry.title;
    this.facts = facts;
  }

  /** The same problem, said of a field further out: at("/pours/0") before "/quantity". */
  at(prefix: string): Problem<C> {
    return new Problem(this.code, this.facts as ProblemFacts<C>, `${prefix}${this.pointer ?? ''}`);
  }
}

/** Runs `work`, or waits for it; a problem inside it gets `prefix` put before its pointer. */
export function within<T>(prefix: string, work: () => T): T {
  const placed = (error: unknown): never => {
    throw error instanceof Problem ? error.at(prefix) : error;
  };
  try {
    const result = work();
    return result instanceof Promise ? (result.catch(placed) as T) : result;
  } catch (error) {
    return placed(error);
  }
}
