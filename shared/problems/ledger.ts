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
};
