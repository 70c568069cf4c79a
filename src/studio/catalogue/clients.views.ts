/** Rows of clients, their tests and bowls as they travel, each to whom it may be shown. */
import { clientLabel, shortClientLabel } from '../../../shared/client-label.js';
import type {
  BenchClientView,
  ClientBowlPour,
  ClientBowlView,
  ClientView,
  HairDensity,
  HairLength,
  NewClient,
  SensitivityResult,
  SensitivityTestView,
} from '../../../shared/contract/clients.js';

/** A client as it is read. */
export interface ClientRow {
  readonly id: string;
  readonly seq: string;
  readonly number: number;
  readonly name: string | null;
  readonly contact: string | null;
  readonly notes: string | null;
  readonly nextTime: string | null;
  readonly hairLength: HairLength | null;
  readonly hairDensity: HairDensity | null;
  readonly sixteenOrOlder: boolean | null;
  readonly retiredAt: Date | null;
  readonly forgottenAt: Date | null;
}

/** First name and initial, what to do next time, the hair: no more at the bench. */
export function benchClientView(client: ClientRow): BenchClientView {
  const { id, number, nextTime, hairLength, hairDensity } = client;
  return { id, number, name: shortClientLabel(client), nextTime, hairLength, hairDensity };
}

export function clientView(client: ClientRow, tests?: SensitivityTestView[]): ClientView {
  return {
    id: client.id,
    number: client.number,
    name: client.name,
    contact: client.contact,
    notes: client.notes,
    nextTime: client.nextTime,
    hairLength: client.hairLength,
    hairDensity: client.hairDensity,
    sixteenOrOlder: client.sixteenOrOlder,
    retiredAt: client.retiredAt?.toISOString() ?? null,
    forgottenAt: client.forgottenAt?.toISOString() ?? null,
    ...(tests ? { sensitivityTests: tests } : {}),
  };
}

/** The answer that is kept with the request: no name in it, so that it can be erased. */
export function newClientView({ id, number }: { id: string; number: number }): NewClient {
  return { id, number, label: clientLabel({ number, name: null }) };
}

/** A test as it is read. */
export interface SensitivityTestRow {
  readonly id: string;
  readonly clientId: string;
  readonly line: string;
  readonly placedAt: Date;
  readonly readAt: Date | null;
  readonly result: SensitivityResult | null;
}

export function sensitivityTestView(test: SensitivityTestRow): SensitivityTestView {
  const { id, clientId, line, placedAt, readAt, result } = test;
  const times = { placedAt: placedAt.toISOString(), readAt: readAt?.toISOString() ?? null };
  return { id, clientId, line, ...times, result };
}

/** A bowl of an earlier visit as it is read. */
export interface ClientBowlRow {
  readonly id: string;
  readonly visitId: string;
  readonly visitStartedAt: Date;
  readonly purpose: string;
  readonly state: string;
  readonly formulaId: string | null;
  readonly plan: Record<string, unknown> | null;
  readonly lastPourAt: Date | null;
  readonly mixed: string;
  readonly applied: string;
  readonly wasted: string;
  readonly estimated: boolean;
  readonly pours: ClientBowlPour[];
}

export function clientBowlView(bowl: ClientBowlRow): ClientBowlView {
  const grams = (quantity: string) => ({ quantity, unit: 'g' as const });
  return {
    id: bowl.id,
    visitId: bowl.visitId,
    visitStartedAt: bowl.visitStartedAt.toISOString(),
    purpose: bowl.purpose,
    state: bowl.state,
    formulaId: bowl.formulaId,
    plan: bowl.plan,
    lastPourAt: bowl.lastPourAt?.toISOString() ?? null,
    mixed: grams(bowl.mixed),
    applied: grams(bowl.applied),
    wasted: grams(bowl.wasted),
    estimated: bowl.estimated,
    pours: bowl.pours,
  };
}
