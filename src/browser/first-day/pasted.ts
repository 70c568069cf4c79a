/** A list out of a spreadsheet: which column is which, and every row as a product or a sentence. */
import { parse } from 'csv-parse/browser/esm/sync';
import { canonical, decimal } from '../../../shared/decimal.js';
import { readGtin } from '../../../shared/gtin.js';
import type { ProductKind } from '../../../shared/mix.js';
import { Problem } from '../../../shared/problems/problem.js';
import { productKinds } from '../../../shared/product-card.js';
import { costOfTyped, type SupplierPrices } from '../../../shared/supplier-prices.js';
import { packLabel, troubleOf, unitOfKind, type PackDraft, type ProductDraft } from './drafts.js';
import { readKind, readMoney, readPack, readStrength } from './read-words.js';
import { words } from './texts.js';

/** What a column may hold. */
export const columnKinds = [
  'name',
  'kind',
  'line',
  'strength',
  'pack',
  'price',
  'empty',
  'gtin',
  'code',
  'nothing',
] as const;
export type ColumnKind = (typeof columnKinds)[number];

export interface Pasted {
  readonly columns: readonly ColumnKind[];
  readonly rows: readonly (readonly string[])[];
}

/** A row: the product it makes, or the sentence that says why it makes none. */
export type PastedRow =
  | { readonly draft: ProductDraft; readonly trouble?: undefined }
  | { readonly draft?: undefined; readonly trouble: string };

const headers: Readonly<Record<Exclude<ColumnKind, 'nothing'>, RegExp>> = {
  gtin: /gtin|ean|upc|bar ?code/i,
  price: /price|cost|net|amount/i,
  strength: /strength|vol|%|per ?cent/i,
  empty: /empty|tare/i,
  pack: /pack|size|content|unit|weight/i,
  kind: /kind|type|group|category/i,
  line: /line|range|series/i,
  code: /code|number|no\.?$|ref|sku/i,
  name: /name|product|item|article|description|shade/i,
};

const separators = ['\t', ';', ','] as const;

/** Cells of a text: tabs as a spreadsheet copies them, else semicolons or commas. */
export function readPasted(text: string): Pasted {
  const delimiter = separatorOf(text);
  const table: string[][] = parse(text.trim(), {
    ...{ delimiter, relax_column_count: true, skip_empty_lines: true, relax_quotes: true },
    ...{ trim: true, bom: true },
  });
  const cells = table.filter((row) => row.some((cell) => cell !== ''));
  const [first = [], ...rest] = cells;
  const named = guessFromHeader(first);
  if (named) return { columns: named, rows: rest };
  return { columns: guessFromCells(cells), rows: cells };
}

function separatorOf(text: string): string {
  const line = text.trim().split('\n', 1)[0] ?? '';
  const parts = (separator: string) => line.split(separator).length;
  const found = separators.find((separator) => parts(separator) > 1);
  return found ?? '\t';
}

/** Columns by the words of a header; undefined where the first row is no header. */
function guessFromHeader(cells: readonly string[]): ColumnKind[] | undefined {
  if (cells.some((cell) => /\d/.test(cell))) return undefined;
  const taken = new Set<ColumnKind>();
  const columns = cells.map((cell): ColumnKind => {
    const found = Object.entries(headers).find(
      ([kind, words]) => !taken.has(kind as ColumnKind) && words.test(cell),
    );
    const kind = (found?.[0] ?? 'nothing') as ColumnKind;
    if (kind !== 'nothing') taken.add(kind);
    return kind;
  });
  return taken.has('name') || taken.size > 1 ? columns : undefined;
}

/** Columns by what most of their cells can be read as; the first other text is the name. */
function guessFromCells(rows: readonly (readonly string[])[]): ColumnKind[] {
  const width = Math.max(0, ...rows.map((row) => row.length));
  const taken = new Set<ColumnKind>();
  return Array.from({ length: width }, (_, at): ColumnKind => {
    const cells = rows.flatMap((row) => row[at] || []);
    const mostly = (reads: (cell: string) => boolean) =>
      cells.length > 0 && cells.filter(reads).length * 2 > cells.length;
    const guesses: readonly [ColumnKind, boolean][] = [
      ['gtin', mostly((cell) => /^\d{8}$|^\d{12,14}$/.test(cell))],
      ['strength', mostly((cell) => /^\d+([.,]\d+)? ?(vol|%)/i.test(cell))],
      ['pack', mostly((cell) => /^\d/.test(cell) && readPack(cell) !== undefined)],
      ['price', mostly((cell) => readMoney(cell) !== undefined)],
      ['kind', mostly((cell) => isKind(cell))],
      ['name', mostly((cell) => /\p{L}{2}/u.test(cell))],
      ['line', mostly((cell) => /\p{L}{2}/u.test(cell))],
    ];
    const kind = guesses.find(([each, fits]) => fits && !taken.has(each))?.[0] ?? 'nothing';
    if (kind !== 'nothing') taken.add(kind);
    return kind;
  });
}

