/** Lets tablets in over https: certificates, the door, and both anew when addresses change. */
import { hostname, networkInterfaces } from 'node:os';
import { join, resolve } from 'node:path';
import type { FastifyInstance } from 'fastify';
import type { Logger } from 'pino';
import type { Clock } from '../clock.js';
import { httpsPortBeside, type Settings } from '../settings.js';
import { openHttpsDoor, type Answerer, type HttpsDoor } from './https-door.js';
import { ownCertificates } from './kept-certificates.js';
import { isPrivate, isThisMachine, namesOfMachine } from './machine-names.js';
import { pathOverPlain, type Tablets } from './trust-files.js';

const lookAgainMs = 60_000;
const mostAddresses = 3;

export interface TabletParts {
  readonly settings: Settings;
  readonly clock: Clock;
  readonly log: Logger;
  readonly tablets: Tablets;
  /** Names and addresses of the machine now; its own unless told. */
  readonly names?: () => readonly string[];
}

/**
 * Opens https for tablets, unless a certificate was given or the settings say off.
 * @returns undefined where it is off
 * @throws Error with a sentence where the port is taken or the certificate cannot be kept
 */
export async function openForTablets(
  server: FastifyInstance,
  parts: TabletParts,
): Promise<HttpsDoor | undefined> {
  const { settings, tablets, clock } = parts;
  const { port: main, httpsPort } = settings;
  if (httpsPort === 'off' || settings.tlsCertificateFile !== undefined) return undefined;
  const names = parts.names ?? (() => namesNow(settings.httpsHost));
  const folder = join(resolve(settings.dataFolder), 'https');
  let own = await ownCertificates(folder, names(), clock.millis());
  const port = httpsPort === 'beside' ? httpsPortBeside(main) : httpsPort;
  const answer: Answerer = (request, response) => server.routing(request, response);
  const door = await openHttpsDoor({
    ...{ port, host: settings.httpsHost, shown: own.leaf },
    ...{ secure: answer, plain: explaining(answer) },
  }).catch((error: unknown) => {
    throw taken(error, port);
  });
  const tell = () => {
    const urls = addressesFor(own.names).map((name) => `https://${inUrl(name)}:${door.port}`);
    tablets.way = { urls, rootCert: own.rootCert, rootFingerprint: own.rootFingerprint };
  };
  tell();
  const lookAgain = async () => {
    const current = names();
    const same = current.length === own.names.length && current.every((n) => own.names.includes(n));
    if (same && own.renewAtMs > clock.millis()) return;
    own = await ownCertificates(folder, current, clock.millis());
    door.show(own.leaf);
    tell();
  };
  const looking = setInterval(() => {
    lookAgain().catch((error: unknown) => parts.log.error({ err: error }, 'no new certificate'));
  }, lookAgainMs);
  looking.unref();
  return {
    ...door,
    close: () => {
      clearInterval(looking);
      tablets.way = undefined;
      return door.close();
    },
  };
}

/** Where the service listens on one address only, the certificate is for that one. */
function namesNow(host: string | undefined): string[] {
  const names = namesOfMachine(networkInterfaces(), hostname());
  if (host === undefined || host === '0.0.0.0' || host === '::') return names;
  const own = names.filter(isThisMachine);
  return isThisMachine(host) || !isPrivate(host) ? own : [host, ...own];
}

/** What a person may be told to type: a few, the likeliest first. */
function addressesFor(names: readonly string[]): string[] {
  const outside = names.filter((name) => !isThisMachine(name));
  return (outside.length > 0 ? outside : ['localhost']).slice(0, mostAddresses);
}

function inUrl(name: string): string {
  return name.includes(':') ? `[${name}]` : name;
}

/** Over plain http only the page about trust; everything else leads there. */
function explaining(answer: Answerer): Answerer {
  return (request, response) => {
    const path = pathOverPlain(request.url ?? '');
    if (path === undefined || !['GET', 'HEAD'].includes(request.method ?? '')) {
      response.writeHead(307, { Location: '/' }).end();
      return;
    }
    request.url = path;
    answer(request, response);
  };
}

function taken(error: unknown, port: number): unknown {
  if ((error as { code?: string }).code !== 'EADDRINUSE') return error;
  return new Error(
    `Port ${port}, for https, is taken. Stop what listens there, or set BOWLWORTH_HTTPS_PORT.`,
  );
}
