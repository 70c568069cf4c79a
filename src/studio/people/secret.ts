/** Secrets that programs, devices and browsers hold: they name their studio; we keep a hash. */
import { createHash, randomBytes } from 'node:crypto';

/** A token is held by a program or device for long, a session by a browser for a shift. */
export type SecretKind = 'token' | 'session';

const marks: Record<SecretKind, string> = { token: 'bwt', session: 'bws' };
const pattern = /^(bwt|bws)_([\w-]{22})([\w-]{43})$/;

/** A secret's text read back: whose it is, and what to look for. */
export interface ReadSecret {
  readonly kind: SecretKind;
  readonly studioId: string;
  readonly hash: Buffer;
}

/** A new secret of 256 random bits; the text is shown once and never kept. */
export function newSecret(kind: SecretKind, studioId: string): { text: string; hash: Buffer } {
  const studio = Buffer.from(studioId.replaceAll('-', ''), 'hex').toString('base64url');
  const text = `${marks[kind]}_${studio}${randomBytes(32).toString('base64url')}`;
  return { text, hash: hashOf(text) };
}

/** What a secret's text says; undefined when it is none of ours. */
export function readSecret(text: string): ReadSecret | undefined {
  const [, mark, studio = ''] = pattern.exec(text) ?? [];
  if (mark === undefined) return undefined;
  const hex = Buffer.from(studio, 'base64url').toString('hex');
  const studioId = hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
  return { kind: mark === marks.token ? 'token' : 'session', studioId, hash: hashOf(text) };
}

function hashOf(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
