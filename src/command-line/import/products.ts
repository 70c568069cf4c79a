/** Products from a file, a line for each of their packs. */
import { stockUnits } from '../../../shared/amount.js';
import { productKinds } from '../../../shared/product-card.js';
import { mostMoney } from '../../studio/catalogue/catalogue.requests.js';
import type { NewProductRequest, PackRequest } from '../../studio/catalogue/products.requests.js';
import { amount } from '../../../shared/amount.js';
import { needed, numberCell, textCell, wholeCell, wordCell, yesCell } from './cells.js';
import { byLines, columnOf, FileCheck, type ImportKind, type Place } from './kind.js';
import { readTable, type Line } from './table.js';

const quantity = { above: '0', max: '1000000' };
const volumes = { min: '0', places: 3 };

const columns = {
  name: needed(textCell('name; a product with several packs has it on each of their lines')),
  line: textCell('product line', 80),
  kind: wordCell('kind, on the first line of a product', productKinds),
  unit: wordCell('unit it is kept in, on the first line', stockUnits),
  strength: numberCell('of a developer, in vol', volumes),
  percent: numberCell('as printed on the bottle; 0.3 x vol where empty', { places: 4 }),
  confirm_strength: yesCell('the bottle was read again and it says so'),
  density: numberCell('g/ml', { places: 5 }),
  grams_per_piece: numberCell('g of one piece', { above: '0', max: '100000', places: 3 }),
  dose: numberCell('what one pump holds, in the unit', { above: '0', max: '10000', places: 3 }),
  open_life_days: wholeCell('days it keeps once opened', 1, 3650),
  working_minutes: wholeCell('minutes from the product’s own directions', 1, 600),
  scalp_ceiling: numberCell('vol, from the product’s directions, on the scalp', volumes),
  off_scalp_ceiling: numberCell('vol, from the product’s directions, off the scalp', volumes),
  supplier: textCell('name of a supplier that is entered already'),
  reorder_point: numberCell('in the unit', { min: '0', max: '10000000', places: 3 }),
  lead_time_days: wholeCell('days from order to delivery', 0, 365),
  service_level: numberCell('a share, 0.95', { above: '0', max: '0.999999' }),
  keep_sealed: wholeCell('keep so many packs sealed', 0, 10_000),
  pack: textCell('label of a pack', 80),
  pack_quantity: numberCell('what the pack holds', quantity),
  pack_unit: textCell('unit of pack_quantity by its UCUM code; the product’s own if empty', 20),
  gtin: textCell('digits under the bar code of the pack', 40),
  order_code: textCell('the supplier’s number for the pack', 60),
  empty_weight_g: numberCell('g of the empty pack', { min: '0', max: '1000000', places: 3 }),
  list_price: numberCell('price of the pack, in the studio’s currency', {
    min: '0',
    max: mostMoney,
  }),
};

type ProductLine = Line<typeof columns>;

/** What a product says on its first line only. */
const ofTheProduct = [
  ...(['kind', 'unit', 'strength', 'percent', 'density', 'grams_per_piece', 'dose'] as const),
  ...(['open_life_days', 'working_minutes', 'scalp_ceiling', 'off_scalp_ceiling'] as const),
  ...(['supplier', 'reorder_point', 'lead_time_days', 'service_level', 'keep_sealed'] as const),
];

const ofThePack = [
  ...(['pack_quantity', 'pack_unit', 'gtin', 'order_code', 'empty_weight_g'] as const),
  'list_price' as const,
];

/** A product's lines, the first with its packs. */
type Group = readonly [ProductLine, ...ProductLine[]];

export const productImport: ImportKind = {
  name: 'products',
  about: 'Products, a line for each of their packs',
  columns,
  run: async (content, { bulk, studioId, dry }) => {
    const groups = grouped(readTable(content, columns));
    const suppliers = await bulk.supplierNames(studioId);
    const ids = new Map(suppliers.map(({ id, name }) => [name.toLowerCase(), id]));
    const check = new FileCheck();
    const requests = groups.map((lines) => requestOf(lines, ids, check));
    check.done();
    await byLines(bulk.addProducts(studioId, requests, { dry }), placeIn(groups));
    const packs = requests.reduce((total, request) => total + request.packs.length, 0);
    return { products: requests.length, packs };
  },
};

