/** The menu from a file, one service a line. */
import { decimal, type Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import { productKinds } from '../../../shared/product-card.js';
import { mostMoney } from '../../studio/catalogue/catalogue.requests.js';
import type {
  InThePriceRequest,
  KitItemRequest,
  ServiceOnTopRequest,
} from '../../studio/catalogue/services.requests.js';
import { needed, numberCell, textCell, wholeCell } from './cells.js';
import { byLines, FileCheck, lineByLine, type ImportKind } from './kind.js';
import { partsOf, ProductFinder } from './product-finder.js';
import { readTable } from './table.js';

const columns = {
  name: needed(textCell('name of the service, once in the studio')),
  price: needed(
    numberCell('in the studio’s currency and price mode', { min: '0', max: mostMoney }),
  ),
  hands_on_minutes: wholeCell('minutes of work', 0, 1440),
  chair_minutes: wholeCell('minutes in the chair', 0, 1440),
  kit: textCell('what goes with it: Foil x 30 | Gloves x 1', 1000),
  in_the_price: textCell('what is in the price: lightener 60 g | toner 1 bowl', 500),
  on_top: textCell('charged beyond it, not as usual: lightener bowl 9.50 | toner gram 0.2', 500),
};

export const serviceImport: ImportKind = {
  name: 'services',
  about: 'The menu, one service a line; products of kits are entered before',
  columns,
  run: async (content, { bulk, studioId, dry }) => {
    const lines = readTable(content, columns);
    const finder = new ProductFinder(await bulk.productNames(studioId));
    const check = new FileCheck();
    const requests = lines.map(({ line, cells }) => ({
      name: cells.name,
      price: cells.price,
      handsOnMinutes: cells.hands_on_minutes ?? 0,
      chairMinutes: cells.chair_minutes ?? 0,
      kit: partsOf(cells.kit ?? '').flatMap((part) =>
        kitItem(part, finder, (detail) => check.refuse(line, 'kit', detail)),
      ),
      inThePrice: partsOf(cells.in_the_price ?? '').flatMap((part) =>
        inThePrice(part, (detail) => check.refuse(line, 'in_the_price', detail)),
      ),
      onTop: partsOf(cells.on_top ?? '').flatMap((part) =>
        onTop(part, (detail) => check.refuse(line, 'on_top', detail)),
      ),
    }));
    check.done();
    await byLines(bulk.addServices(studioId, requests, { dry }), lineByLine(lines));
    return { services: requests.length };
  },
};

type Refuse = (detail: string) => void;

function kitItem(part: string, finder: ProductFinder, refuse: Refuse): KitItemRequest[] {
  const [, name, quantity] = /^(.*\S)\s+x\s+(\d{1,6}(?:\.\d{1,3})?)$/i.exec(part) ?? [];
  if (name === undefined || quantity === undefined) {
    refuse(`"${part}" says no number. Write it as Foil x 30.`);
    return [];
  }
  const product = finder.find(name);
  if (typeof product !== 'string') {
    const { id: productId, unit } = product;
    return [{ productId, quantity: positive(quantity, part, refuse), unit }];
  }
  refuse(product);
  return [];
}

function inThePrice(part: string, refuse: Refuse): InThePriceRequest[] {
  const [, word = '', quantity, unit] =
    /^(\w+)\s+(\d{1,5}(?:\.\d{1,3})?)\s*(g|bowls?)$/i.exec(part) ?? [];
  const kind = productKinds.find((known): known is ProductKind => known === word.toLowerCase());
  if (!kind || quantity === undefined || unit === undefined) {
    refuse(`"${part}" is no kind and amount. Write lightener 60 g, or toner 1 bowl.`);
    return [];
  }
  const number = positive(quantity, part, refuse);
  if (unit.toLowerCase() === 'g') return [{ kind, grams: number }];
  if (number.isInteger()) return [{ kind, bowls: number }];
  refuse(`"${part}" is not a whole number of bowls.`);
  return [];
}

function onTop(part: string, refuse: Refuse): ServiceOnTopRequest[] {
  const [, word = '', by, rate] =
    /^(\w+)\s+(bowl|gram|cost)\s+(\d{1,6}(?:\.\d{1,6})?)$/i.exec(part) ?? [];
  const kind = productKinds.find((known): known is ProductKind => known === word.toLowerCase());
  if (kind && by !== undefined && rate !== undefined) {
    const how = by.toLowerCase() as ServiceOnTopRequest['by'];
    return [{ kind, by: how, rate: decimal(rate.replace(/^0+(?=\d)/, '')) }];
  }
  refuse(`"${part}" is no rule. Write lightener bowl 9.50, toner gram 0.2, or direct cost 0.5.`);
  return [];
}

function positive(text: string, part: string, refuse: Refuse): Decimal {
  const read = decimal(text.replace(/^0+(?=\d)/, ''));
  if (!read.greaterThan(0)) refuse(`"${part}" is nothing. Leave it out, or give more than 0.`);
  return read;
}
