/** Suppliers from a file, one a line. */
import { mostMoney } from '../../studio/catalogue/catalogue.requests.js';
import { needed, numberCell, textCell, wholeCell } from './cells.js';
import { byLines, lineByLine, type ImportKind } from './kind.js';
import { readTable } from './table.js';

const money = { min: '0', max: mostMoney };

const columns = {
  name: needed(textCell('name of the supplier, once in the studio')),
  lead_time_days: wholeCell('days from order to delivery', 0, 365),
  minimum_order: numberCell('smallest order, in the studio’s currency', money),
  freight: numberCell('freight of an order', money),
  free_freight_from: numberCell('value of an order from which there is no freight', money),
  order_day: wholeCell('day of ordering, 1 Monday … 7 Sunday', 1, 7),
};

export const supplierImport: ImportKind = {
  name: 'suppliers',
  about: 'Suppliers, one a line',
  columns,
  run: async (content, { bulk, studioId, dry }) => {
    const lines = readTable(content, columns);
    const requests = lines.map(({ cells }) => ({
      name: cells.name,
      leadTimeDays: cells.lead_time_days ?? null,
      minimumOrder: cells.minimum_order ?? null,
      freight: cells.freight ?? null,
      freeFreightFrom: cells.free_freight_from ?? null,
      orderDay: cells.order_day ?? null,
    }));
    await byLines(bulk.addSuppliers(studioId, requests, { dry }), lineByLine(lines));
    return { suppliers: requests.length };
  },
};
