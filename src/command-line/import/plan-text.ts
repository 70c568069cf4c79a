/** The plan of a formula in the words of a file's cells, read and written. */
import type { FormulaPlan } from '../../studio/catalogue/formula-plan.js';
import { between, partsOf, type ProductFinder } from './product-finder.js';

/** The cells of a line that make up a plan. */
export interface PlanCells {
  readonly ratio?: string | undefined;
  readonly basis?: string | undefined;
  readonly powders: string;
  readonly strength?: string | undefined;
  readonly developers?: string | undefined;
  readonly additives?: string | undefined;
  readonly size: string;
  readonly contact?: string | undefined;
}

/** Told of a cell that cannot be read. */
type Refuse = (column: keyof PlanCells, detail: string) => void;

type Fields = Record<string, unknown>;

/**
 * A request to plan a mix from cells: powders and developers "Shade 6 x 2 | Shade 7", additives
 * "Drops 2 % of powder | Drops 3 g | Drops 1 dose per 30 g", size "60 g" or "60 g developer".
 */
export function planFromCells(
  cells: PlanCells,
  products: ProductFinder,
  refuse: Refuse,
): FormulaPlan {
  const shares = (column: 'powders' | 'developers') =>
    partsOf(cells[column] ?? '').flatMap((part) => {
      const [, name = part, share] = /^(.*\S)\s+x\s+(\d+(?:\.\d+)?)$/i.exec(part) ?? [];
      const product = products.find(name);
      if (typeof product !== 'string') return [{ productId: product.id, ...(share && { share }) }];
      refuse(column, product);
      return [];
    });
  const additives = partsOf(cells.additives ?? '').flatMap((part) =>
    additiveFrom(part, products, (detail) => refuse('additives', detail)),
  );
  const size = sizeFrom(cells.size, (detail) => refuse('size', detail));
  const developers = shares('developers');
  return {
    ...(cells.ratio === undefined ? {} : { ratio: cells.ratio }),
    ...(cells.basis === undefined ? {} : { basis: cells.basis }),
    powders: shares('powders'),
    ...(cells.strength === undefined ? {} : { strength: cells.strength }),
    ...(developers.length > 0 ? { developers } : {}),
    ...(additives.length > 0 ? { additives } : {}),
    size,
    ...(cells.contact === undefined ? {} : { contact: cells.contact }),
  };
}

const number = String.raw`(\d+(?:\.\d+)?)`;
const additiveWays = [
  {
    way: new RegExp(String.raw`^(.*\S)\s+${number}\s*%\s+of\s+(powder|developer|total)$`, 'i'),
    fields: ([percent, of]: string[]): Fields => ({ of: of?.toLowerCase(), percent }),
  },
  {
    way: new RegExp(String.raw`^(.*\S)\s+1\s+dose\s+per\s+${number}\s*g$`, 'i'),
    fields: ([dosesPer]: string[]): Fields => ({ dosesPer }),
  },
  {
    way: new RegExp(String.raw`^(.*\S)\s+${number}\s*g$`, 'i'),
    fields: ([grams]: string[]): Fields => ({ grams }),
  },
];

function additiveFrom(
  part: string,
  products: ProductFinder,
  refuse: (detail: string) => void,
): Fields[] {
  const counted = /\s+counted$/i.test(part);
  const text = part.replace(/\s+counted$/i, '');
  for (const { way, fields } of additiveWays) {
    const [, name, ...figures] = way.exec(text) ?? [];
    if (name === undefined) continue;
    const product = products.find(name);
    if (typeof product === 'string') {
      refuse(product);
      return [];
    }
    return [{ productId: product.id, ...fields(figures), ...(counted ? { counted } : {}) }];
  }
  refuse(`"${part}" says no amount. Write 3 g, 2 % of powder, or 1 dose per 30 g behind the name.`);
  return [];
}

function sizeFrom(text: string, refuse: (detail: string) => void): Fields {
  const [, quantity, unit, side = 'total'] =
    new RegExp(String.raw`^${number}\s*(g|ml)(?:\s+(total|powder|developer))?$`, 'i').exec(text) ??
    [];
  if (quantity === undefined || unit === undefined) {
    refuse(`"${text}" is no size. Write 60 g, 20 g powder, or 40 ml developer.`);
    return {};
  }
  return { [side.toLowerCase()]: { quantity, unit: unit.toLowerCase() } };
}

/** The cells that `planFromCells` makes the same plan of. */
export function cellsOfPlan(
  plan: FormulaPlan,
  nameOf: (productId: string) => string,
): Record<keyof PlanCells, string | undefined> {
  const listed = (side: string) => (plan[side] ?? []) as (string | Fields)[];
  const shares = (side: string) =>
    listed(side)
      .map((part) => {
        if (typeof part === 'string') return nameOf(part);
        const name = nameOf(String(part['productId']));
        return part['share'] === undefined ? name : `${name} x ${textOf(part['share'])}`;
      })
      .join(between);
  const additives = (listed('additives') as Fields[]).map((part) =>
    [nameOf(String(part['productId'])), amountOf(part), part['counted'] ? ' counted' : ''].join(''),
  );
  const [[side, size] = ['total', {}]] = Object.entries(plan['size'] as Record<string, Fields>);
  const measure = `${textOf(size['quantity'])} ${textOf(size['unit'])}`;
  return {
    ratio: plan['ratio'] as string | undefined,
    basis: plan['basis'] as string | undefined,
    powders: shares('powders'),
    strength: plan['strength'] as string | undefined,
    developers: shares('developers'),
    additives: additives.join(between),
    size: side === 'total' ? measure : `${measure} ${side}`,
    contact: plan['contact'] as string | undefined,
  };
}

function amountOf(part: Fields): string {
  if (part['percent'] !== undefined) {
    return ` ${textOf(part['percent'])} % of ${textOf(part['of'])}`;
  }
  if (part['grams'] !== undefined) return ` ${textOf(part['grams'])} g`;
  return ` 1 dose per ${textOf(part['dosesPer'])} g`;
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
