/** New list prices of packs from a supplier's list. */
import { Problem } from '../../../shared/problems/problem.js';
import { readGtin } from '../../../shared/gtin.js';
import { mostMoney } from '../../studio/catalogue/catalogue.requests.js';
import type { NamedPack } from '../../studio/catalogue/bulk.service.js';
import { needed, numberCell, textCell } from './cells.js';
import { FileCheck, type ImportKind } from './kind.js';
import { readTable, type Line } from './table.js';

const columns = {
  gtin: textCell('digits under the bar code of the pack', 40),
  order_code: textCell('the supplier’s number for the pack', 60),
  name: textCell('name of the product, where neither of the two is given'),
  line: textCell('its product line, where its name is not enough', 80),
  pack: textCell('label of the pack, where the product has several', 80),
  list_price: needed(
    numberCell('price of the pack, in the studio’s currency', { min: '0', max: mostMoney }),
  ),
};

type PriceLine = Line<typeof columns>;

export const priceImport: ImportKind = {
  name: 'prices',
  about: 'New list prices of packs that are entered already',
  columns,
  run: async (content, { bulk, studioId, dry }) => {
    const lines = readTable(content, columns);
    const packs = new PackFinder(await bulk.packNames(studioId));
    const check = new FileCheck();
    const seen = new Map<string, number>();
    const prices = lines.flatMap((each) => {
      const found = packs.find(each.cells);
      if (!('id' in found)) {
        check.refuse(each.line, found.column, found.detail);
        return [];
      }
      const earlier = seen.get(found.id);
      if (earlier !== undefined) {
        check.refuse(each.line, undefined, `This pack has a price on line ${earlier} already.`);
      }
      seen.set(found.id, each.line);
      return [{ id: found.id, price: each.cells.list_price }];
    });
    check.done();
    await bulk.setPrices(studioId, prices, { dry });
    return { prices: prices.length };
  },
};

/** Why no pack was found. */
interface NotFound {
  readonly column: keyof typeof columns;
  readonly detail: string;
}

class PackFinder {
  private readonly by = { gtin: new Map(), orderCode: new Map(), name: new Map() } as Record<
    'gtin' | 'orderCode' | 'name',
    Map<string, NamedPack[]>
  >;

  constructor(packs: readonly NamedPack[]) {
    for (const pack of packs) {
      for (const key of ['gtin', 'orderCode', 'name'] as const) {
        const value = pack[key]?.toLowerCase();
        if (value === undefined) continue;
        this.by[key].set(value, [...(this.by[key].get(value) ?? []), pack]);
      }
    }
  }

  /** By GTIN, else by order code, else by the names of product and pack. */
  find({ gtin, order_code, name, line, pack }: PriceLine['cells']): NamedPack | NotFound {
    if (gtin !== undefined) return this.byGtin(gtin);
    const column = order_code === undefined ? 'name' : 'order_code';
    const text = order_code ?? name;
    if (text === undefined) {
      return { column: 'gtin', detail: 'Give a gtin, an order_code, or a name with its pack.' };
    }
    const among = this.by[column === 'name' ? 'name' : 'orderCode'].get(text.toLowerCase()) ?? [];
    const fitting = among.filter(
      (each) => same(line, each.line) && same(pack, each.label) && same(name, each.name),
    );
    const [found, another] = fitting;
    if (!found) return { column, detail: `There is no pack of "${text}" that fits this line.` };
    if (!another) return found;
    const labels = fitting.map((each) => `${each.name}, ${each.label}`).join('; ');
    return { column: 'pack', detail: `Several packs fit: ${labels}. Say which.` };
  }

  private byGtin(text: string): NamedPack | NotFound {
    try {
      const gtin = readGtin(text);
      const [found] = this.by.gtin.get(gtin) ?? [];
      return found ?? { column: 'gtin', detail: `No pack has the GTIN ${gtin}.` };
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      return { column: 'gtin', detail: error.message };
    }
  }
}

function same(given: string | undefined, kept: string | null): boolean {
  return given === undefined || given.toLowerCase() === kept?.toLowerCase();
}
