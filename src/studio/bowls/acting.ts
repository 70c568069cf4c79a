/** Who acts on a bowl, from the caller of a request. */
import { mayAct, type Caller } from '../../platform/http/rights.js';
import type { Acting } from './bowls.service.js';

/** @param recordedAt the service's clock, RFC 3339 in UTC */
export function acting(caller: Caller, recordedAt: string): Acting {
  return {
    personId: caller.personId ?? null,
    benchId: caller.benchId ?? null,
    recordedAt,
    money: mayAct(caller, 'manager'),
    ownOnly: !mayAct(caller, 'manager'),
  };
}
