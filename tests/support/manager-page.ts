/** A manager at a tablet: rules of price, a menu, a visit with a bowl, and the page signed in. */
import { randomUUID } from 'node:crypto';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { aBench, type Bench, type OpenOptions } from './bench-page.js';

export interface ManagerAtPage extends Bench {
  /** 60 g of powder and 120 ml of developer were mixed for it, 18 g were left; still open. */
  readonly visitId: string;
  /** A page signed in as Ines Cordgrass. */
  openAsManager(options?: OpenOptions): Promise<Page>;
  /** A page signed in as Marlow Teasel. */
  openAsOwner(options?: OpenOptions): Promise<Page>;
}

export const manager = { name: 'Ines Cordgrass', pin: '4444' };
const ownerAtPage = { name: 'Marlow Teasel', pin: '5555' };

/** Prices include 23 % VAT; lights are 123.00, a further bowl 10.00 net. */
export async function aManagerAtPage(): Promise<ManagerAtPage> {
  const bench = await aBench();
  const { owner } = bench.studio;
  await owner.post('/people', { ...manager, role: 'manager', kind: 'employed', hourRate: '30' });
  await owner.post('/people', { ...ownerAtPage, role: 'owner', kind: 'employed' });
  await owner.patch('/studio', {
    pricing: {
      taxes: [{ label: 'VAT', rate: '0.23' }],
      overheadPerChairMinute: '0.25',
      cardFee: { share: '0.01', fixed: '0' },
    },
  });
  const foil = await made(bench, '/products', { name: 'Foil', kind: 'sundry', unit: 'piece' });
  const opening = { productId: foil, quantity: '500', cost: '25' };
  await owner.post('/openings', { lines: [opening] });
  const serviceId = await made(bench, '/services', {
    ...{ name: 'Lights', price: '123', handsOnMinutes: 60, chairMinutes: 120 },
    kit: [{ productId: foil, quantity: '30', unit: 'piece' }],
    inThePrice: [{ kind: 'lightener', bowls: '1' }],
  });
  await glovesToOrder(bench);
  const visitId = await aVisit(bench, serviceId);
  return {
    ...bench,
    visitId,
    openAsManager: (options) => openAs(bench, manager, options),
    openAsOwner: (options) => openAs(bench, ownerAtPage, options),
  };
}

/** Whoever else is meant takes over from the stylist who is signed in. */
async function openAs(
  bench: Bench,
  { name, pin }: { name: string; pin: string },
  options: OpenOptions | undefined,
): Promise<Page> {
  const page = await bench.open(options);
  await page.getByRole('button', { name: 'Wren Tallis' }).click();
  await page.getByRole('menuitem', { name: 'Somebody else' }).click();
  await page.getByRole('button', { name }).click();
  await page.keyboard.type(pin);
  await page.keyboard.press('Enter');
  await page.getByRole('link', { name: 'Ordering' }).waitFor();
  return page;
}

async function made(bench: Bench, path: string, body: object): Promise<string> {
  return (await bench.studio.owner.post<{ id: string }>(path, body)).id;
}

/** Gloves of which two boxes of 9.00 are kept sealed and none is there. */
async function glovesToOrder(bench: Bench): Promise<void> {
  const supplierId = await made(bench, '/suppliers', {
    ...{ name: 'Causeway Supply', leadTimeDays: 3, freight: '4' },
  });
  await made(bench, '/products', {
    ...{ name: 'Gloves', kind: 'sundry', unit: 'piece', supplierId },
    packs: [{ label: 'box of 100', quantity: '100', listPrice: '9', orderCode: 'CS-1' }],
    reorder: { keepSealed: 2 },
  });
}

async function aVisit(bench: Bench, serviceId: string): Promise<string> {
  const { items: people } = await bench.studio.owner.get<{
    items: { id: string; name: string }[];
  }>('/people');
  const personId = people.find(({ name }) => name === manager.name)?.id;
  const minutesAgo = (minutes: number) => new Date(Date.now() - minutes * 60_000).toISOString();
  const visitId = await made(bench, '/visits', {
    ...{ personId, services: [{ serviceId }], startedAt: minutesAgo(3) },
  });
  const pour = (name: string, quantity: string, unit: string) => ({
    ...{ id: randomUUID(), productId: bench.products[name], quantity, unit },
    pouredAt: minutesAgo(2),
  });
  const bowl = { id: randomUUID(), visitId, purpose: 'front', sizedBy: personId };
  const plannedAt = minutesAgo(2.5);
  await bench.studio.owner.post('/bowls/record', {
    id: randomUUID(),
    bowl: { ...bowl, plannedAt },
    pours: [pour('Blonding powder', '60', 'g'), pour('Developer 20 vol', '120', 'ml')],
    settlement: {
      ...{ id: randomUUID(), leftover: { quantity: '18', unit: 'g' } },
      settledAt: minutesAgo(1),
    },
  });
  return visitId;
}

const axeFile = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const looksForFaults = `axe.run(document, { runOnly: ${JSON.stringify(rules)} }).then((found) =>
  found.violations.map(({ id, nodes: [node] }) =>
    id + ': ' + node.html + ' ' + node.failureSummary))`;

/** What axe finds against WCAG 2.2 AA on the page as it is now. */
export async function faultsOf(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: axeFile });
  return page.evaluate<string[]>(looksForFaults);
}
