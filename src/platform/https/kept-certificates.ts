/** Keeps this installation's root and the machine's certificate in the data folder. */
import { randomUUID, X509Certificate } from 'node:crypto';
import { link, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import type { KeyedCertificate } from './own-authority.js';

const dayMs = 86_400_000;
/** So long before its end the machine's certificate is made anew. */
const leafSpareMs = 30 * dayMs;
/** Before the root's end a last certificate of full length must still fit in. */
const rootSpareMs = 430 * dayMs;
const onlyMine = { mode: 0o600 };

/** What https is served with, and what a tablet must trust for it. */
export interface OwnCertificates {
  readonly leaf: KeyedCertificate;
  /** Names and addresses that the leaf vouches for. */
  readonly names: readonly string[];
  /** Milliseconds since 1970 UTC from which a new leaf is to be made. */
  readonly renewAtMs: number;
  /** Certificate of the root in PEM; its key is not told. */
  readonly rootCert: string;
  /** SHA-256 of the root's certificate: "AB:CD:…". */
  readonly rootFingerprint: string;
}

/**
 * The certificates kept in the folder; what is missing, near its end or for other names is made
 * anew. The root stays the same as long as it lasts, so that tablets go on trusting it.
 * @throws Error with a sentence where the folder cannot be used or a file in it is damaged
 */
export async function ownCertificates(
  folder: string,
  names: readonly string[],
  nowMs: number,
): Promise<OwnCertificates> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const root = await keptRoot(join(folder, 'root.pem'), nowMs);
  const leaf = await keptLeaf(join(folder, 'this-computer.pem'), root, names, nowMs);
  return {
    leaf,
    names,
    renewAtMs: endOf(leaf) - leafSpareMs,
    rootCert: root.cert,
    rootFingerprint: new X509Certificate(root.cert).fingerprint256,
  };
}

async function keptRoot(file: string, nowMs: number): Promise<KeyedCertificate> {
  const kept = await read(file);
  if (kept && endOf(kept) - rootSpareMs > nowMs) return kept;
  const { makeRoot } = await import('./own-authority.js');
  const made = await makeRoot(`Bowlworth of ${hostname()}`, nowMs);
  if (kept) await replace(file, made);
  else if (!(await putFirst(file, made))) return (await read(file)) ?? made;
  return made;
}

async function keptLeaf(
  file: string,
  root: KeyedCertificate,
  names: readonly string[],
  nowMs: number,
): Promise<KeyedCertificate> {
  const kept = await read(file).catch(() => undefined); // a damaged one is only made anew
  if (kept && serves(kept, root, names, nowMs)) return kept;
  const { makeLeaf } = await import('./own-authority.js');
  const made = await makeLeaf(root, names, nowMs);
  await replace(file, made);
  return made;
}

function serves(
  leaf: KeyedCertificate,
  root: KeyedCertificate,
  names: readonly string[],
  nowMs: number,
): boolean {
  const cert = new X509Certificate(leaf.cert);
  const vouchesFor = (name: string) => (cert.checkHost(name) ?? cert.checkIP(name)) !== undefined;
  return (
    cert.verify(new X509Certificate(root.cert).publicKey) &&
    endOf(leaf) - leafSpareMs > nowMs &&
    Date.parse(cert.validFrom) <= nowMs &&
    names.every(vouchesFor) &&
    (cert.subjectAltName ?? '').split(', ').length === names.length
  );
}

function endOf({ cert }: KeyedCertificate): number {
  return Date.parse(new X509Certificate(cert).validTo);
}

/** Undefined where there is none. @throws Error with a sentence where there is no use in it */
async function read(file: string): Promise<KeyedCertificate | undefined> {
  const text = await readFile(file, 'utf8').catch((error: unknown) => {
    if ((error as { code?: string }).code === 'ENOENT') return undefined;
    throw error;
  });
  if (text === undefined) return undefined;
  const part = (name: string) =>
    new RegExp(`-----BEGIN ${name}-----[^-]+-----END ${name}-----`).exec(text)?.[0];
  const [key, cert] = [part('PRIVATE KEY'), part('CERTIFICATE')];
  if (key !== undefined && cert !== undefined && isCertificate(cert)) return { key, cert };
  throw new Error(
    `${file} holds no key with its certificate any more. Restore it from a copy, or delete it: ` +
      'then another is made, and each tablet has to trust that one.',
  );
}

function isCertificate(pem: string): boolean {
  try {
    return new X509Certificate(pem).subject !== '';
  } catch {
    return false;
  }
}

async function write(file: string, { key, cert }: KeyedCertificate): Promise<string> {
  const draft = `${file}.${randomUUID()}`;
  await writeFile(draft, `${key.trim()}\n${cert.trim()}\n`, onlyMine);
  return draft;
}

async function replace(file: string, made: KeyedCertificate): Promise<void> {
  await rename(await write(file, made), file);
}

/** False where another process was first: there is one root, not two. */
async function putFirst(file: string, made: KeyedCertificate): Promise<boolean> {
  const draft = await write(file, made);
  try {
    await link(draft, file);
    return true;
  } catch (error) {
    if ((error as { code?: string }).code === 'EEXIST') return false;
    throw error;
  } finally {
    await rm(draft, { force: true });
  }
}
