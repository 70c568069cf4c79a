/** Fields that could not be read: where, why, and what to write instead. */
import { Problem } from '../../../shared/problems/problem.js';

/** One field of a request that needs correcting. */
export interface FieldError {
  /** JSON pointer (RFC 6901) into the body, or "/name" of a query parameter. */
  readonly pointer: string;
  readonly code: string;
  /** A sentence a person can act on. */
  readonly detail: string;
}

/** What reading a field gives when it cannot be read. */
export class Unreadable {
  /** @param pointer further into the field, "/quantity", where it is not the field itself */
  constructor(
    readonly code: string,
    readonly detail: string,
    readonly pointer = '',
  ) {}
}

/** A request with fields that could not be read, all of them. */
export class MalformedRequest extends Problem<'malformed_request'> {
  constructor(readonly errors: readonly FieldError[]) {
    super('malformed_request', { count: errors.length });
  }
}

/** One step of a JSON pointer: "~" and "/" have their own spelling in it. */
export function pointerStep(name: string): string {
  return `/${name.replaceAll('~', '~0').replaceAll('/', '~1')}`;
}
