/** Whether what a visit names is there, and what its services are charged. */
import type { VisitKind } from '../../../shared/contract/visits.js';
import { decimal, zero, type Decimal } from '../../../shared/decimal.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import type { Reader } from '../../platform/database/transaction.js';
import { mayAct, whoMay, type Caller } from '../../platform/http/rights.js';
import { MISSING_PEOPLE, READ_MENU, READ_NAMED } from './visits.queries.js';
import type { VisitServiceRequest } from './visits.requests.js';

/** Who and what a visit names. */
export interface VisitFields {
  readonly clientId: string | null;
  readonly personId: string | null;
  readonly kind: VisitKind;
  readonly redoOf: string | null;
}

interface NamedRow {
  client: { retired: boolean } | null;
  person: { name: string; retired: boolean } | null;
  redone: { clientId: string | null } | null;
}

interface MenuRow {
  id: string;
  name: string;
  price: string;
  versionId: string | null;
  retired: boolean;
}

/** Kinds that are charged what the menu says; the others cost nothing unless told. */
const chargedKinds: ReadonlySet<VisitKind> = new Set<VisitKind>(['client', 'model']);

/** The fields in the order in which the statements take them. */
export function fieldsOf({ clientId, personId, kind, redoOf }: VisitFields): unknown[] {
  return [clientId, personId, kind, redoOf];
}

/**
 * Checks what a visit names.
 * @throws Problem `not_found`, `retired`, `redo_of_needed`, `redo_only`, `redo_of_other_client`
 */
export async function checkNamed(tx: Reader, visit: VisitFields): Promise<void> {
  const { clientId, personId, kind, redoOf } = visit;
  if (kind === 'redo' && redoOf === null) throw new Problem('redo_of_needed', {}, '/redoOf');
  if (kind !== 'redo' && redoOf !== null) throw new Problem('redo_only', { kind }, '/redoOf');
  const [named] = await tx.query<NamedRow & Record<string, unknown>>(READ_NAMED, [
    clientId,
    personId,
    redoOf,
  ]);
  refuseMissing(clientId, named?.client, 'client', '/clientId');
  refuseMissing(personId, named?.person, 'person', '/personId');
  refuseMissing(redoOf, named?.redone, 'visit', '/redoOf');
  if (named?.person?.retired) {
    throw new Problem('retired', { name: named.person.name }, '/personId');
  }
  const redone = named?.redone?.clientId ?? null;
  if (redone !== null && clientId !== null && redone !== clientId) {
    throw new Problem('redo_of_other_client', {}, '/redoOf');
  }
}

/** @throws Problem `not_found` where one of the people is not in this studio */
export async function checkPeople(tx: Reader, ids: readonly string[], at: string): Promise<void> {
  const [unknown] = await tx.query<{ id: string }>(MISSING_PEOPLE, [ids]);
  if (unknown) throw new Problem('not_found', { what: 'person', id: unknown.id }, at);
}

/** A service as a visit takes it: what it is charged, and the version of the menu that holds. */
export interface TakenService {
  readonly id: string;
  readonly price: Decimal;
  readonly versionId: string | null;
}

/**
 * What each service is charged: as told, else by the menu of the day on which the visit began, or
 * nothing by the kind of visit.
 * @throws Problem `not_found`, `retired`, `price_needs_manager`
 */
export async function pricesOf(
  tx: Reader,
  services: readonly VisitServiceRequest[],
  { kind, startedAt }: { readonly kind: VisitKind; readonly startedAt: string },
  caller: Caller,
): Promise<TakenService[]> {
  const ids = services.map((service) => service.serviceId);
  const menu = await tx.query<MenuRow & Record<string, unknown>>(READ_MENU, [ids, startedAt]);
  return services.map(({ serviceId, price }, index) =>
    within(`/services/${index}`, () => {
      const found = menu.find((each) => each.id === serviceId);
      if (!found) throw new Problem('not_found', { what: 'service', id: serviceId }, '/serviceId');
      if (found.retired) throw new Problem('retired', { name: found.name }, '/serviceId');
      if (price && !mayAct(caller, 'manager')) {
        throw new Problem('price_needs_manager', { needs: whoMay('manager') }, '/price');
      }
      const usual = chargedKinds.has(kind) ? decimal(found.price) : zero;
      return { id: serviceId, price: price ?? usual, versionId: found.versionId };
    }),
  );
}

function refuseMissing(
  id: string | null,
  found: object | null | undefined,
  what: string,
  at: string,
): void {
  if (id !== null && !found) throw new Problem('not_found', { what, id }, at);
}
