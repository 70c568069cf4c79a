/** Makes certificates: a root of this installation's own, and one for this machine signed by it. */
import 'reflect-metadata';
import { webcrypto } from 'node:crypto';
import { isIP } from 'node:net';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import { dateFrom } from '../clock.js';
import { privateDomains, privateRanges } from './machine-names.js';

/** A certificate and its private key, both in PEM. */
export interface KeyedCertificate {
  readonly cert: string;
  readonly key: string;
}

const dayMs = 86_400_000;
const rootDays = 3650;
/** With the day before now: 397, as browsers want it; iPads take no more than 825. */
const leafDays = 396;

// ECDSA on P-256 with SHA-256: what every tablet of the last ten years takes
const keyKind = { name: 'ECDSA', namedCurve: 'P-256' };
const signing = { name: 'ECDSA', hash: 'SHA-256' };

/**
 * Makes a root that vouches for addresses of private networks only (RFC 5280, 4.2.1.10), so that
 * whoever gets hold of its key can play no page of the internet.
 * @param name told on the device that trusts it
 */
export async function makeRoot(name: string, nowMs: number): Promise<KeyedCertificate> {
  const keys = await newKeys();
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    name: [{ CN: [name] }],
    keys,
    signingAlgorithm: signing,
    ...validFor(nowMs, rootDays),
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(
        x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign,
        true,
      ),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      onlyPrivateNames(),
    ],
  });
  return { cert: cert.toString('pem'), key: await pemOf(keys.privateKey) };
}

/** Makes a certificate for these names and addresses, signed by the root. */
export async function makeLeaf(
  root: KeyedCertificate,
  names: readonly string[],
  nowMs: number,
): Promise<KeyedCertificate> {
  const keys = await newKeys();
  const issuer = new x509.X509Certificate(root.cert);
  const signingKey = await importKey(root.key);
  const cert = await x509.X509CertificateGenerator.create({
    subject: [{ CN: ['Bowlworth, this computer'] }],
    issuer: issuer.subjectName,
    publicKey: keys.publicKey,
    signingKey,
    signingAlgorithm: signing,
    ...validFor(nowMs, leafDays),
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(
        names.map((value) => ({ type: isIP(value) ? ('ip' as const) : ('dns' as const), value })),
      ),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
    ],
  });
  return { cert: cert.toString('pem'), key: await pemOf(keys.privateKey) };
}

function onlyPrivateNames(): x509.Extension {
  const domains = privateDomains.map((dNSName) => new GeneralName({ dNSName }));
  const ranges = privateRanges.map(
    ([address, bits]) => new GeneralName({ iPAddress: `${address}/${bits}` }),
  );
  const permittedSubtrees = new GeneralSubtrees(
    [...domains, ...ranges].map((base) => new GeneralSubtree({ base })),
  );
  const value = AsnConvert.serialize(new NameConstraints({ permittedSubtrees }));
  return new x509.Extension(id_ce_nameConstraints, true, value);
}

/** From a day before now: a tablet's clock may be behind. */
function validFor(nowMs: number, days: number): { notBefore: Date; notAfter: Date } {
  return { notBefore: dateFrom(nowMs - dayMs), notAfter: dateFrom(nowMs + days * dayMs) };
}

function newKeys(): Promise<webcrypto.CryptoKeyPair> {
  return webcrypto.subtle.generateKey(keyKind, true, ['sign', 'verify']);
}

function importKey(pem: string): Promise<webcrypto.CryptoKey> {
  const [der] = x509.PemConverter.decode(pem);
  if (der === undefined) throw new Error('There is no private key in the PEM text.');
  return webcrypto.subtle.importKey('pkcs8', der, keyKind, false, ['sign']);
}

async function pemOf(key: webcrypto.CryptoKey): Promise<string> {
  const der = await webcrypto.subtle.exportKey('pkcs8', key);
  return x509.PemConverter.encode(der, 'PRIVATE KEY');
}
