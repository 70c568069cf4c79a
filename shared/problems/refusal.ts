/** What a refusal is made of: how bad it is, a title, and advice worked out from its facts. */

/** Kinds of refusal; the service maps each kind to one answer, exhaustively. */
export type RefusalKind =
  | 'malformed' // cannot be read as written
  | 'unauthenticated' // nobody is signed in
  | 'forbidden' // signed in, without the right
  | 'missing' // no such thing in this studio
  | 'conflict' // contradicts what is already stored
  | 'refused' // readable, but against a rule
  | 'too_often' // wait before the next try
  | 'unavailable'; // try again later

export type Facts = Readonly<Record<string, string | number | boolean | readonly string[]>>;

export interface Refusal<F extends Facts> {
  readonly kind: RefusalKind;
  readonly title: string;
  /** A sentence a person can act on. */
  readonly advice: (facts: F) => string;
}

/** Declares one refusal; the type of its facts is part of the declaration. */
export function refusal<F extends Facts>(
  kind: RefusalKind,
  title: string,
  advice: (facts: F) => string,
): Refusal<F> {
  return { kind, title, advice };
}
