/** What the page about trusting our certificate needs: the root to download, and the addresses. */
import { X509Certificate } from 'node:crypto';
import type { FastifyInstance } from 'fastify';

/** How tablets come in over https. */
export interface WayForTablets {
  /** The likeliest first: "https://192.168.1.20:4543". */
  readonly urls: readonly string[];
  /** Certificate of the root, in PEM. */
  readonly rootCert: string;
  readonly rootFingerprint: string;
}

/** Where it is known how tablets come in, as soon as they can. */
export class Tablets {
  way: WayForTablets | undefined;
}

/** The page that says how to trust it; built with all others. */
export const trustPage = '/trust.html';

/** What is served over plain http too, to a tablet that does not trust us yet. */
const forEverybody = /^\/(trust\.html|tablets\.json|root-certificate\.crt|beam\.svg|assets\/.*)$/;

/** Serves addresses and root. Both may be known to everybody. */
export function serveTrust(server: FastifyInstance, tablets: Tablets): void {
  server.get('/tablets.json', (_, reply) => {
    const { urls = [], rootFingerprint = null } = tablets.way ?? {};
    return reply.header('Cache-Control', 'no-store').send({ urls, rootFingerprint });
  });
  server.get('/root-certificate.crt', (_, reply) => {
    if (!tablets.way) return reply.status(404).send();
    return reply
      .header('Cache-Control', 'no-store')
      .header('Content-Disposition', 'attachment; filename="bowlworth-root.crt"')
      .type('application/x-x509-ca-cert')
      .send(new X509Certificate(tablets.way.rootCert).raw);
  });
}

/** Where plain http at the door for tablets leads to: only to the page about trust. */
export function pathOverPlain(url: string): string | undefined {
  const [path = ''] = url.split('?');
  if (path === '/') return trustPage;
  return forEverybody.test(path) ? path : undefined;
}