function grouped(lines: readonly ProductLine[]): Group[] {
  const groups = new Map<string, [ProductLine, ...ProductLine[]]>();
  for (const line of lines) {
    const key = `${line.cells.name}\n${line.cells.line ?? ''}`.toLowerCase();
    const group = groups.get(key);
    if (group) group.push(line);
    else groups.set(key, [line]);
  }
  return [...groups.values()];
}

function requestOf(
  lines: Group,
  suppliers: ReadonlyMap<string, string>,
  check: FileCheck,
): NewProductRequest {
  const [{ line, cells }, ...more] = lines;
  for (const other of more) refuseOtherFacts(cells, other, check);
  for (const name of ['kind', 'unit'] as const) {
    if (cells[name] === undefined) check.refuse(line, name, 'This cell is needed.');
  }
  const { supplier, kind = 'care', unit = 'g' } = cells;
  const supplierId = supplier === undefined ? null : suppliers.get(supplier.toLowerCase());
  if (supplierId === undefined) {
    const detail = `There is no supplier called "${supplier}". Import suppliers first.`;
    check.refuse(line, 'supplier', detail);
  }
  return {
    ...{ name: cells.name, kind, unit, line: cells.line ?? null },
    strength: cells.strength ?? null,
    percent: cells.percent ?? null,
    confirmStrength: cells.confirm_strength ?? false,
    density: cells.density ?? null,
    gramsPerPiece: cells.grams_per_piece ?? null,
    dose: cells.dose ? amount(cells.dose, unit) : null,
    openLifeDays: cells.open_life_days ?? null,
    workingMinutes: cells.working_minutes ?? null,
    scalpCeiling: cells.scalp_ceiling ?? null,
    offScalpCeiling: cells.off_scalp_ceiling ?? null,
    supplierId: supplierId ?? null,
    reorder: {
      point: cells.reorder_point ?? null,
      leadTimeDays: cells.lead_time_days ?? null,
      serviceLevel: cells.service_level ?? null,
      keepSealed: cells.keep_sealed ?? null,
    },
    packs: lines.flatMap((each) => packOf(each, lines.length > 1, check)),
  };
}

function refuseOtherFacts(first: ProductLine['cells'], other: ProductLine, check: FileCheck): void {
  for (const column of ofTheProduct) {
    const given = other.cells[column];
    if (given === undefined || String(given) === String(first[column])) continue;
    const detail = `It differs from the first line of ${first.name}. Say it there only.`;
    check.refuse(other.line, column, detail);
  }
}

function packOf({ line, cells }: ProductLine, wanted: boolean, check: FileCheck): PackRequest[] {
  if (cells.pack === undefined) {
    const orphan = ofThePack.find((column) => cells[column] !== undefined);
    if (orphan || wanted) {
      check.refuse(line, 'pack', `A label is needed for ${orphan ?? 'one more line'}.`);
    }
    return [];
  }
  if (cells.pack_quantity === undefined) {
    check.refuse(line, 'pack_quantity', 'This cell is needed for a pack.');
    return [];
  }
  return [
    {
      label: cells.pack,
      quantity: cells.pack_quantity,
      unit: cells.pack_unit ?? null,
      gtin: cells.gtin ?? null,
      orderCode: cells.order_code ?? null,
      emptyWeight: cells.empty_weight_g ? { quantity: cells.empty_weight_g, unit: 'g' } : null,
      listPrice: cells.list_price ?? null,
    },
  ];
}

const packColumns: Readonly<Record<string, string>> = {
  label: 'pack',
  quantity: 'pack_quantity',
  unit: 'pack_unit',
  emptyWeight: 'empty_weight_g',
};

/** A problem of a pack stands on the pack's own line; all lines of such a product have one. */
function placeIn(groups: readonly Group[]): Place {
  return (index, pointer) => {
    const lines = groups[index];
    const [, list, pack, field] = pointer.split('/');
    if (list !== 'packs' || pack === undefined) {
      return { line: lines?.[0].line ?? 1, column: columnOf(pointer) };
    }
    const line = lines?.[Number.parseInt(pack, 10)]?.line ?? 1;
    return { line, column: field === undefined ? 'pack' : (packColumns[field] ?? columnOf(field)) };
  };
}