function isKind(cell: string): boolean {
  return productKinds.some((kind) => kind === cell.toLowerCase());
}

/** Every row judged, one by one and against those before it. */
export function judgeRows(
  { columns, rows }: Pasted,
  prices: SupplierPrices,
  known: ReadonlySet<string>,
): PastedRow[] {
  const names = new Set(known);
  const gtins = new Set<string>();
  return rows.map((row) => {
    const cell = (kind: ColumnKind) => row[columns.indexOf(kind)]?.trim() ?? '';
    const judged = rowOf(cell, prices);
    if (judged.trouble !== undefined) return judged;
    const { name, pack } = judged.draft;
    const folded = name.toLocaleLowerCase();
    if (names.has(folded)) return { trouble: words.paste.twice(name) };
    names.add(folded);
    if (pack?.gtin !== undefined) {
      if (gtins.has(pack.gtin)) return { trouble: words.paste.gtinTwice(pack.gtin) };
      gtins.add(pack.gtin);
    }
    return judged;
  });
}

function rowOf(cell: (kind: ColumnKind) => string, prices: SupplierPrices): PastedRow {
  const { paste } = words;
  const name = cell('name');
  if (name === '') return { trouble: paste.nameNeeded };
  const strength = cell('strength') === '' ? {} : readStrength(cell('strength'));
  if (!strength) return { trouble: paste.strength(cell('strength')) };
  const kind = kindOf(cell('kind'), name, strength);
  if (!kind) return { trouble: paste.kindNeeded(name) };
  const pack = packOf(cell, kind, prices);
  if (typeof pack === 'string') return { trouble: pack };
  const line = cell('line');
  const draft: ProductDraft = {
    ...{ name, kind, unit: keptIn(kind, pack) },
    ...(line === '' ? {} : { line }),
    ...(kind === 'developer' ? withStrength(strength, name) : {}),
    ...(pack ? { pack } : {}),
  };
  const trouble = troubleOf(draft);
  return trouble === undefined ? { draft } : { trouble };
}

function kindOf(cell: string, name: string, strength: object): ProductKind | undefined {
  const said = productKinds.find((kind) => kind === cell.toLowerCase()) ?? readKind(cell);
  if (said) return said;
  return Object.keys(strength).length > 0 ? 'developer' : readKind(name);
}

/** A developer without a cell for it may say its strength in its name: "Developer 20 vol". */
function withStrength(told: { strength?: string; percent?: string }, name: string) {
  if (told.strength !== undefined || told.percent !== undefined) return told;
  const inName = /\d+([.,]\d+)? ?(vol\b|%)/i.exec(name)?.[0];
  return (inName === undefined ? undefined : readStrength(inName)) ?? {};
}

function packOf(
  cell: (kind: ColumnKind) => string,
  kind: ProductKind,
  prices: SupplierPrices,
): PackDraft | undefined | string {
  const { paste } = words;
  const text = cell('pack');
  const more = ['price', 'empty', 'gtin', 'code'] as const;
  if (text === '') return more.some((each) => cell(each) !== '') ? paste.packNeeded : undefined;
  const bare = /^\d+([.,]\d+)?$/.test(text) ? `${text} ${unitOfKind[kind]}` : text;
  const read = readPack(bare.replace(/piece$/, 'pieces'));
  if (!read) return paste.pack(text);
  const price = cell('price') === '' ? undefined : readMoney(cell('price'));
  if (cell('price') !== '' && !price) return paste.price(cell('price'));
  const empty = cell('empty') === '' ? undefined : readPack(`${cell('empty')} g`);
  if (cell('empty') !== '' && !empty) return paste.empty(cell('empty'));
  const gtin = gtinOf(cell('gtin'));
  if (gtin instanceof Problem) return gtin.message;
  const code = cell('code');
  const isNamed = /\p{L}{3}/u.test(text);
  return {
    label: (isNamed ? text : packLabel(read.quantity, read.unit, '')).slice(0, 80),
    quantity: canonical(read.quantity),
    unit: read.unit,
    ...(empty ? { emptyGrams: canonical(empty.quantity) } : {}),
    ...(gtin === undefined ? {} : { gtin }),
    ...(code === '' ? {} : { orderCode: code.slice(0, 60) }),
    ...(price ? { listPrice: canonical(costOfTyped(decimal(price), prices)) } : {}),
  };
}

function gtinOf(cell: string): string | undefined | Problem {
  if (cell === '') return undefined;
  try {
    return readGtin(cell);
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
}

/** Pieces are kept as pieces; else in the usual unit of the kind, unless the pack says g or ml. */
function keptIn(kind: ProductKind, pack: PackDraft | undefined) {
  if (pack?.unit === 'piece') return 'piece';
  if (kind === 'developer' || !pack) return unitOfKind[kind];
  const byWeight = ['g', 'kg', '[oz_av]'].includes(pack.unit);
  if (kind === 'sundry') return byWeight ? 'g' : 'ml';
  return unitOfKind[kind] === 'ml' && byWeight ? 'g' : unitOfKind[kind];
}
