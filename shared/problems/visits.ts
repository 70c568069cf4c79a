/** Refusals of visits and what follows from them: closing, redoing, looking at people's figures. */
import { refusal } from './refusal.js';

export const visitProblems = {
  visit_closed_already: refusal<{ closedAt: string }>(
    'conflict',
    'Closed already',
    ({ closedAt }) =>
      `This visit was closed at ${closedAt}. Reopen it first; a manager can do that.`,
  ),
  visit_is_open: refusal<Record<string, never>>(
    'conflict',
    'Not closed yet',
    () => 'This visit is open. There is nothing to reopen.',
  ),
  bowls_still_open: refusal<{ bowls: number; purposes: readonly string[] }>(
    'refused',
    'Bowls are still open',
    ({ bowls, purposes }) =>
      `${bowls === 1 ? '1 bowl is' : `${bowls} bowls are`} still open: ${purposes.join(', ')}. ` +
      'Weigh what is left, or close with openBowls "all-applied" to count them as used up.',
  ),
  closed_before_start: refusal<{ startedAt: string; closedAt: string }>(
    'refused',
    'Closed before it began',
    ({ startedAt, closedAt }) =>
      `The visit began at ${startedAt} and cannot end at ${closedAt}. Correct closedAt.`,
  ),
  redo_of_needed: refusal<Record<string, never>>(
    'refused',
    'A redo of what?',
    () => 'A redo belongs to the visit that is done again. Give redoOf.',
  ),
  redo_only: refusal<{ kind: string }>(
    'refused',
    'Only a redo names another visit',
    ({ kind }) =>
      `A visit of kind "${kind}" does nothing again. Leave redoOf out, or make it a redo.`,
  ),
  redo_of_other_client: refusal<Record<string, never>>(
    'refused',
    'Another client’s visit',
    () => 'The visit to be done again was another client’s. Check redoOf and clientId.',
  ),
  price_needs_manager: refusal<{ needs: string }>(
    'forbidden',
    'The price is on the menu',
    ({ needs }) => `Only ${needs} may give a visit another price. Leave price out.`,
  ),
  one_target: refusal<Record<string, never>>(
    'malformed',
    'One target at a time',
    () => 'Give one of margin, contributionPerHour and productMarkup; the answer shows all three.',
  ),
  from_after_to: refusal<{ from: string; to: string }>(
    'malformed',
    'Nothing in between',
    ({ from, to }) => `From ${from} to before ${to} there is no day. Give a later \`to\`.`,
  ),
  quote_over_already: refusal<{ validUntil: string; today: string }>(
    'refused',
    'Over before it began',
    ({ validUntil, today }) =>
      `A quote until ${validUntil} would be over already: it is ${today}. Give a later validUntil.`,
  ),
  rents_no_chair: refusal<{ person: string }>(
    'refused',
    'Nothing to be billed',
    ({ person }) =>
      `${person} does not rent a chair, so there is no statement. Give a person of kind "rents".`,
  ),
  prices_start_later: refusal<{ startsOn: string; today: string }>(
    'refused',
    'Not yet in force',
    ({ startsOn, today }) =>
      `These prices begin on ${startsOn} and it is ${today}. Look at their effect now, and ` +
      'accept them on that day.',
  ),
};
