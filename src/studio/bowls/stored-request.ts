/** Reads a mix-plans request that was stored with a formula, as strictly as one that arrives. */
import { plainToInstance } from 'class-transformer';
import { validateSync } from 'class-validator';
import { Problem } from '../../../shared/problems/problem.js';
import { MixPlanRequest } from './mix-plan.requests.js';

/** @throws Problem `no_plan` where what is stored is no plan any more */
export function readPlanRequest(stored: unknown): MixPlanRequest {
  const request = plainToInstance(MixPlanRequest, stored);
  if (!(request instanceof MixPlanRequest)) throw new Problem('no_plan', {}, '/formulaId');
  const errors = validateSync(request, { whitelist: true, forbidUnknownValues: true });
  if (errors.length > 0) throw new Problem('no_plan', {}, '/formulaId');
  return request;
}
