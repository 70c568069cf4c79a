/** Refusals of the ledger: lots, journals, counts, reversals. */
import { refusal } from './refusal.js';

export const ledgerProblems = {
  id_reused: refusal<{ id: string }>(
    'conflict',
    'This id was used for something else',
    ({ id }) =>
      `The id ${id} already stands for a request with other content. ` +
      'Send the same content again, or choose a new id.',
  ),
  reversal_below_zero: refusal<{ place: string; held: string; needed: string }>(
    'refused',
    'Part of it has moved on',
    ({ place, held, needed }) =>
      `Undoing this would take ${needed} from the ${place}, which holds ${held} of it now. ` +
      'Reverse what came after it first, or book a correction.',
  ),
  reversed_already: refusal<{ journalId: string }>(
    'conflict',
    'Undone already',
    ({ journalId }) =>
      `The entry ${journalId} was reversed before. Enter what is right as a new entry.`,
  ),
  reversal_is_final: refusal<{ journalId: string }>(
    'refused',
    'A reversal is not reversed',
    ({ journalId }) => `${journalId} is itself a reversal. Enter what is right as a new entry.`,
  ),
  id_needed: refusal<Record<string, never>>(
    'malformed',
    'An id is needed here',
    () => 'Give every part of a recorded bowl an id of its own (UUID), so that it is booked once.',
  ),
  id_twice: refusal<Record<string, never>>(
    'malformed',
    'One id for two parts',
    () => 'Two parts of this request carry the same id. Give each its own.',
  ),
  undone_through_its_bowl: refusal<{ bowlId: string; kind: string; call: string }>(
    'refused',
    'This belongs to a bowl',
    ({ kind, call }) =>
      `A ${kind} is undone with its bowl. Call ${call}; what came after it in the bowl is undone ` +
      'first, a settlement before its pours.',
  ),
  touched_since: refusal<{ kind: string; instead: string }>(
    'refused',
    'Some of it has been used since',
    ({ kind, instead }) =>
      `This ${kind} can be undone only while nothing of it has been used. ${instead}`,
  ),
  packs_or_quantity: refusal<Record<string, never>>(
    'malformed',
    'Packs or quantity',
    () => 'Say how much in packs, or as a quantity: one of the two.',
  ),
  two_prices: refusal<Record<string, never>>(
    'malformed',
    'Two prices',
    () => 'Give the price of a pack, or the cost of the whole line: one of the two.',
  ),
  unknown_pack: refusal<{ product: string; label: string; known: readonly string[] }>(
    'refused',
    'Pack not known',
    ({ product, label, known }) =>
      known.length === 0
        ? `${product} has no packs. Give a quantity, or enter its packs with the product.`
        : `${product} has no pack "${label}". Give packLabel as one of: ${known.join(', ')}.`,
  ),
  empty_pack_unknown: refusal<{ product: string }>(
    'refused',
    'Weight of the empty pack not known',
    ({ product }) =>
      `What an empty pack of ${product} weighs is not known. Give emptyPack, or enter it with ` +
      'the product.',
  ),
  lighter_than_empty: refusal<{ gross: string; empty: string }>(
    'refused',
    'Lighter than the empty pack',
    ({ gross, empty }) =>
      `The scale showed ${gross} g and the empty pack weighs ${empty} g. Weigh again, or give ` +
      'the right emptyPack.',
  ),
  counted_or_packs: refusal<Record<string, never>>(
    'malformed',
    'Counted or packs',
    () => 'Give counted, or fullPacks and open packs: one of the two.',
  ),
  product_in_two_lines: refusal<{ product: string }>(
    'refused',
    'One product in two lines',
    ({ product }) => `${product} is in two lines. Put them into one.`,
  ),
  entered_already: refusal<{ day: string }>(
    'conflict',
    'Entered already',
    ({ day }) =>
      `An entry of ${day} with exactly this content came from an earlier file. Take its lines ` +
      'out of the file.',
  ),
  day_in_future: refusal<{ day: string; today: string }>(
    'refused',
    'In the future',
    ({ day, today }) => `${day} is after today, ${today}. Enter it when it has happened.`,
  ),
  lot_of_other_product: refusal<{ lotId: string; product: string }>(
    'refused',
    'Lot of another product',
    ({ lotId, product }) =>
      `The lot ${lotId} is not one of ${product}. Leave lotId out, or check it.`,
  ),
  lot_or_product: refusal<Record<string, never>>(
    'malformed',
    'Lot or product',
    () => 'Give lotId with cost (of the whole lot), or productId with unitCost: one of the two.',
  ),
  nothing_without_cost: refusal<{ product: string }>(
    'refused',
    'Nothing to correct',
    ({ product }) =>
      `Nothing of ${product} is without a cost, or has another than this. Name the lot by lotId ` +
      'to change its cost.',
  ),
};
