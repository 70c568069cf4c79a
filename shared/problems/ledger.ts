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
};
