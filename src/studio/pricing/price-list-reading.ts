/** Reads a price list, as lines or as CSV, and finds the pack that each line names. */
import { CsvError, parse } from 'csv-parse/sync';
import { readGtin } from '../../../shared/gtin.js';
import type { Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { readRequest } from '../../platform/http/request-pipe.js';
import { MalformedRequest, type FieldError } from '../../platform/http/unreadable.js';
import { PriceLineRequest, type PriceListRequest } from './price-lists.requests.js';

/** A pack as it is found. */
export interface ListedPack {
  readonly id: string;
  readonly label: string;
  readonly gtin: string | null;
  readonly orderCode: string | null;
  readonly productId: string;
  readonly product: string;
  readonly price: string | null;
}

/** A pack with its new price. */
export interface NewPrice {
  readonly pack: ListedPack;
  readonly price: Decimal;
}

/** Columns of a CSV and the fields that they fill. */
const columns: Readonly<Record<string, keyof PriceLineRequest>> = {
  gtin: 'gtin',
  order_code: 'orderCode',
  product: 'product',
  pack: 'pack',
  list_price: 'listPrice',
};

const mostLines = 5000;

/**
 * The new price of each pack that is named, in the order of the list.
 * @throws Problem `one_of_two` unless either lines or csv are given
 * @throws MalformedRequest with every line that names no pack, several, or one twice
 */
export function newPrices(request: PriceListRequest, packs: readonly ListedPack[]): NewPrice[] {
  const { lines, csv } = request;
  if ((lines === undefined) === (csv === undefined)) {
    throw new Problem('one_of_two', { one: 'lines', other: 'csv' });
  }
  const given = lines ?? linesOf(csv ?? '');
  const errors: FieldError[] = [];
  const found = new Map<string, NewPrice>();
  given.forEach((line, index) => {
    const where = lines ? `/lines/${index}` : '/csv';
    const refuse = (code: string, detail: string) => {
      const told = lines ? detail : `Line ${index + 2}: ${detail}`;
      errors.push({ pointer: where, code, detail: told });
    };
    const fitting = fittingPacks(line, packs);
    const [pack] = fitting;
    if (typeof fitting === 'string') refuse('unknown_pack', fitting);
    else if (!pack || typeof pack === 'string') refuse('unknown_pack', 'No pack is like this.');
    else if (fitting.length > 1) refuse('which_pack', severalFit(fitting));
    else if (found.has(pack.id)) refuse('twice', `${pack.product}, ${pack.label} came before.`);
    else found.set(pack.id, { pack, price: line.listPrice });
  });
  if (errors.length > 0) throw new MalformedRequest(errors);
  return [...found.values()];
}

function severalFit(packs: readonly ListedPack[]): string {
  const names = packs.map(({ product, label }) => `${product}, ${label}`).join('; ');
  return `Several packs fit: ${names}. Say which by pack, gtin or orderCode.`;
}

/** Packs that fit all that a line says of it; a sentence where it says too little. */
function fittingPacks(
  { packId, gtin, orderCode, product, pack }: PriceLineRequest,
  packs: readonly ListedPack[],
): readonly ListedPack[] | string {
  if ([packId, gtin, orderCode, product].every((each) => each === undefined)) {
    return 'Give a gtin, an orderCode, or the name of the product with its pack.';
  }
  let code: string | undefined;
  try {
    code = gtin === undefined ? undefined : readGtin(gtin);
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
  return packs.filter(
    (each) =>
      same(packId, each.id) &&
      same(code, each.gtin) &&
      same(orderCode, each.orderCode) &&
      same(product, each.product) &&
      same(pack, each.label),
  );
}

function same(given: string | undefined, kept: string | null): boolean {
  return given === undefined || given.toLowerCase() === kept?.toLowerCase();
}

/** @throws MalformedRequest where the text is no CSV of these columns */
function linesOf(csv: string): PriceLineRequest[] {
  const rows = rowsOf(csv);
  if (rows.length === 0) throw wrongCsv('There is no line of prices in it.');
  if (rows.length > mostLines) throw wrongCsv(`Give at most ${mostLines} lines at once.`);
  return rows.map((row, index) => {
    const fields = Object.entries(row).flatMap(([column, value]) => {
      const field = columns[column];
      if (!field) {
        throw wrongCsv(
          `There is no column ${column}; there are ${Object.keys(columns).join(', ')}.`,
        );
      }
      return value === '' ? [] : [[field, value]];
    });
    try {
      return readRequest(PriceLineRequest, Object.fromEntries(fields));
    } catch (error) {
      const first = error instanceof MalformedRequest ? error.errors[0] : undefined;
      if (!first) throw error;
      const field = first.pointer.slice(1);
      throw wrongCsv(`Line ${index + 2}, ${field}: ${first.detail}`);
    }
  });
}

function rowsOf(csv: string): Record<string, string>[] {
  try {
    return parse(csv, { columns: true, bom: true, trim: true, skip_empty_lines: true });
  } catch (error) {
    if (error instanceof CsvError) throw wrongCsv(error.message);
    throw error;
  }
}

function wrongCsv(detail: string): MalformedRequest {
  return new MalformedRequest([{ pointer: '/csv', code: 'not_csv', detail }]);
}
