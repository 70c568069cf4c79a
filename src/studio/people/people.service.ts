/** The people of a studio: who they are, what they may do, who has left. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource, IsNull, LessThan, Not } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { PersonView } from '../../../shared/contract/people.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { Once, type Answered } from '../../platform/database/once.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { cursorValues, pageOf, type Page } from '../../platform/http/paging.js';
import type { Caller } from '../../platform/http/rights.js';
import { CallersService } from './callers.service.js';
import { PersonEntity } from './people.entity.js';
import type {
  NewPersonRequest,
  PeopleListRequest,
  PersonChangesRequest,
} from './people.requests.js';
import { personView } from './people.views.js';
import { hashPin } from './pin.js';
import { OWNERS_LOCK, SESSIONS_END_OF_PERSON, WRONG_PINS_FORGET } from './sign-in.queries.js';

@Injectable()
export class PeopleService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(CallersService) private readonly callers: CallersService,
  ) {}

  /** Newest first. */
  list(caller: Caller, request: PeopleListRequest): Promise<Page<PersonView>> {
    const before = cursorValues(request, 1)?.[0];
    return inTransaction(this.dataSource, caller.studioId, async ({ studioId, manager }) => {
      const rows = await manager.find(PersonEntity, {
        where: {
          studioId,
          ...(request.retired ? {} : { retiredAt: IsNull() }),
          ...(before === undefined ? {} : { id: LessThan(before) }),
        },
        order: { id: 'DESC' },
        take: request.limit + 1,
      });
      const view = (person: PersonEntity) => personView(person, caller);
      return pageOf(rows, request.limit, (person) => [person.id], view);
    });
  }

  /** @throws Problem `not_found` */
  show(caller: Caller, id: string): Promise<PersonView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) =>
      personView(await this.find(tx, id), caller),
    );
  }

  async add(caller: Caller, request: NewPersonRequest): Promise<Answered<PersonView>> {
    const pinHash = request.pin === undefined ? null : await hashPin(request.pin);
    return this.once.answer(caller.studioId, 'people', request, async (tx) => {
      const person = tx.manager.create(PersonEntity, {
        studioId: tx.studioId,
        id: request.id ?? uuidv7(),
        name: request.name,
        role: request.role,
        kind: request.kind,
        pinHash,
        hourRate: request.hourRate ?? null,
        commissionShare: request.commission?.share ?? null,
        commissionOn: request.commission?.on ?? null,
        retiredAt: null,
      });
      await tx.manager.insert(PersonEntity, person);
      return personView(person, caller);
    });
  }

  /** A new role or PIN ends the person's sessions. @throws Problem `not_found`, `last_owner` */
  async change(caller: Caller, id: string, changes: PersonChangesRequest): Promise<PersonView> {
    const pinHash = changes.pin === undefined ? undefined : await hashPin(changes.pin);
    const view = await inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const person = await this.find(tx, id);
      if (changes.role !== undefined && changes.role !== 'owner') await this.keepOwner(tx, person);
      const { commission } = changes;
      const changed = {
        name: changes.name ?? person.name,
        role: changes.role ?? person.role,
        kind: changes.kind ?? person.kind,
        pinHash: pinHash ?? person.pinHash,
        hourRate: changes.hourRate === undefined ? person.hourRate : changes.hourRate,
        ...(commission === undefined
          ? {}
          : { commissionShare: commission?.share ?? null, commissionOn: commission?.on ?? null }),
      };
      await tx.manager.update(PersonEntity, { studioId: tx.studioId, id }, changed);
      if (pinHash !== undefined) await tx.execute(WRONG_PINS_FORGET, [id]);
      if (pinHash !== undefined || changed.role !== person.role) await this.signOut(tx, id);
      return personView(Object.assign(person, changed), caller);
    });
    this.callers.forget();
    return view;
  }

  /** Somebody has left: no more signing in; what they did stays. @throws as `change` */
  async retire(caller: Caller, id: string): Promise<PersonView> {
    const view = await inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const person = await this.find(tx, id);
      await this.keepOwner(tx, person);
      const [row] = await tx.query<{ retiredAt: Date }>(
        `update person set retired_at = coalesce(retired_at, $2)
          where studio_id = current_studio() and id = $1 returning retired_at as "retiredAt"`,
        [id, this.clock.now()],
      );
      await this.signOut(tx, id);
      return personView(Object.assign(person, row), caller);
    });
    this.callers.forget();
    return view;
  }

  private async find(tx: Transaction, id: string): Promise<PersonEntity> {
    const person = await tx.manager.findOneBy(PersonEntity, { studioId: tx.studioId, id });
    if (!person) throw new Problem('not_found', { what: 'person', id });
    return person;
  }

  /** Two owners who leave at the same moment wait for each other here. */
  private async keepOwner(tx: Transaction, person: PersonEntity): Promise<void> {
    if (person.role !== 'owner' || person.pinHash === null || person.retiredAt) return;
    await tx.query(OWNERS_LOCK);
    const others = await tx.manager.countBy(PersonEntity, {
      studioId: tx.studioId,
      id: Not(person.id),
      role: 'owner',
      pinHash: Not(IsNull()),
      retiredAt: IsNull(),
    });
    if (others === 0) throw new Problem('last_owner', { name: person.name });
  }

  private async signOut(tx: Transaction, personId: string): Promise<void> {
    await tx.execute(SESSIONS_END_OF_PERSON, [personId, this.clock.now()]);
  }
}
