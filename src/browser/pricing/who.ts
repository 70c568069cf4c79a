/** Who a visit is of, for a manager: the whole name. */
import type { VisitView } from '../../../shared/contract/visits.js';
import { texts } from '../shell/texts.js';

/** Name of the client, else what kind of visit it is. */
export function fullNameOf(visit: VisitView): string {
  if (visit.client) {
    const { kinds } = texts.visits;
    return visit.kind === 'client'
      ? visit.client.name
      : `${visit.client.name}, ${kinds[visit.kind].toLocaleLowerCase()}`;
  }
  return visit.kind === 'client' ? texts.visits.walkIn : texts.visits.kinds[visit.kind];
}
