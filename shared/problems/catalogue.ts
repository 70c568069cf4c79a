/** Every refusal the house can utter, gathered from one file a subject. */
import { arithmeticProblems } from './arithmetic.js';
import { catalogueProblems } from './catalogue-problems.js';
import { bookingProblems } from './bookings.js';
import { bowlProblems } from './bowls.js';
import { ledgerProblems } from './ledger.js';
import { moneyProblems } from './money.js';
import { mixingProblems } from './mixing.js';
import { orderingProblems } from './ordering.js';
import { peopleProblems } from './people.js';
import { requestProblems } from './request.js';
import type { Refusal } from './refusal.js';
import { scaleProblems } from './scales.js';
import { visitProblems } from './visits.js';

export const catalogue = {
  ...requestProblems,
  ...arithmeticProblems,
  ...catalogueProblems,
  ...ledgerProblems,
  ...bookingProblems,
  ...bowlProblems,
  ...mixingProblems,
  ...moneyProblems,
  ...orderingProblems,
  ...peopleProblems,
  ...scaleProblems,
  ...visitProblems,
};

export type ProblemCode = keyof typeof catalogue;

/** The facts that a code's advice speaks of. */
export type ProblemFacts<C extends ProblemCode> =
  (typeof catalogue)[C] extends Refusal<infer F> ? F : never;
