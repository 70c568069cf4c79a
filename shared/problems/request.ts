/** Refusals of a request as such: what it says, who asks, what it is about. */
import { refusal } from './refusal.js';

export const requestProblems = {
  malformed_request: refusal<{ count: number }>(
    'malformed',
    'The request could not be read',
    ({ count }) =>
      count === 1 ? 'One field needs correcting.' : `${count} fields need correcting.`,
  ),
  not_signed_in: refusal<Record<string, never>>(
    'unauthenticated',
    'Nobody is signed in',
    () => 'Sign in with a name and PIN, or send a bearer token.',
  ),
  not_your_right: refusal<{ needs: string }>(
    'forbidden',
    'This needs another role',
    ({ needs }) => `Only ${needs} may do this. Ask one of them, or sign in as one.`,
  ),
  not_found: refusal<{ what: string; id: string }>(
    'missing',
    'Not found',
    ({ what, id }) => `There is no ${what} ${id} in this studio. Check the id.`,
  ),
  unavailable: refusal<{ seconds: number }>(
    'unavailable',
    'The database is away',
    ({ seconds }) => `Nothing was stored. Try again in ${seconds} seconds.`,
  ),
  not_an_instant: refusal<{ text: string }>(
    'malformed',
    'Not a time',
    ({ text }) =>
      `"${text}" is not a time with its offset. Write it such as 2026-03-14T10:05:00+01:00.`,
  ),
  unknown_time_zone: refusal<{ timeZone: string }>(
    'refused',
    'Unknown time zone',
    ({ timeZone }) => `"${timeZone}" is no IANA time zone. Choose one such as Europe/Lisbon.`,
  ),
  broken_json: refusal<Record<string, never>>(
    'malformed',
    'Not JSON',
    () => 'The body is not JSON. Look for a missing quote, comma or bracket.',
  ),
  not_json: refusal<{ contentType: string }>(
    'malformed',
    'Another kind of content',
    ({ contentType }) => `The body is ${contentType}. Send application/json.`,
  ),
  body_too_large: refusal<{ limitBytes: number }>(
    'malformed',
    'Too much at once',
    ({ limitBytes }) => `The body is larger than ${limitBytes} bytes. Send it in parts.`,
  ),
  no_such_address: refusal<{ method: string; path: string }>(
    'missing',
    'No such address',
    ({ method, path }) => `There is no ${method} ${path}. The calls are listed at /api.`,
  ),
};
