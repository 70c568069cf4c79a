/** A visit as it travels, to whom it may be shown. */
import { clientLabel, shortClientLabel } from '../../../shared/client-label.js';
import type { VisitMinutes, VisitMoney, VisitView } from '../../../shared/contract/visits.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import type { VisitRow } from './visit-row.js';

/** What of a visit a caller may see. */
export interface VisitSight {
  /** The client's name: none where the answer is kept for ever. */
  readonly name: 'none' | 'short' | 'whole';
  readonly money: boolean;
}

/** True for the person who serves, and for the hands of its bowls. */
export function isOwn(visit: VisitRow, personId: string | undefined): boolean {
  if (personId === undefined) return false;
  if (visit.person_id === personId) return true;
  return visit.bowls.some((bowl) => bowl.hands.includes(personId));
}

/** Price and payments: managers, owners, and the visit's own people. */
export function seesMoney(visit: VisitRow, caller: Caller): boolean {
  if (mayAct(caller, 'manager')) return true;
  return mayAct(caller, 'stylist') && isOwn(visit, caller.personId);
}

/** Hands-on minutes as entered, else what the services take of the person who serves. */
export function minutesOf(visit: VisitRow): VisitMinutes[] {
  if (visit.minutes.length > 0) return visit.minutes;
  const minutes = usualMinutes(visit, 'handsOnMinutes');
  return visit.person_id === null || minutes === 0 ? [] : [{ personId: visit.person_id, minutes }];
}

/** Minutes that the visit's services take by the menu. */
export function usualMinutes(visit: VisitRow, which: 'handsOnMinutes' | 'chairMinutes'): number {
  return visit.services.reduce((total, service) => total + service[which], 0);
}

export function visitView(visit: VisitRow, sight: VisitSight): VisitView {
  return {
    id: visit.id,
    kind: visit.kind,
    clientId: visit.client_id,
    ...(sight.name === 'none' ? {} : { client: clientOf(visit, sight.name) }),
    personId: visit.person_id,
    redoOf: visit.redo_of,
    redoneBy: visit.redone_by,
    startedAt: visit.started_at,
    closedAt: visit.closed_at,
    services: visit.services.map(({ serviceId, name, price, handsOnMinutes, chairMinutes }) => ({
      serviceId,
      name,
      ...(sight.money ? { price } : {}),
      handsOnMinutes,
      chairMinutes,
    })),
    minutes: minutesOf(visit),
    chairMinutes: visit.chair_minutes ?? usualMinutes(visit, 'chairMinutes'),
    bowls: visit.bowls.map(({ id, purpose, state, mark, estimated, late }) => ({
      ...{ id, purpose, state, mark, estimated, late },
    })),
    ...(sight.money ? { money: moneyOf(visit) } : {}),
  };
}

function clientOf({ client }: VisitRow, name: 'short' | 'whole') {
  if (!client) return null;
  const label = name === 'short' ? shortClientLabel(client) : clientLabel(client);
  return { number: client.number, name: label };
}

function moneyOf(visit: VisitRow): VisitMoney {
  const { discount, payments, deposits, tip, tip_method: method } = visit;
  return {
    discount,
    payments,
    deposits,
    tip:
      tip === null || method === null
        ? null
        : { amount: canonical(decimal(tip)), method, personId: visit.tip_person_id },
  };
}
