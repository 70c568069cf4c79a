/** Refusals of the catalogue: products and packs, services, formulas, clients, lists of them. */
import { refusal } from './refusal.js';

export const catalogueProblems = {
  starts_in_the_past: refusal<{ startsOn: string; today: string }>(
    'refused',
    'It would start in the past',
    ({ startsOn, today }) =>
      `${startsOn} is over, and what was priced then stays. Give ${today} or a later day.`,
  ),
  started_already: refusal<{ startsOn: string }>(
    'conflict',
    'It has started',
    ({ startsOn }) =>
      `It holds since ${startsOn} and cannot be taken back. Enter another one from today on.`,
  ),
  gtin_unreadable: refusal<{ text: string }>(
    'refused',
    'Not a number from a bar code',
    ({ text }) =>
      `"${text}" is not a GTIN: it has 8, 12, 13 or 14 digits. Type the digits under the bar ` +
      'code, or leave the field out.',
  ),
  gtin_check_digit: refusal<{ gtin: string; given: string; expected: number }>(
    'refused',
    'The check digit does not fit',
    ({ gtin, given, expected }) =>
      `${gtin} ends in ${given} where its other digits ask for ${expected}. ` +
      'A digit is mistyped: compare it with the digits under the bar code.',
  ),
  gtin_in_use: refusal<{ gtin: string; product: string }>(
    'conflict',
    'This GTIN has a product',
    ({ gtin, product }) =>
      `${gtin} belongs to ${product} already. Take it off there first, or leave it out here.`,
  ),
  strength_above_usual: refusal<{ strength: string; usual: string }>(
    'refused',
    'Stronger than usual',
    ({ strength, usual }) =>
      `${strength} vol is above ${usual} vol. Read the bottle again. If it says so, send the ` +
      'same with confirmStrength true; the product’s own directions come first.',
  ),
  strength_and_percent_apart: refusal<{ strength: string; percent: string; usual: string }>(
    'refused',
    'Volume and per cent do not go together',
    ({ strength, percent, usual }) =>
      `${strength} vol is about ${usual} per cent, and ${percent} per cent was given. Read the ` +
      'bottle again. If it says so, send the same with confirmStrength true.',
  ),
  strength_without_developer: refusal<{ kind: string }>(
    'refused',
    'Only a developer has a strength',
    ({ kind }) =>
      `A strength was given for a product of kind ${kind}. Leave strength and percent out, or ` +
      'make it a developer.',
  ),
  kept_since_it_moved: refusal<{ field: string; product: string; kept: string }>(
    'refused',
    'Fixed at the first movement',
    ({ field, product, kept }) =>
      `${product} has movements in the ledger, so its ${field} stays ${kept}. ` +
      'Make a new product and retire this one.',
  ),
  packs_in_old_unit: refusal<{ unit: string }>(
    'refused',
    'Packs are in the old unit',
    ({ unit }) => `The unit becomes ${unit}. Send the packs along, with their quantity in ${unit}.`,
  ),
  label_twice: refusal<{ label: string }>(
    'refused',
    'Two packs of one name',
    ({ label }) => `Two packs are called ${label}. Give each pack a label of its own.`,
  ),
  pack_unknown: refusal<{ id: string; product: string }>(
    'missing',
    'Pack not found',
    ({ id, product }) =>
      `${product} has no pack ${id}. Leave the id out for a new pack, or check it.`,
  ),
  name_in_use: refusal<{ what: string; name: string }>(
    'conflict',
    'This name is taken',
    ({ what, name }) => `There is a ${what} called ${name} already. Use that one, or another name.`,
  ),
  one_of_two: refusal<{ one: string; other: string }>(
    'refused',
    'One of the two',
    ({ one, other }) => `Give either ${one} or ${other}, and not both.`,
  ),
  client_forgotten: refusal<{ client: string }>(
    'refused',
    'This client was forgotten',
    ({ client }) =>
      `Name, contact and notes of ${client} were erased on request and stay empty. ` +
      'Enter a new client instead.',
  ),
  number_in_use: refusal<{ number: number }>(
    'conflict',
    'This client number is taken',
    ({ number }) =>
      `There is a client number ${number} already. Leave the number out for the next.`,
  ),
  result_without_reading: refusal<Record<string, never>>(
    'refused',
    'A result needs the time it was read',
    () => 'A result was given without readAt. Say when the test was read.',
  ),
  read_before_placed: refusal<{ placedAt: string; readAt: string }>(
    'refused',
    'Read before it was placed',
    ({ placedAt, readAt }) =>
      `The test was placed at ${placedAt} and read at ${readAt}. Correct one of the two times.`,
  ),
  not_happened_yet: refusal<{ field: string; at: string }>(
    'refused',
    'A time to come',
    ({ field, at }) => `${field} is ${at}, which has not come yet. Give the time it happened.`,
  ),
  nothing_to_change: refusal<Record<string, never>>(
    'malformed',
    'Nothing to change',
    () => 'The request names no field. Send the fields that change.',
  ),
  lines_refused: refusal<{ refused: number; lines: number }>(
    'refused',
    'Nothing was stored',
    ({ refused, lines }) =>
      `${refused} of ${lines} lines need correcting, and none was stored. Correct them and send ` +
      'all again.',
  ),
};
