/** What was used on days gone by without being weighed into a bowl here, from a file. */
import { stockUnits } from '../../../shared/amount.js';
import type { DayOfUse } from '../../studio/stock/history.service.js';
import { dayCell, needed, numberCell, textCell, wordCell } from './cells.js';
import {
  byLines,
  FileCheck,
  groupByGroup,
  grouped,
  type ImportKind,
  type LedgerDestination,
} from './kind.js';
import { ProductFinder } from './product-finder.js';
import { readTable } from './table.js';

const columns = {
  used_on: needed(dayCell('day of the use')),
  product: needed(textCell('name of the product, with its line where that is not enough')),
  quantity: needed(numberCell('how much', { above: '0', max: '99999999', places: 3 })),
  unit: wordCell('unit of the quantity; the product’s own if empty', stockUnits),
  purpose: textCell('what it was for', 60),
};

export const usageImport: ImportKind<LedgerDestination> = {
  name: 'usage',
  about: 'Uses of days gone by, a line for each; deliveries are imported before',
  columns,
  run: async (content, { bulk, history, studioId, dry }) => {
    const lines = readTable(content, columns);
    const finder = new ProductFinder(await bulk.productNames(studioId));
    const check = new FileCheck();
    const groups = grouped(lines, ({ cells }) => [cells.used_on, cells.purpose]);
    const days = groups.map((group): DayOfUse => {
      const { used_on: usedOn, purpose } = group[0]?.cells ?? { used_on: '', purpose: undefined };
      const taken = group.flatMap(({ line, cells: { product, quantity, unit } }) => {
        const found = finder.find(product);
        if (typeof found !== 'string') {
          return [{ productId: found.id, quantity, unit: unit ?? found.unit }];
        }
        check.refuse(line, 'product', found);
        return [];
      });
      return { usedOn, ...(purpose === undefined ? {} : { purpose }), lines: taken };
    });
    check.done();
    await byLines(
      history.use(studioId, days, { dry }),
      groupByGroup(groups, { productId: 'product' }),
    );
    return { uses: lines.length, entries: days.length };
  },
};
