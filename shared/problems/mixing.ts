/** Refusals of mixing: units, strengths, ratios, sizes, additives, what a bowl holds. */
import { refusal } from './refusal.js';

export const mixingProblems = {
  unknown_unit: refusal<{ unit: string; known: readonly string[] }>(
    'malformed',
    'Unit not known',
    ({ unit, known }) => `"${unit}" is not a unit known here. Use one of ${known.join(', ')}.`,
  ),
  units_measure_different_things: refusal<{ from: string; to: string }>(
    'refused',
    'Units measure different things',
    ({ from, to }) => `${from} cannot be turned into ${to}. Use units of the same kind.`,
  ),
  not_a_quantity: refusal<{ text: string }>(
    'malformed',
    'Not a quantity',
    ({ text }) => `"${text}" is not a number and a unit. Write it as 1.5 [oz_av] or 60 g.`,
  ),
  density_out_of_range: refusal<{ density: string; lowest: string; highest: string }>(
    'refused',
    'Density cannot be right',
    ({ density, lowest, highest }) =>
      `A density of ${density} g/ml cannot be right. Give one from ${lowest} to ${highest} g/ml, ` +
      'or leave it out to count 1 ml as 1 g.',
  ),
  pieces_against_weight: refusal<{ product: string; given: string; kept: string }>(
    'refused',
    'Pieces against weight',
    ({ product, given, kept }) =>
      `${product} is kept in ${kept} and was given in ${given}, and what one piece weighs is not ` +
      `known. Give ${kept}, or enter the grams of one piece with the product.`,
  ),
  strength_out_of_range: refusal<{ strength: string; unit: string; highest: string }>(
    'refused',
    'Strength cannot be right',
    ({ strength, unit, highest }) =>
      `A strength of ${strength} ${unit} cannot be right. Give one from 0 to ${highest} ${unit}.`,
  ),
  strength_unreachable: refusal<{ strength: string; lowest: string; highest: string }>(
    'refused',
    'Strength out of reach',
    ({ strength, lowest, highest }) =>
      `${strength} vol cannot be blended from these developers: they reach from ${lowest} to ` +
      `${highest} vol. Ask for a strength in that range, or add another developer.`,
  ),
  no_developer: refusal<Record<string, never>>(
    'refused',
    'No developer to choose from',
    () =>
      'There is no developer to mix with. Name one under developers, or give a strength that ' +
      'developers in stock can make.',
  ),
  shares_miss_the_strength: refusal<{ made: string; strength: string }>(
    'refused',
    'Shares and strength disagree',
    ({ made, strength }) =>
      `These shares make ${made} vol and ${strength} vol was asked for. Give one of the two.`,
  ),
  developer_without_strength: refusal<{ product: string }>(
    'refused',
    'Developer without a strength',
    ({ product }) =>
      `The strength of ${product} is not known. Enter the volume or per cent printed on its ` +
      'bottle.',
  ),
  no_parts: refusal<{ what: string }>(
    'refused',
    'No parts',
    ({ what }) => `${what} has no part above zero. Give every part a number above zero.`,
  ),
  ratio_unreadable: refusal<{ text: string }>(
    'malformed',
    'Ratio could not be read',
    ({ text }) =>
      `"${text}" is not a ratio. Write parts of powder to parts of developer, such as 1:2 or ` +
      '1:1.5.',
  ),
  ratio_out_of_range: refusal<{ text: string; highest: string }>(
    'refused',
    'Ratio cannot be right',
    ({ text, highest }) =>
      `A ratio of ${text} cannot be right: one side is more than ${highest} times the other. ` +
      'Write parts of powder to parts of developer, such as 1:2.',
  ),
  size_not_positive: refusal<{ size: string }>(
    'refused',
    'No size',
    ({ size }) => `A bowl of ${size} holds nothing. Give a size above zero.`,
  ),
  size_too_large: refusal<{ size: string; highest: string }>(
    'refused',
    'Size cannot be right',
    ({ size, highest }) =>
      `A bowl of ${size} cannot be right: the most is ${highest} g. Check the unit and the point.`,
  ),
  size_in_wrong_unit: refusal<{ unit: string; wanted: string }>(
    'refused',
    'Size in another unit',
    ({ unit, wanted }) => `This size was given in ${unit}. Give it in ${wanted}.`,
  ),
  quantity_not_positive: refusal<{ what: string; quantity: string }>(
    'refused',
    'Quantity must be above zero',
    ({ what, quantity }) => `${what} is ${quantity}. Give a quantity above zero.`,
  ),
  quantity_negative: refusal<{ what: string; quantity: string }>(
    'refused',
    'Quantity below zero',
    ({ what, quantity }) => `${what} is ${quantity}. Give zero or more.`,
  ),
  no_powder: refusal<Record<string, never>>(
    'refused',
    'Nothing on the powder side',
    () => 'The mix names no powder, cream or colour. Name at least one under powders.',
  ),
  developer_without_ratio: refusal<Record<string, never>>(
    'refused',
    'Developer without a ratio',
    () => 'A mix without a ratio has no developer side. Give a ratio, or leave the developer out.',
  ),
  product_not_given: refusal<{ id: string }>(
    'missing',
    'Product not found',
    ({ id }) => `There is no product ${id} in this studio. Check the id.`,
  ),
  product_twice: refusal<{ product: string }>(
    'refused',
    'Product named twice',
    ({ product }) => `${product} is named twice in this mix. Name it once.`,
  ),
  wrong_kind: refusal<{ product: string; kind: string; place: string }>(
    'refused',
    'Product in the wrong place',
    ({ product, kind, place }) =>
      `${product} is kept as ${kind} and cannot stand under ${place}. Name it where it belongs.`,
  ),
  dose_unknown: refusal<{ product: string }>(
    'refused',
    'Dose not known',
    ({ product }) =>
      `What one dose of ${product} holds is not known. Enter its dose with the product, or ` +
      'give grams.',
  ),
  percent_out_of_range: refusal<{ what: string; percent: string }>(
    'refused',
    'Per cent cannot be right',
    ({ what, percent }) => `${what} is ${percent} per cent. Give a number above 0 and up to 100.`,
  ),
  additives_fill_the_bowl: refusal<{ additives: string; total: string }>(
    'refused',
    'Additives fill the bowl',
    ({ additives, total }) =>
      `The counted additives weigh ${additives} g and leave nothing of ${total} g for the mix. ` +
      'Make the bowl larger or the additives smaller.',
  ),
  leftover_exceeds_contents: refusal<{
    leftover: string;
    contents: string;
    causes: readonly string[];
  }>(
    'refused',
    'More left over than the bowl held',
    ({ leftover, contents, causes }) =>
      `${leftover} g were weighed and the bowl held ${contents} g. Likely: ${causes.join('; ')}. ` +
      'Weigh again, or record what is missing.',
  ),
  contents_unknown: refusal<Record<string, never>>(
    'refused',
    'The bowl is empty',
    () => 'Nothing is recorded in this bowl. Record the pours first.',
  ),
  nothing_to_add: refusal<{ now: string; wanted: string }>(
    'refused',
    'Nothing to add',
    ({ now, wanted }) =>
      `The bowl is at ${now} and adding cannot bring it to ${wanted}. Choose a thinner ratio.`,
  ),
  not_in_the_plan: refusal<{ id: string }>(
    'refused',
    'Not in the plan',
    ({ id }) => `${id} is not on a side of this plan. Name a planned powder or developer.`,
  ),
};
