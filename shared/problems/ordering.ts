/** Refusals of ordering: levels that no stock reaches, closed orders, packs without terms. */
import { refusal } from './refusal.js';

export const orderingProblems = {
  service_level_out_of_reach: refusal<{ serviceLevel: string; lowest: string; highest: string }>(
    'refused',
    'No stock does that',
    ({ serviceLevel, lowest, highest }) =>
      `A service level of ${serviceLevel} cannot be planned for: 1 would need endless stock, and ` +
      `low ones mean running out on purpose. Give serviceLevel from ${lowest} to ${highest}, ` +
      'such as 0.95 (short about one order in 20).',
  ),
  product_without_pack: refusal<{ product: string }>(
    'refused',
    'No pack to order',
    ({ product }) =>
      `${product} has no pack, so it cannot be ordered in packs. Enter its packs with the product.`,
  ),
  which_pack: refusal<{ product: string; known: readonly string[] }>(
    'malformed',
    'Which pack?',
    ({ product, known }) =>
      `${product} comes in several packs. Give packLabel as one of: ${known.join(', ')}.`,
  ),
  order_is_closed: refusal<{ state: string }>(
    'conflict',
    'Nothing left to cancel',
    ({ state }) => `This order is ${state}; nothing of it is awaited any more.`,
  ),
  breaks_out_of_order: refusal<{ pack: string }>(
    'refused',
    'Price breaks contradict each other',
    ({ pack }) =>
      `Prices of ${pack} must fall as the number of packs rises, from 2 packs on, each number ` +
      'once. Correct the breaks.',
  ),
  packs_kept_of_unknown: refusal<{ product: string }>(
    'refused',
    'Not in this plan',
    ({ product }) =>
      `${product} is not among the products that can be ordered. Leave it out, or enter its pack.`,
  ),
};
