/** Tablets come in over https: a root of our own, kept; page, calls, cookies, scales both ways. */
import { X509Certificate } from 'node:crypto';
import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { createServer, connect, type TlsOptions } from 'node:tls';
import { once } from 'node:events';
import {
  connect as connectPlain,
  createServer as createPlainServer,
  type AddressInfo,
} from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hearsReadings } from '../../shared/scales/wire.js';
import { ownCertificates } from '../../src/platform/https/kept-certificates.js';
import { namesOfMachine } from '../../src/platform/https/machine-names.js';
import { makeLeaf, makeRoot } from '../../src/platform/https/own-authority.js';
import { CommandLine } from '../support/command.js';
import { ScaleSocket } from '../support/scale-socket.js';
import { aStudio, type TestStudio } from '../support/studio.js';
import { askSecurely, openTabletDoor, type TestDoor } from '../support/tablet-door.js';

const dayMs = 86_400_000;
const names = ['192.168.7.20', 'till.local', 'localhost', '127.0.0.1', '::1'];

describe('certificates', () => {
  let folder: string;
  beforeEach(async () => (folder = await mkdtemp(join(tmpdir(), 'bowlworth-https-'))));
  afterEach(() => rm(folder, { recursive: true }));

  test('the leaf is what iPads ask for: names, server authentication, EC, 397 days', async () => {
    // Apple, "Requirements for trusted certificates in iOS 13 and macOS 10.15" (HT210176);
    // 398 days: CA/Browser Forum, Baseline Requirements 6.3.2
    const { leaf, rootCert } = await ownCertificates(folder, names, Date.now());
    const cert = new X509Certificate(leaf.cert);
    expect(names.map((name) => cert.checkHost(name) ?? cert.checkIP(name))).toEqual(names);
    expect(cert.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1']); // id-kp-serverAuth, RFC 5280, 4.2.1.12
    expect(cert.ca).toBe(false);
    expect(cert.publicKey.asymmetricKeyDetails).toEqual({ namedCurve: 'prime256v1' });
    const days = (Date.parse(cert.validTo) - Date.parse(cert.validFrom)) / dayMs;
    expect(days).toBeLessThanOrEqual(397);
    expect(days).toBeGreaterThan(390);
    expect(new X509Certificate(rootCert).ca).toBe(true);
  });

  test('both are kept, for their owner only; the leaf is made anew, the root is not', async () => {
    const now = Date.now();
    const first = await ownCertificates(folder, names, now);
    for (const file of ['root.pem', 'this-computer.pem']) {
      expect((await stat(join(folder, file))).mode & 0o777).toBe(0o600);
    }
    expect(await ownCertificates(folder, names, now + 300 * dayMs)).toEqual(first);
    const moved = await ownCertificates(folder, ['192.168.7.99', 'localhost'], now);
    expect(moved.leaf).not.toEqual(first.leaf);
    expect(new X509Certificate(moved.leaf.cert).checkIP('192.168.7.20')).toBeUndefined();
    const later = await ownCertificates(folder, ['192.168.7.99', 'localhost'], now + 370 * dayMs);
    expect(later.leaf).not.toEqual(moved.leaf);
    expect([moved.rootCert, later.rootCert]).toEqual([first.rootCert, first.rootCert]);
    const years = await ownCertificates(folder, names, now + 3300 * dayMs);
    expect(years.rootCert).not.toBe(first.rootCert);
  });

  test('two services that start at once keep one root', async () => {
    const both = await Promise.all([1, 2].map(() => ownCertificates(folder, names, Date.now())));
    const kept = await readFile(join(folder, 'root.pem'), 'utf8');
    for (const { rootCert } of both) expect(kept).toContain(rootCert.trim());
  });

  test('a damaged root is told with its file and not replaced by itself', async () => {
    const file = join(folder, 'root.pem');
    await writeFile(file, '-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n');
    await expect(ownCertificates(folder, names, Date.now())).rejects.toThrow(
      /root\.pem holds no key with its certificate any more\. Restore it .* or delete it/,
    );
    expect(await readFile(file, 'utf8')).toContain('AAAA');
  });

  /** What a TLS client that trusts the root only says about a server of this leaf. */
  async function handshake(shown: TlsOptions, root: string, servername: string): Promise<string> {
    const server = createServer(shown, (socket) => socket.end());
    server.on('tlsClientError', () => undefined);
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    const { port } = server.address() as AddressInfo;
    const said = await new Promise<string>((done) => {
      const socket = connect({ host: '127.0.0.1', port, servername, ca: root }, () => {
        done('trusted');
        socket.end();
      });
      socket.on('error', ({ message }: Error) => done(message));
    });
    server.close();
    await once(server, 'close');
    return said;
  }

  test('the root vouches for private addresses, and for no page of the internet', async () => {
    const root = await makeRoot('Bowlworth of a test', Date.now());
    const said = async (name: string) =>
      handshake(await makeLeaf(root, [name], Date.now()), root.cert, name);
    expect(await said('till.local')).toBe('trusted');
    // X509_V_ERR_PERMITTED_VIOLATION; the name is reserved for examples by RFC 2606
    expect(await said('www.example.com')).toBe('permitted subtree violation');
    const other = await makeRoot('Somebody else', Date.now());
    const leaf = await makeLeaf(root, ['till.local'], Date.now());
    expect(await handshake(leaf, other.cert, 'till.local')).toMatch(/unable to verify|signature/);
  });

  test('names are those that a tablet in the same network can use, its own last', () => {
    const at = (address: string, internal = false) => {
      const family = address.includes(':') ? ('IPv6' as const) : ('IPv4' as const);
      const rest = { netmask: '', mac: '', cidr: null, internal };
      return family === 'IPv6'
        ? { ...rest, address, family, scopeid: 0 }
        : { ...rest, address, family };
    };
    const interfaces = {
      docker0: [at('172.17.0.1')],
      lo: [at('127.0.0.1', true), at('::1', true)],
      wlan0: [at('fe80::1'), at('fd12::7'), at('192.168.7.20'), at('203.0.113.9')],
    };
    expect(namesOfMachine(interfaces, 'Till')).toEqual([
      ...['192.168.7.20', 'fd12::7', '172.17.0.1', 'till.local'],
      ...['localhost', '127.0.0.1', '::1'],
    ]);
    expect(namesOfMachine({}, 'till.example.com')).toEqual(['localhost', '127.0.0.1', '::1']);
  });
});

describe('at the door', () => {
  let studio: TestStudio;
  let door: TestDoor;
  beforeAll(async () => {
    studio = await aStudio();
    door = await openTabletDoor(studio.service);
  });
  afterAll(async () => {
    await door.close();
    await studio.close();
  });

  async function aToken(role: string, benchId?: string): Promise<string> {
    const request = { name: 'Tablet', role, ...(benchId === undefined ? {} : { benchId }) };
    return (await studio.owner.post<{ token: string }>('/tokens', request)).token;
  }

  test('a client that trusts the root is answered; one that does not hangs up', async () => {
    const live = await askSecurely(door, '/health/live');
    expect(live).toMatchObject({ status: 200, body: '{"status":"up"}' });
    const other = await makeRoot('Somebody else', Date.now());
    await expect(
      askSecurely({ port: door.port, root: other.cert }, '/health/live'),
    ).rejects.toThrow(/unable to verify|signature/);
  });

  test('calls work, and what a browser keeps travels over https only', async () => {
    const token = await aToken('bench');
    const kept = await askSecurely(door, '/api/v1/session/device', {
      method: 'PUT',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ token }),
    });
    expect(kept.status).toBe(200);
    const [cookie = ''] = kept.headers['set-cookie'] ?? [];
    // RFC 6265bis, 4.1.3.2: such a name is taken with Secure and Path=/ only
    expect(cookie).toMatch(/^__Host-bowlworth_device=/);
    for (const part of ['Secure', 'HttpOnly', 'SameSite=Strict', 'Path=/']) {
      expect(cookie.split('; ')).toContain(part);
    }
    const headers = { Cookie: cookie.split(';')[0] ?? '' };
    const session = await askSecurely(door, '/api/v1/session', { headers });
    expect(JSON.parse(session.body)).toMatchObject({ role: 'bench', person: null });
    // without https it is the plain cookie, as before
    const plain = await studio.service.nobody.with('').ask('PUT', '/session/device', { token });
    expect(plain.headers['set-cookie']).toMatch(/^bowlworth_device=(?!.*Secure)/);
  });

  test('a scale is heard over wss, by a page of the same address only', async () => {
    const bench = await studio.owner.post<{ id: string }>('/benches', { name: 'Window' });
    const Authorization = `Bearer ${await aToken('bench', bench.id)}`;
    const url = `wss://127.0.0.1:${door.port}/api/v1/scales/${bench.id}`;
    const Origin = `https://127.0.0.1:${door.port}`;
    const tls = { ca: door.root };
    const heard = await ScaleSocket.open(url, hearsReadings, { Authorization, Origin }, tls);
    expect(await heard.until(({ type }) => type === 'lost')).toMatchObject({ type: 'lost' });
    await heard.close();
    const foreign = { Authorization, Origin: 'https://127.0.0.1:1' };
    await expect(ScaleSocket.open(url, hearsReadings, foreign, tls)).rejects.toThrow(/^403/);
  });

  test('plain http at that port tells how to trust it, and does nothing else', async () => {
    const plain = (path: string, options: RequestInit = {}) =>
      fetch(`http://127.0.0.1:${door.port}${path}`, { redirect: 'manual', ...options });
    const root = await plain('/root-certificate.crt');
    expect(root.headers.get('content-type')).toBe('application/x-x509-ca-cert');
    const bytes = new Uint8Array(await root.arrayBuffer());
    expect(new X509Certificate(bytes).fingerprint256).toBe(
      new X509Certificate(door.root).fingerprint256,
    );
    expect(await (await plain('/tablets.json')).json()).toEqual({
      urls: [`https://localhost:${door.port}`],
      rootFingerprint: new X509Certificate(door.root).fingerprint256,
    });
    for (const path of ['/api/v1/session', '/api', '/assets/../api', '/health/live']) {
      const refused = await plain(path);
      expect([refused.status, refused.headers.get('location')]).toEqual([307, '/']);
    }
    const sent = await plain('/tablets.json', { method: 'POST', body: '{}' });
    expect(sent.status).toBe(307);
  });

  test('noise instead of a conversation leaves the door open', async () => {
    for (const first of [0x16, 0x47]) {
      const response = fetch(`http://127.0.0.1:${door.port}/`).catch(() => undefined);
      const socket = connectPlain(door.port, '127.0.0.1', () => {
        socket.write(Uint8Array.of(first, 3, 1, 255, 255, 0, 0, 9));
        socket.resetAndDestroy();
      });
      await once(socket, 'close');
      await response;
    }
    expect((await askSecurely(door, '/health/live')).status).toBe(200);
  });
});

