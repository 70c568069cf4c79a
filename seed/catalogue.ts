/** What the files of Saltmarsh Row say, as the story needs it: by name, with fixed ids. */
import type { StockUnit } from '../shared/amount.js';
import type { InThePriceItem } from '../shared/contract/catalogue.js';
import { planFromCells, type PlanCells } from '../src/command-line/import/plan-text.js';
import { partsOf, ProductFinder } from '../src/command-line/import/product-finder.js';
import { readRequest } from '../src/platform/http/request-pipe.js';
import { MixPlanRequest } from '../src/studio/bowls/mix-plan.requests.js';
import { cell, figure, linesOf } from './files.js';
import { idOf } from './ids.js';

export interface DemoProduct {
  readonly id: string;
  readonly name: string;
  readonly line: string;
  readonly kind: string;
  readonly unit: StockUnit;
  readonly supplier: string;
  readonly pack: string;
  /** What a pack holds, in the unit. */
  readonly packHolds: number;
  readonly listPrice: number;
  /** What one pump holds, in the unit; 0 where there is none. */
  readonly dose: number;
  readonly openingPacks: number;
  /** Months that a delivered pack keeps, from and to; 0 where it does not spoil. */
  readonly keeps: readonly [number, number];
}

export interface DemoPerson {
  readonly id: string;
  readonly name: string;
  readonly role: 'owner' | 'manager' | 'stylist';
  readonly pin: string;
  readonly visitsShare: number;
  /** How much more than needed the person mixes, and how evenly. */
  readonly overmix: number;
  readonly scatter: number;
}

export interface KitPart {
  readonly productId: string;
  readonly quantity: string;
  readonly unit: StockUnit;
}

export interface DemoService {
  readonly id: string;
  readonly name: string;
  readonly price: number;
  readonly handsOn: number;
  readonly chair: number;
  readonly kit: readonly KitPart[];
  /** Numbers of bowls by kind. */
  readonly inThePrice: readonly InThePriceItem[];
  readonly share: number;
  readonly yearly: number;
  readonly steps: readonly DemoStep[];
}

/** One bowl of a service: how often it is mixed, and in which ways. */
export interface DemoStep {
  readonly chance: number;
  readonly variants: readonly DemoVariant[];
}

export interface DemoVariant {
  readonly name: string;
  readonly weight: number;
  readonly yearly: number;
  readonly purpose: string;
  /** Of its powder or cream side. */
  readonly kind: string;
  readonly contact: 'scalp' | 'off-scalp';
  /** What medium hair of medium density takes, in g. */
  readonly grams: number;
  readonly minutes: number;
  /** The plan as JSON, and as it is read; its size is that of `grams`. */
  readonly plan: Readonly<Record<string, unknown>>;
  readonly asked: MixPlanRequest;
}

export interface DemoSupplier {
  readonly id: string;
  readonly name: string;
  readonly leadDays: number;
  readonly minimum: number;
  readonly freight: number;
  readonly freeFreightFrom: number;
  readonly orderDay: number;
}

export interface DemoVessel {
  readonly id: string;
  readonly label: string;
  readonly mark: string;
  readonly tare: string;
  readonly brush: string;
}

export interface DemoClient {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly hairLength: string;
  readonly hairDensity: string;
}

export interface Catalogue {
  readonly products: readonly DemoProduct[];
  readonly people: readonly DemoPerson[];
  readonly services: readonly DemoService[];
  readonly suppliers: readonly DemoSupplier[];
  readonly vessels: readonly DemoVessel[];
  readonly clients: readonly DemoClient[];
}

/** Reads every file. */
export function readCatalogue(): Catalogue {
  const products = readProducts();
  const finder = new ProductFinder(
    products.map(({ id, name, line, unit }) => ({ id, name, line, unit, retired: false })),
  );
  return {
    products,
    people: linesOf('people.csv').map(personOf),
    services: readServices(finder, new Map(products.map(({ id, kind }) => [id, kind]))),
    suppliers: linesOf('suppliers.csv').map((line) => ({
      id: idOf('supplier', cell(line, 'name')),
      name: cell(line, 'name'),
      leadDays: figure(line, 'lead_time_days'),
      minimum: figure(line, 'minimum_order'),
      freight: figure(line, 'freight'),
      freeFreightFrom: figure(line, 'free_freight_from'),
      orderDay: figure(line, 'order_day'),
    })),
    vessels: linesOf('vessels.csv').map((line) => ({
      id: idOf('vessel', cell(line, 'label')),
      label: cell(line, 'label'),
      mark: cell(line, 'mark'),
      tare: cell(line, 'tare_g'),
      brush: cell(line, 'brush_g'),
    })),
    clients: linesOf('clients.csv').map((line) => ({
      id: idOf('client', cell(line, 'number')),
      number: figure(line, 'number'),
      name: cell(line, 'name'),
      hairLength: cell(line, 'hair_length'),
      hairDensity: cell(line, 'hair_density'),
    })),
  };
}

