/** Saved formulas from a file, one a line. */
import { readFormulaPlan } from '../../studio/catalogue/formula-plan.js';
import type { NewFormulaRequest } from '../../studio/catalogue/formulas.requests.js';
import { Unreadable } from '../../platform/http/unreadable.js';
import { needed, textCell, wholeCell, wordCell } from './cells.js';
import { byLines, FileCheck, lineByLine, type ImportKind } from './kind.js';
import { planFromCells } from './plan-text.js';
import { ProductFinder } from './product-finder.js';
import { readTable } from './table.js';

const columns = {
  name: needed(textCell('name, once for a client or for the studio')),
  client: wholeCell('number of the client; the studio’s own where empty', 1, 9_999_999),
  purpose: textCell('what it is for', 60),
  ratio: textCell('parts of powder to parts of developer, 1:2', 20),
  basis: wordCell('what the ratio counts', ['weight', 'volume']),
  powders: needed(textCell('names with their shares: Shade 6 x 2 | Shade 7 x 1', 1000)),
  strength: textCell('vol of the developer side', 10),
  developers: textCell('names, with shares where it is a stated blend', 1000),
  additives: textCell('Drops 2 % of powder | Drops 3 g | Drops 1 dose per 30 g', 1000),
  size: needed(textCell('60 g, 20 g powder, 40 ml developer', 40)),
  contact: wordCell('where it is used', ['scalp', 'off-scalp']),
  minutes_on_hair: wholeCell('minutes', 0, 600),
  next_time: textCell('one line for the next visit', 300),
};

export const formulaImport: ImportKind = {
  name: 'formulas',
  about: 'Saved formulas, one a line; products and clients are entered before',
  columns,
  run: async (content, { bulk, studioId, dry }) => {
    const lines = readTable(content, columns);
    const [products, clients] = await Promise.all([
      bulk.productNames(studioId),
      bulk.clientNumbers(studioId),
    ]);
    const finder = new ProductFinder(products);
    const check = new FileCheck();
    const requests = lines.map(({ line, cells }): NewFormulaRequest => {
      let readable = true;
      const asked = planFromCells(cells, finder, (column, detail) => {
        readable = false;
        check.refuse(line, column, detail);
      });
      const plan = readFormulaPlan(asked);
      if (readable && plan instanceof Unreadable) {
        check.refuse(line, plan.pointer.split('/')[1], plan.detail);
      }
      const clientId = cells.client === undefined ? null : clients.get(cells.client);
      if (clientId === undefined) {
        check.refuse(line, 'client', `There is no client number ${cells.client}.`);
      }
      return {
        ...{ name: cells.name, clientId: clientId ?? null, purpose: cells.purpose ?? null },
        plan: plan instanceof Unreadable ? {} : plan,
        minutesOnHair: cells.minutes_on_hair ?? null,
        nextTime: cells.next_time ?? null,
      };
    });
    check.done();
    await byLines(bulk.addFormulas(studioId, requests, { dry }), lineByLine(lines));
    return { formulas: requests.length };
  },
};