test('serve tells both addresses; a taken port for https is no reason not to serve', async () => {
  const line = await CommandLine.inNewFolder();
  const other = createPlainServer().listen(0, '127.0.0.1');
  await once(other, 'listening');
  const { port: taken } = other.address() as AddressInfo;
  const BOWLWORTH_HOST = '127.0.0.1';
  try {
    const asked = { BOWLWORTH_HOST, BOWLWORTH_HTTPS_PORT: `${taken}` };
    await expect(line.serve(asked)).rejects.toThrow(
      `Port ${taken}, for https, is taken. Stop what listens there, or set BOWLWORTH_HTTPS_PORT.`,
    );
    const without = await line.serve({ BOWLWORTH_HOST, PORT: `${taken - 363}` });
    const said = await without.stop('SIGINT');
    expect(JSON.parse(said.out)).toMatchObject({ tablets: [], rootFingerprint: null });
    expect(said.err).toMatch(/^No https for tablets\. Port \d+, for https, is taken\./);
    const both = await line.serve({ BOWLWORTH_HOST });
    const { tablets } = JSON.parse((await both.stop('SIGINT')).out) as { tablets: string[] };
    expect(tablets).toEqual([expect.stringMatching(/^https:\/\/localhost:\d+$/)]);
  } finally {
    other.close();
    await line.remove();
  }
}, 120_000);
