/** Https for tablets on a test's service, and a TLS client that trusts nothing but its root. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { request } from 'node:https';
import type { IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pino from 'pino';
import { SystemClock } from '../../src/platform/clock.js';
import { openForTablets } from '../../src/platform/https/for-tablets.js';
import { readSettings } from '../../src/platform/settings.js';
import { ScalesGateway } from '../../src/studio/scales/scales.gateway.js';
import type { TestService } from './studio.js';

export interface TestDoor {
  readonly port: number;
  /** Certificate of the root, in PEM. */
  readonly root: string;
  /** The certificate that is shown, in PEM. */
  readonly leaf: string;
  close(): Promise<void>;
}

/** Opens it beside the service, for localhost only. */
export async function openTabletDoor(service: TestService): Promise<TestDoor> {
  const folder = await mkdtemp(join(tmpdir(), 'bowlworth-https-'));
  const environment = { BOWLWORTH_DATA: folder, BOWLWORTH_HOST: '127.0.0.1', PORT: '0' };
  const door = await openForTablets(service.app.getHttpAdapter().getInstance(), {
    settings: readSettings(environment),
    clock: new SystemClock(), // a TLS client goes by the machine's clock
    log: pino({ level: 'silent' }),
    tablets: service.tablets,
  });
  if (!door) throw new Error('There is no door.');
  service.app.get(ScalesGateway).listenOn(door.server);
  return {
    port: door.port,
    root: service.tablets.way?.rootCert ?? '',
    leaf: await readFile(join(folder, 'https', 'this-computer.pem'), 'utf8'),
    close: async () => {
      await door.close();
      await rm(folder, { recursive: true });
    },
  };
}

export interface SecureAnswer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** Asks over https. @throws the TLS error where the certificate is not believed */
export function askSecurely(
  { port, root }: Pick<TestDoor, 'port' | 'root'>,
  path: string,
  options: { method?: string; headers?: Record<string, string>; body?: string } = {},
): Promise<SecureAnswer> {
  const { method = 'GET', headers = {}, body } = options;
  return new Promise((done, fail) => {
    const asked = request(
      { host: '127.0.0.1', port, path, method, headers, ca: root, agent: false },
      (answer) => {
        let text = '';
        answer.on('data', (more: Buffer) => (text += more.toString()));
        answer.on('end', () =>
          done({ status: answer.statusCode ?? 0, headers: answer.headers, body: text }),
        );
      },
    );
    asked.on('error', fail);
    asked.end(body);
  });
}
