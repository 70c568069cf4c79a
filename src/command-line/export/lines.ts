/** What an export writes: the columns of the import of the same kind, and a line for each thing. */
import type { InThePriceItem, KitItem } from '../../../shared/contract/catalogue.js';
import type { OnTopSetting } from '../../../shared/contract/pricing.js';
import type { BulkService, ExportLine } from '../../studio/catalogue/bulk.service.js';
import type { HistoryService } from '../../studio/stock/history.service.js';
import { importKinds } from '../import/kinds.js';
import { cellsOfPlan } from '../import/plan-text.js';
import { between, ProductFinder } from '../import/product-finder.js';

export const exportKinds = [
  ...(['suppliers', 'products', 'services', 'clients', 'formulas'] as const),
  ...(['deliveries', 'usage'] as const),
];
export type ExportKind = (typeof exportKinds)[number];

/** A file's worth of lines; cells are text, empty where there is nothing. */
export interface ExportTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Where an export reads. */
export interface Origin {
  readonly bulk: BulkService;
  readonly history: HistoryService;
  readonly studioId: string;
}

/** Reads everything of a kind that is not retired, and not undone. */
export async function exportTable(origin: Origin, kind: ExportKind): Promise<ExportTable> {
  const { columns } = importKinds.find(({ name }) => name === kind) ?? { columns: {} };
  const names = Object.keys(columns);
  const lines = await linesOf(origin, kind);
  return { columns: names, rows: lines.map((line) => names.map((name) => textOf(line[name]))) };
}

async function linesOf(
  { bulk, history, studioId }: Origin,
  kind: ExportKind,
): Promise<ExportLine[]> {
  if (kind === 'deliveries' || kind === 'usage') {
    const [lines, nameOf] = await Promise.all([
      kind === 'usage' ? history.usageLines(studioId) : history.deliveryLines(studioId),
      productNames(bulk, studioId),
    ]);
    return lines.map((line) => ({ ...line, product: nameOf(String(line['productId'])) }));
  }
  if (kind === 'formulas') return formulaLines(bulk, studioId);
  const lines = await bulk.exportLines(studioId, kind);
  if (kind === 'products') return lines.map(productLine);
  if (kind === 'services') return serviceLines(bulk, studioId, lines);
  return lines;
}

/** What is said of the product stands on its first line only. */
function productLine(line: ExportLine, index: number, all: readonly ExportLine[]): ExportLine {
  const before = all[index - 1];
  const first = before?.['name'] !== line['name'] || before?.['line'] !== line['line'];
  // what the studio holds was confirmed when it was entered
  if (first) return { ...line, confirm_strength: line['strength'] === null ? null : 'yes' };
  const kept = ['name', 'line', 'pack', 'pack_quantity', 'pack_unit', 'gtin', 'order_code'];
  return Object.fromEntries(
    [...kept, 'empty_weight_g', 'list_price'].map((column) => [column, line[column]]),
  );
}

async function serviceLines(
  bulk: BulkService,
  studioId: string,
  lines: readonly ExportLine[],
): Promise<ExportLine[]> {
  const nameOf = await productNames(bulk, studioId);
  return lines.map((line) => ({
    ...line,
    kit: (line['kit'] as KitItem[])
      .map(({ productId, quantity }) => `${nameOf(productId)} x ${quantity}`)
      .join(between),
    in_the_price: (line['inThePrice'] as InThePriceItem[])
      .map(({ kind, grams, bowls }) =>
        grams === undefined ? `${kind} ${bowls ?? ''} bowls` : `${kind} ${grams} g`,
      )
      .join(between),
    on_top: (line['onTop'] as OnTopSetting[])
      .map(({ kind, by, rate }) => `${kind} ${by} ${rate}`)
      .join(between),
  }));
}

async function formulaLines(bulk: BulkService, studioId: string): Promise<ExportLine[]> {
  const nameOf = await productNames(bulk, studioId);
  const formulas = await bulk.exportFormulas(studioId);
  return formulas.map(({ plan, ...formula }) => ({ ...formula, ...cellsOfPlan(plan, nameOf) }));
}

async function productNames(
  bulk: BulkService,
  studioId: string,
): Promise<(productId: string) => string> {
  const products = await bulk.productNames(studioId);
  const finder = new ProductFinder(products);
  const names = new Map(products.map((product) => [product.id, finder.nameOf(product)]));
  return (productId) => names.get(productId) ?? productId;
}

function textOf(value: unknown): string {
  if (value === true) return 'yes';
  if (value === false) return 'no';
  return typeof value === 'string' || typeof value === 'number' ? `${value}` : '';
}
