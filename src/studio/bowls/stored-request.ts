/** Reads a mix-plans request that was stored with a formula, as strictly as one that arrives. */
import { Problem } from '../../../shared/problems/problem.js';
import { readRequest } from '../../platform/http/request-pipe.js';
import { MalformedRequest } from '../../platform/http/unreadable.js';
import { MixPlanRequest } from './mix-plan.requests.js';

/** @throws Problem `no_plan` where what is stored is no plan any more */
export function readPlanRequest(stored: unknown): MixPlanRequest {
  try {
    return readRequest(MixPlanRequest, stored);
  } catch (error) {
    if (!(error instanceof MalformedRequest)) throw error;
    throw new Problem('no_plan', {}, '/formulaId');
  }
}
