/** Rows of people, benches and tokens as they travel. */
import type { BenchView, PersonView, TokenView } from '../../../shared/contract/people.js';
import { canonical } from '../../../shared/decimal.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import type { BenchEntity, PersonEntity } from './people.entity.js';

/** A person; what an hour and a commission cost is shown to owners only. */
export function personView(person: PersonEntity, caller: Caller): PersonView {
  const { id, name, role, kind, retiredAt } = person;
  const view = { id, name, role, kind, hasPin: person.pinHash !== null };
  const money = mayAct(caller, 'owner') ? moneyOf(person) : {};
  return { ...view, ...money, retiredAt: retiredAt?.toISOString() ?? null };
}

function moneyOf(person: PersonEntity): Pick<PersonView, 'hourRate' | 'commission'> {
  const { hourRate, commissionShare, commissionOn } = person;
  return {
    hourRate: hourRate && canonical(hourRate),
    commission:
      commissionShare && commissionOn
        ? { share: canonical(commissionShare), on: commissionOn }
        : null,
  };
}

/** A bench. */
export function benchView({ id, name, retiredAt }: BenchEntity): BenchView {
  return { id, name, retiredAt: retiredAt?.toISOString() ?? null };
}

/** A token as it is read. */
export interface TokenRow {
  readonly id: string;
  readonly name: string;
  readonly role: TokenView['role'];
  readonly benchId: string | null;
  readonly madeAt: Date;
  readonly usedAt: Date | null;
  readonly revokedAt: Date | null;
}

/** A token, without its text: that is shown once, when it is made. */
export function tokenView(row: TokenRow): TokenView {
  return {
    id: row.id,
    name: row.name,
    role: row.role,
    benchId: row.benchId,
    madeAt: row.madeAt.toISOString(),
    usedAt: row.usedAt?.toISOString() ?? null,
    revokedAt: row.revokedAt?.toISOString() ?? null,
  };
}
