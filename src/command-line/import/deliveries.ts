/** Deliveries of days gone by from a file, a line for each of their products. */
import { mostMoney } from '../../studio/catalogue/catalogue.requests.js';
import type { DeliveryRequest } from '../../studio/stock/stock.requests.js';
import { dayCell, needed, numberCell, textCell, wholeCell } from './cells.js';
import { given } from './given.js';
import {
  byLines,
  FileCheck,
  groupByGroup,
  grouped,
  type ImportKind,
  type LedgerDestination,
} from './kind.js';
import { ProductFinder } from './product-finder.js';
import { readTable, type Line } from './table.js';

const money = { min: '0', max: mostMoney };

const columns = {
  delivered_on: needed(dayCell('day of the delivery')),
  supplier: textCell('name of a supplier that is entered already'),
  invoice_no: textCell('number of its paper; lines of one day, supplier and number are one', 80),
  ordered_on: dayCell('day of its order, on its first line'),
  freight: numberCell('freight of the delivery, on its first line', money),
  other_cost: numberCell('what else it cost, on its first line', money),
  discount: numberCell('taken off the whole of it, on its first line', money),
  non_recoverable_tax: numberCell('tax that you do not get back, on its first line', money),
  product: needed(textCell('name of the product, with its line where that is not enough')),
  pack: textCell('label of the pack, where the product has several', 80),
  packs: wholeCell('packs that were paid', 0, 100_000),
  free_packs: wholeCell('packs that came free', 0, 100_000),
  pack_price: numberCell('price of one pack; the list price if it and cost are empty', money),
  quantity: numberCell('instead of packs, in the product’s unit', {
    ...{ above: '0', max: '99999999', places: 3 },
  }),
  cost: numberCell('instead of pack_price, price of the whole line', money),
  expires_on: dayCell('last good day'),
  lot_code: textCell('printed on the packs', 80),
};

type DeliveryLine = Line<typeof columns>;

/** What is said of a delivery on its first line only. */
const ofTheDelivery = [
  ...(['ordered_on', 'freight', 'other_cost', 'discount', 'non_recoverable_tax'] as const),
];

export const deliveryImport: ImportKind<LedgerDestination> = {
  name: 'deliveries',
  about: 'Deliveries of days gone by, a line for each of their products',
  columns,
  run: async (content, { bulk, history, studioId, dry }) => {
    const lines = readTable(content, columns);
    const [products, suppliers] = await Promise.all([
      bulk.productNames(studioId),
      bulk.supplierNames(studioId),
    ]);
    const known: Known = {
      finder: new ProductFinder(products),
      suppliers: new Map(suppliers.map(({ id, name }) => [name.toLowerCase(), id])),
      check: new FileCheck(),
    };
    const groups = grouped(lines, ({ cells: { delivered_on, supplier, invoice_no } }) => [
      ...[delivered_on, supplier?.toLowerCase(), invoice_no],
    ]);
    const requests = groups.flatMap(([first, ...others]) =>
      first ? [requestOf(first, others, known)] : [],
    );
    known.check.done();
    await byLines(
      history.deliver(studioId, requests, { dry }),
      groupByGroup(groups, { productId: 'product', packLabel: 'pack' }),
    );
    return { deliveries: requests.length, lots: lines.length };
  },
};

/** What the studio has already, and where mistakes are told. */
interface Known {
  readonly finder: ProductFinder;
  readonly suppliers: ReadonlyMap<string, string>;
  readonly check: FileCheck;
}

function requestOf(
  first: DeliveryLine,
  others: readonly DeliveryLine[],
  { finder, suppliers, check }: Known,
): DeliveryRequest {
  const { line, cells } = first;
  const supplierId = suppliers.get(cells.supplier?.toLowerCase() ?? '');
  if (cells.supplier !== undefined && supplierId === undefined) {
    check.refuse(line, 'supplier', `There is no supplier called "${cells.supplier}".`);
  }
  for (const other of others) {
    for (const column of ofTheDelivery.filter((name) => other.cells[name] !== undefined)) {
      check.refuse(other.line, column, `Say it on line ${line} only, the delivery’s first.`);
    }
  }
  return {
    deliveredOn: cells.delivered_on,
    ...given({
      supplierId,
      invoiceNo: cells.invoice_no,
      orderedOn: cells.ordered_on,
      freight: cells.freight,
      otherCost: cells.other_cost,
      discount: cells.discount,
      nonRecoverableTax: cells.non_recoverable_tax,
    }),
    lines: [first, ...others].flatMap((each) => lineOf(each, finder, check)),
  };
}

function lineOf({ line, cells }: DeliveryLine, finder: ProductFinder, check: FileCheck) {
  const product = finder.find(cells.product);
  if (typeof product === 'string') {
    check.refuse(line, 'product', product);
    return [];
  }
  return [
    {
      productId: product.id,
      ...given({
        packLabel: cells.pack,
        packs: cells.packs,
        freePacks: cells.free_packs,
        packPrice: cells.pack_price,
        quantity: cells.quantity,
        cost: cells.cost,
        expiresOn: cells.expires_on,
        lotCode: cells.lot_code,
      }),
    },
  ];
}
