/** Refusals of bowls: stages, what they hold, who they belong to. */
import { refusal } from './refusal.js';

export const bowlProblems = {
  bowl_is_settled: refusal<{ settledAt: string }>(
    'conflict',
    'The bowl was settled',
    ({ settledAt }) =>
      `This bowl was settled at ${settledAt}. Open another bowl, or reverse the settlement first.`,
  ),
  bowl_is_void: refusal<Record<string, never>>(
    'conflict',
    'The bowl was called off',
    () => 'This bowl was called off before anything went in. Open another one.',
  ),
  bowl_has_pours: refusal<{ pours: number }>(
    'refused',
    'Something is in it',
    ({ pours }) =>
      `${pours} pours are in this bowl, so it cannot be called off. ` +
      'Settle it: weigh what is left, or say that it was spilled or mixed wrong.',
  ),
  nothing_poured: refusal<Record<string, never>>(
    'refused',
    'Nothing was poured',
    () => 'Nothing is recorded in this bowl. Record the pours first, or call the bowl off.',
  ),
  pour_too_large: refusal<{ grams: string; highest: string }>(
    'refused',
    'More than a bowl takes',
    ({ grams, highest }) =>
      `${grams} g is more than a bowl takes (${highest} g). Was a digit or the unit mistyped?`,
  ),
  quantity_too_small: refusal<{ quantity: string; unit: string }>(
    'refused',
    'Nothing to record',
    ({ quantity, unit }) =>
      `${quantity} ${unit} is not an amount that can be recorded. Give more than 0.`,
  ),
  practice_books_nothing: refusal<Record<string, never>>(
    'refused',
    'A practice scale',
    () =>
      'The weight comes from the practice scale, whose weights are invented. In a real studio it ' +
      'books nothing: weigh on a real scale, or type what it shows.',
  ),
  gross_below_tare: refusal<{ gross: string; tare: string }>(
    'refused',
    'Lighter than the empty bowl',
    ({ gross, tare }) =>
      `The scale showed ${gross} g and the empty bowl weighs ${tare} g. ` +
      'Check the vessel, or give the tare with the weight.',
  ),
  tare_unknown: refusal<Record<string, never>>(
    'refused',
    'The empty bowl’s weight is not known',
    () => 'Give the tare with the gross weight, or weigh net.',
  ),
  after_first_contact: refusal<Record<string, never>>(
    'refused',
    'Powder and developer have met',
    () =>
      'What has been mixed never goes back into a tub or bottle. Record it as handed on, applied ' +
      'or spilled.',
  ),
  more_than_it_holds: refusal<{ asked: string; held: string; unit: string }>(
    'refused',
    'More than the bowl holds',
    ({ asked, held, unit }) =>
      `${asked} ${unit} were asked for and the bowl holds ${held} ${unit} of it.`,
  ),
  bowl_was_touched: refusal<Record<string, never>>(
    'refused',
    'What has been on a brush stays with its client',
    () => 'Part of this bowl was applied already. Divide it within the visit, or mix a new one.',
  ),
  visit_is_closed: refusal<{ what: string }>(
    'refused',
    'The visit is closed',
    ({ what }) =>
      `${what} needs an open visit. Reopen the visit, or choose another; what has happened ` +
      'already can still be recorded.',
  ),
  settlement_first: refusal<Record<string, never>>(
    'refused',
    'The settlement comes first',
    () => 'This bowl is settled. Reverse its settlement, then the pour.',
  ),
  reverse_later_first: refusal<{ what: string }>(
    'refused',
    'Something came after it',
    ({ what }) => `${what} came after it in this bowl. Reverse that first.`,
  ),
  no_plan: refusal<Record<string, never>>(
    'refused',
    'Nothing to plan from',
    () => 'Give a plan, or the formula to plan from.',
  ),
};
