/** Clients: found by those who may see them, entered, changed, retired, forgotten. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { clientLabel } from '../../../shared/client-label.js';
import type {
  BenchClientView,
  ClientBowlView,
  ClientView,
  NewClient,
} from '../../../shared/contract/clients.js';
import { asOneLine, LineCheck } from '../../../shared/problems/lines-refused.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { Once, type Answered } from '../../platform/database/once.js';
import {
  forStudio,
  inTransaction,
  type Reader,
  type Transaction,
} from '../../platform/database/transaction.js';
import { cursorValues, pageOf, type Page } from '../../platform/http/paging.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import { ClientEntity } from './client.entity.js';
import {
  CLIENT,
  CLIENT_BOWLS,
  CLIENTS,
  FORGET_CLIENT,
  FORGET_FORMULAS,
  FORGET_TESTS,
  HOLD_NUMBERS,
  IS_OWN_CLIENT,
  NUMBERS,
  SENSITIVITY_TESTS,
} from './clients.queries.js';
import type {
  ClientBowlsRequest,
  ClientChangesRequest,
  ClientListRequest,
  NewClientRequest,
} from './clients.requests.js';
import {
  benchClientView,
  clientBowlView,
  clientView,
  newClientView,
  sensitivityTestView,
  type ClientBowlRow,
  type ClientRow,
  type SensitivityTestRow,
} from './clients.views.js';
import { inWords } from './conflicts.js';
import { givenFields } from './given-fields.js';
import { insertRows, Records } from './records.queries.js';

@Injectable()
export class ClientsService {
  private readonly records: Records<ClientEntity>;

  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {
    this.records = new Records(dataSource, ClientEntity, 'client');
  }

  /** A bench sees those who are here today, by first name and initial. */
  async list(
    caller: Caller,
    request: ClientListRequest,
  ): Promise<Page<ClientView | BenchClientView>> {
    const [before = null] = cursorValues(request, 1) ?? [];
    const { limit, retired, name } = request;
    const atBench = !mayAct(caller, 'stylist');
    const rows = await forStudio(this.dataSource, caller.studioId).query<ClientRow>(CLIENTS, [
      ...[this.clock.now(), atBench, before, limit + 1],
      ...[retired && !atBench, atBench ? null : (name ?? null)],
    ]);
    const view = atBench ? benchClientView : (row: ClientRow) => clientView(row);
    return pageOf<ClientRow, ClientView | BenchClientView>(rows, limit, ({ seq }) => [seq], view);
  }

  /** @throws Problem `not_found`, also for a client whom the caller may not see */
  async show(caller: Caller, id: string): Promise<ClientView | BenchClientView> {
    const reader = forStudio(this.dataSource, caller.studioId);
    const row = await this.visible(reader, caller, id);
    if (!mayAct(caller, 'stylist')) return benchClientView(row);
    if (!(await this.mayReadTests(reader, caller, id))) return clientView(row);
    const tests = await reader.query<SensitivityTestRow>(SENSITIVITY_TESTS, [id]);
    return clientView(row, tests.map(sensitivityTestView));
  }

  /** @throws Problem `number_in_use` */
  add(caller: Caller, request: NewClientRequest): Promise<Answered<NewClient>> {
    return this.once.answer(caller.studioId, 'POST /clients', request, async (tx) => {
      const [added] = await asOneLine(this.insert(tx, [request]));
      if (!added) throw new Error('The client was not stored.');
      return newClientView(added);
    });
  }

  /**
   * Inserts clients in one statement, however many; numbers go on from the highest.
   * @throws LinesRefused with every line whose number is taken
   */
  async insert(
    tx: Transaction,
    requests: readonly NewClientRequest[],
  ): Promise<{ id: string; number: number }[]> {
    const given = requests.flatMap(({ number }) => number ?? []);
    await tx.query(HOLD_NUMBERS);
    const [known] = await tx.query<{ highest: number; taken: number[] }>(NUMBERS, [given]);
    const taken = new Set(known?.taken);
    const check = new LineCheck(requests.length);
    let last = given.reduce((most, number) => (number > most ? number : most), known?.highest ?? 0);
    const rows = requests.map((request, line) => {
      const { number = (last += 1) } = request;
      if (taken.has(number)) {
        check.refuse(line, new Problem('number_in_use', { number }, '/number'));
      }
      taken.add(number);
      return { ...detailsOf(request), id: request.id ?? uuidv7(), number };
    });
    check.done();
    const kept = { retiredAt: null, forgottenAt: null };
    await inWords(
      insertRows(
        tx,
        ClientEntity,
        rows.map((row) => ({ ...emptyDetails, ...row, ...kept })),
      ),
      { client_pkey: () => new Problem('id_reused', { id: requests[0]?.id ?? '' }) },
    );
    return rows;
  }

  /** @throws Problem `not_found`, `nothing_to_change`, `client_forgotten` */
  async change(caller: Caller, id: string, request: ClientChangesRequest) {
    const { retired } = request;
    const changes = {
      ...detailsOf(request),
      ...(retired === undefined ? {} : { retiredAt: retired ? this.clock.now() : null }),
    };
    if (Object.keys(changes).length === 0) throw new Problem('nothing_to_change', {});
    await inTransaction(this.dataSource, caller.studioId, (tx) =>
      this.records.changeIn(tx, id, (client) => {
        refuseForgotten(client);
        return changes;
      }),
    );
    return this.show(caller, id);
  }

  /** The client leaves the lists and stays in history. @throws Problem `not_found` */
  async retire(caller: Caller, id: string) {
    await inTransaction(this.dataSource, caller.studioId, (tx) =>
      this.records.changeIn(tx, id, ({ retiredAt }) =>
        retiredAt ? {} : { retiredAt: this.clock.now() },
      ),
    );
    return this.show(caller, id);
  }

  /**
   * Erases all that is personal: name, contact, notes, hair, tests, words of formulas. What the
   * ledger and visits hold goes on as "client 0192". Done again, it changes nothing.
   * @throws Problem `not_found`
   */
  async forget(caller: Caller, id: string) {
    await inTransaction(this.dataSource, caller.studioId, async (tx) => {
      await this.records.oneIn(tx, id, true);
      const now = this.clock.now();
      await Promise.all([
        tx.execute(FORGET_CLIENT, [id, now]),
        tx.execute(FORGET_FORMULAS, [id, now]),
        tx.execute(FORGET_TESTS, [id]),
      ]);
    });
    return this.show(caller, id);
  }

  /** What was mixed for a client, the latest visit first. @throws Problem `not_found` */
  async bowls(
    caller: Caller,
    id: string,
    request: ClientBowlsRequest,
  ): Promise<Page<ClientBowlView>> {
    const reader = forStudio(this.dataSource, caller.studioId);
    const [startedAt = null, bowlId = null] = cursorValues(request, 2) ?? [];
    await this.visible(reader, caller, id);
    const rows = await reader.query<ClientBowlRow>(CLIENT_BOWLS, [
      ...[id, startedAt, bowlId, request.limit + 1],
    ]);
    return pageOf(
      rows,
      request.limit,
      (bowl) => [bowl.visitStartedAt.toISOString(), bowl.id],
      clientBowlView,
    );
  }

  /** @throws Problem `not_found`, also for a client whom the caller may not see */
  async visible(reader: Reader, caller: Caller, id: string): Promise<ClientRow> {
    const atBench = !mayAct(caller, 'stylist');
    const [row] = await reader.query<ClientRow>(CLIENT, [this.clock.now(), atBench, id]);
    if (!row) throw new Problem('not_found', { what: 'client', id });
    return row;
  }

  /** Managers may; a stylist where the client is her own. */
  async mayReadTests(reader: Reader, caller: Caller, id: string): Promise<boolean> {
    if (mayAct(caller, 'manager')) return true;
    if (!mayAct(caller, 'stylist') || caller.personId === undefined) return false;
    const [row] = await reader.query<{ own: boolean }>(IS_OWN_CLIENT, [id, caller.personId]);
    return row?.own ?? false;
  }
}

const emptyDetails = {
  name: null,
  contact: null,
  notes: null,
  nextTime: null,
  hairLength: null,
  hairDensity: null,
  sixteenOrOlder: null,
};

function detailsOf(request: NewClientRequest | ClientChangesRequest) {
  const { name, contact, notes, nextTime, hairLength, hairDensity, sixteenOrOlder } = request;
  const hair = { hairLength, hairDensity };
  return givenFields({ name, contact, notes, nextTime, ...hair, sixteenOrOlder });
}

/** @throws Problem `client_forgotten` */
export function refuseForgotten(client: {
  readonly number: number;
  readonly forgottenAt: string | Date | null;
}): void {
  if (client.forgottenAt === null) return;
  const label = clientLabel({ number: client.number, name: null });
  throw new Problem('client_forgotten', { client: label });
}
