/** Recording bowls over HTTP beside the same rows written by one bare SQL function. */
import { randomUUID } from 'node:crypto';
import { Agent, request } from 'node:http';
import { load, type Load } from './load.js';
import type { MeasuredStudio } from './studio.js';
import { table } from './table.js';

const seconds = 4;
const agent = new Agent({ keepAlive: true, maxSockets: 32 });

/** Prints bowls a second and p99 for 1, 4, 8 and 16 clients, many products and one hot product. */
export async function run(studio: MeasuredStudio): Promise<void> {
  const rows: string[][] = [];
  for (const [name, hot] of [
    ['many products', false],
    ['one hot product', true],
  ] as const) {
    for (const clients of [1, 4, 8, 16]) {
      const bare = await load(clients, seconds, () => bareBowl(studio, hot));
      const framework = await load(clients, seconds, () => post(studio, '/bare-bowls', hot));
      const service = await load(clients, seconds, () => recordBowl(studio, hot));
      rows.push(rowOf(name, clients, bare, framework, service));
    }
  }
  table(
    'Record a bowl (3 pours, settlement)',
    ['load', 'clients', 'bare/s', 'service/s', 'share', 'p99 ms', 'p99 / framework+bare'],
    rows,
  );
}

function rowOf(name: string, clients: number, bare: Load, framework: Load, service: Load) {
  return [
    name,
    `${clients}`,
    bare.perSecond.toFixed(0),
    service.perSecond.toFixed(0),
    `${((100 * service.perSecond) / bare.perSecond).toFixed(0)} %`,
    service.p99.toFixed(1),
    (service.p99 / framework.p99).toFixed(2),
  ];
}

const quantities = ['30', '36', '24'];

function someProducts({ products }: MeasuredStudio, hot: boolean): string[] {
  const any = () => Math.floor(Math.random() * (products.length - 1)) + 1;
  const chosen = new Set<string>(hot ? [products[2] as string] : []);
  while (chosen.size < 3) chosen.add(products[any()] as string);
  return [...chosen];
}

/** One bowl by the bare function. */
export async function bareBowl(studio: MeasuredStudio, hot: boolean): Promise<void> {
  await studio.pool.query({
    name: 'bare_bowl',
    text: 'select bare_bowl($1, $2, $3, $4)',
    values: [randomUUID(), someProducts(studio, hot), quantities, '0.1'],
  });
}

/** One bowl over HTTP. */
export function recordBowl(studio: MeasuredStudio, hot: boolean): Promise<void> {
  return post(studio, '/api/v1/bowls/record', hot);
}

async function post(studio: MeasuredStudio, path: string, hot: boolean): Promise<void> {
  const at = new Date().toISOString();
  const body = JSON.stringify({
    id: randomUUID(),
    bowl: { id: randomUUID(), purpose: 'bench' },
    pours: someProducts(studio, hot).map((productId, index) => ({
      id: randomUUID(),
      productId,
      quantity: quantities[index],
      unit: 'g',
      pouredAt: at,
    })),
    settlement: { id: randomUUID(), leftover: { quantity: '9', unit: 'g' }, settledAt: at },
  });
  await send(`${studio.url}${path}`, studio.token, body);
}

function send(url: string, token: string, body: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const sent = request(
      url,
      {
        method: 'POST',
        agent,
        headers: {
          authorization: `Bearer ${token}`,
          'content-type': 'application/json',
          'content-length': Buffer.byteLength(body),
        },
      },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('end', () => {
          if (response.statusCode === 201) resolve();
          else reject(new Error(`${response.statusCode}: ${Buffer.concat(parts).toString()}`));
        });
      },
    );
    sent.on('error', reject);
    sent.end(body);
  });
}