function readProducts(): DemoProduct[] {
  const stocking = new Map(linesOf('stocking.csv').map((line) => [cell(line, 'product'), line]));
  return linesOf('products.csv').map((line) => {
    const name = cell(line, 'name');
    const stock = stocking.get(name) ?? {};
    return {
      id: idOf('product', name),
      name,
      line: cell(line, 'line'),
      kind: cell(line, 'kind'),
      unit: cell(line, 'unit') as StockUnit,
      supplier: cell(line, 'supplier'),
      pack: cell(line, 'pack'),
      packHolds: figure(line, 'pack_quantity'),
      listPrice: figure(line, 'list_price'),
      dose: figure(line, 'dose'),
      openingPacks: figure(stock, 'opening_packs'),
      keeps: [figure(stock, 'keeps_months_from'), figure(stock, 'keeps_months_to')],
    };
  });
}

function personOf(line: Record<string, string>): DemoPerson {
  return {
    id: idOf('person', cell(line, 'name')),
    name: cell(line, 'name'),
    role: cell(line, 'role') as DemoPerson['role'],
    pin: cell(line, 'pin'),
    visitsShare: figure(line, 'visits_share'),
    overmix: figure(line, 'overmix'),
    scatter: figure(line, 'scatter'),
  };
}

function readServices(finder: ProductFinder, kinds: ReadonlyMap<string, string>): DemoService[] {
  const demand = new Map(linesOf('demand.csv').map((line) => [cell(line, 'service'), line]));
  const recipes = linesOf('recipes.csv');
  return linesOf('services.csv').map((line) => {
    const name = cell(line, 'name');
    const wanted = demand.get(name) ?? {};
    const own = recipes.filter((recipe) => cell(recipe, 'service') === name);
    const steps = [...new Set(own.map((recipe) => cell(recipe, 'step')))];
    return {
      id: idOf('service', name),
      name,
      price: figure(line, 'price'),
      handsOn: figure(line, 'hands_on_minutes'),
      chair: figure(line, 'chair_minutes'),
      kit: partsOf(cell(line, 'kit')).map((part) => kitPart(part, finder)),
      inThePrice: partsOf(cell(line, 'in_the_price')).map(bowlsWithin),
      share: figure(wanted, 'share'),
      yearly: figure(wanted, 'yearly'),
      steps: steps.map((step) => {
        const same = own.filter((recipe) => cell(recipe, 'step') === step);
        const chance = figure(same[0] ?? {}, 'chance');
        return { chance, variants: same.map((recipe) => variantOf(recipe, finder, kinds)) };
      }),
    };
  });
}

function kitPart(text: string, finder: ProductFinder): KitPart {
  const [, name = '', quantity = ''] = /^(.*) x ([\d.]+)$/.exec(text) ?? [];
  const product = finder.find(name);
  if (typeof product === 'string') throw new Error(product);
  return { productId: product.id, quantity, unit: product.unit };
}

function bowlsWithin(text: string): InThePriceItem {
  const [, kind = '', bowls = ''] = /^(\w+) (\d+) bowls?$/.exec(text) ?? [];
  return { kind: kind as InThePriceItem['kind'], bowls };
}

function variantOf(
  line: Record<string, string>,
  finder: ProductFinder,
  kinds: ReadonlyMap<string, string>,
): DemoVariant {
  const filled = Object.entries(line).filter(([, text]) => text !== '');
  const plan = planFromCells(
    Object.fromEntries(filled) as unknown as PlanCells,
    finder,
    (_, why) => {
      throw new Error(`recipes.csv: ${why}`);
    },
  );
  const asked = readRequest(MixPlanRequest, plan);
  return {
    name: cell(line, 'variant'),
    weight: figure(line, 'weight'),
    yearly: figure(line, 'yearly'),
    purpose: cell(line, 'purpose'),
    kind: kinds.get(asked.powders[0]?.productId ?? '') ?? '',
    contact: cell(line, 'contact') as DemoVariant['contact'],
    grams: parseInt(cell(line, 'size'), 10),
    minutes: figure(line, 'minutes'),
    plan,
    asked,
  };
}
