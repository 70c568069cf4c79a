/** Published discounts, markups and margins, against shared/discount.ts and shared/markup.ts. */
import type { Decimal } from '../../../shared/decimal.js';
import {
  discountBetween,
  discountOn,
  priceAfterDiscount,
  priceBeforeDiscount,
} from '../../../shared/discount.js';
import {
  costBehindMargin,
  costBehindMarkup,
  marginBetween,
  marginOfMarkup,
  markupBetween,
  markupOfMargin,
  markupOn,
  priceByMargin,
  priceByMarkup,
} from '../../../shared/markup.js';
import { figure, shareOf } from './inputs.js';
import { NotYetSupported, type Answer, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

/** Any two of price, sale, discount and its per cent give the others. */
function discount(row: ValueRow): Answer {
  const { inputs } = row;
  const share = shareOf(inputs, 'discount_percent', 'percent');
  const off = figure(inputs, 'discount');
  const sale = figure(inputs, 'sale', 'sale_price');
  let price = figure(inputs, 'price', 'original', 'original_price', 'list_price');
  price ??= share && sale ? priceBeforeDiscount(sale, share) : undefined;
  price ??= share && off ? off.dividedBy(share) : undefined;
  price ??= sale && off ? sale.plus(off) : undefined;
  if (!price) throw new NotYetSupported('no price to take off from');
  const reduced = sale ?? (off ? price.minus(off) : share && priceAfterDiscount(price, share));
  if (!reduced) throw new NotYetSupported('nothing taken off');
  const taken = share ? discountOn(price, share) : price.minus(reduced);
  return {
    price,
    sale: reduced,
    sale_price: reduced,
    discount: taken,
    discount_percent: discountBetween(price, reduced).times(100),
  };
}

interface Known {
  readonly cost: Decimal | undefined;
  readonly price: Decimal | undefined;
  readonly markup: Decimal | undefined;
  readonly margin: Decimal | undefined;
}

function knownOf(row: ValueRow): Known {
  const { inputs } = row;
  return {
    cost: figure(inputs, 'cost', 'variable_cost', 'variable_costs', 'unit_cost', 'cogs'),
    price: figure(inputs, 'price', 'sales', 'revenue', 'selling_price', 'sales_price'),
    markup: shareOf(inputs, 'markup_percent') ?? figure(inputs, 'markup_ratio'),
    margin:
      shareOf(inputs, 'margin_percent') ?? figure(inputs, 'margin_ratio', 'contribution_ratio'),
  };
}

/** Cost and price of a row, worked out from whichever two figures it gives. */
function costAndPrice(row: ValueRow, known: Known): { cost: Decimal; price: Decimal } | undefined {
  const { markup, margin } = known;
  let { cost, price } = known;
  const added = figure(row.inputs, 'markup', 'margin');
  if (cost && !price) {
    price = markup ? priceByMarkup(cost, markup) : margin && priceByMargin(cost, margin);
    price ??= added && cost.plus(added);
  } else if (price && !cost) {
    cost = markup ? costBehindMarkup(price, markup) : margin && costBehindMargin(price, margin);
    cost ??= added && price.minus(added);
  } else if (added && markup) {
    cost = added.dividedBy(markup);
    price = cost.plus(added);
  }
  return cost && price ? { cost, price } : undefined;
}

function markupAndMargin(row: ValueRow): Answer {
  const known = knownOf(row);
  const found = costAndPrice(row, known);
  if (!found) {
    if (known.margin) return ratios(markupOfMargin(known.margin), known.margin);
    if (known.markup) return ratios(known.markup, marginOfMarkup(known.markup));
    throw new NotYetSupported('neither two amounts nor a rate');
  }
  const { cost, price } = found;
  const markup = markupBetween(cost, price);
  const margin = marginBetween(cost, price);
  return {
    cost,
    price,
    variable_cost: cost,
    markup: known.markup ? markupOn(cost, known.markup) : price.minus(cost),
    margin: price.minus(cost),
    gross_margin: price.minus(cost),
    contribution_margin: price.minus(cost),
    ...ratios(markup, margin),
  };
}

function ratios(markup: Decimal, margin: Decimal): Answer {
  return {
    markup_percent: markup.times(100),
    markup_ratio: markup,
    margin_percent: margin.times(100),
    margin_ratio: margin,
    contribution_margin_ratio: margin,
  };
}

export const priceTopics: readonly Topic[] = [
  { name: 'discount', answer: discount },
  { name: 'markup', answer: markupAndMargin },
  { name: 'margin', answer: markupAndMargin },
];
