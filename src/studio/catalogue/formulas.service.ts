/** Saved formulas, of a client or of the studio. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource, IsNull } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { FormulaView } from '../../../shared/contract/catalogue.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { Once, type Answered } from '../../platform/database/once.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { pageOf, type Page } from '../../platform/http/paging.js';
import type { Caller } from '../../platform/http/rights.js';
import { ClientsService, refuseForgotten } from './clients.service.js';
import { inWords } from './conflicts.js';
import { productsOfPlan, type FormulaPlan } from './formula-plan.js';
import { FormulaEntity } from './formula.entity.js';
import type {
  FormulaChangesRequest,
  FormulaListRequest,
  NewFormulaRequest,
} from './formulas.requests.js';
import { givenFields } from './given-fields.js';
import { MISSING_PRODUCTS } from './products.queries.js';
import { insertRows, Records, type NewRow } from './records.queries.js';

/** Kept with the request for ever, so it says nothing about a person. */
interface NewFormula {
  readonly id: string;
  readonly clientId: string | null;
}

@Injectable()
export class FormulasService {
  private readonly records: Records<FormulaEntity>;

  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(ClientsService) private readonly clients: ClientsService,
  ) {
    this.records = new Records(dataSource, FormulaEntity, 'formula');
  }

  /** Of a client, else the studio's own. @throws Problem `not_found` for a client not to be seen */
  async list(caller: Caller, request: FormulaListRequest): Promise<Page<FormulaView>> {
    const { clientId, limit } = request;
    if (clientId) await this.seeClient(caller, clientId);
    const rows = await this.records.page(caller.studioId, request, {
      clientId: clientId ?? IsNull(),
    });
    return pageOf(rows, limit, ({ seq }) => [seq], formulaView);
  }

  /** @throws Problem `not_found`, also for a formula of a client not to be seen */
  async show(caller: Caller, id: string): Promise<FormulaView> {
    const row = await this.records.one(caller.studioId, id);
    if (row.clientId !== null) {
      await this.seeClient(caller, row.clientId).catch(() => {
        throw new Problem('not_found', { what: 'formula', id });
      });
    }
    return formulaView(row);
  }

  /** @throws Problem `not_found`, `client_forgotten`, `product_not_given` */
  add(caller: Caller, request: NewFormulaRequest): Promise<Answered<NewFormula>> {
    return this.once.answer(caller.studioId, 'POST /formulas', request, async (tx) => {
      const { clientId = null } = request;
      if (clientId !== null) refuseForgotten(await this.clients.visible(tx, caller, clientId));
      await this.checkPlans(tx, request);
      const [row] = await this.insert(tx, [request]);
      if (!row) throw new Error('The formula was not stored.');
      return { id: row.id, clientId };
    });
  }

  /** Inserts formulas in one statement, however many; what they name is taken as checked. */
  async insert(
    tx: Transaction,
    requests: readonly NewFormulaRequest[],
  ): Promise<NewRow<FormulaEntity>[]> {
    const rows = requests.map((request) => ({
      id: request.id ?? uuidv7(),
      clientId: request.clientId ?? null,
      name: request.name,
      purpose: request.purpose ?? null,
      plan: request.plan,
      poured: request.poured ?? null,
      minutesOnHair: request.minutesOnHair ?? null,
      nextTime: request.nextTime ?? null,
      retiredAt: null,
    }));
    await inWords(insertRows(tx, FormulaEntity, rows), {
      formula_pkey: () => new Problem('id_reused', { id: rows[0]?.id ?? '' }),
    });
    return rows;
  }

  /** @throws Problem `not_found`, `nothing_to_change`, `product_not_given` */
  async change(caller: Caller, id: string, request: FormulaChangesRequest): Promise<FormulaView> {
    const { name, purpose, plan, poured, minutesOnHair, nextTime, retired } = request;
    const changes = {
      ...givenFields({ name, purpose, plan, poured, minutesOnHair, nextTime }),
      ...(retired === undefined ? {} : { retiredAt: retired ? this.clock.now() : null }),
    };
    if (Object.keys(changes).length === 0) throw new Problem('nothing_to_change', {});
    await this.show(caller, id);
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      await this.checkPlans(tx, request);
      return formulaView(await this.records.changeIn(tx, id, () => changes));
    });
  }

  /** It leaves the lists and stays in history. @throws Problem `not_found` */
  async retire(caller: Caller, id: string): Promise<FormulaView> {
    await this.show(caller, id);
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const row = await this.records.changeIn(tx, id, ({ retiredAt }) =>
        retiredAt ? {} : { retiredAt: this.clock.now() },
      );
      return formulaView(row);
    });
  }

  private async seeClient(caller: Caller, clientId: string): Promise<void> {
    await this.clients.visible(forStudio(this.dataSource, caller.studioId), caller, clientId);
  }

  private async checkPlans(
    tx: Transaction,
    { plan, poured }: { plan?: FormulaPlan; poured?: FormulaPlan | null },
  ): Promise<void> {
    const named = Object.entries({ plan, poured }).flatMap(([field, each]) =>
      productsOfPlan(each ?? {}).map(({ id, pointer }) => ({ id, pointer: `/${field}${pointer}` })),
    );
    if (named.length === 0) return;
    const ids = named.map(({ id }) => id);
    const [missing] = await tx.query<{ id: string }>(MISSING_PRODUCTS, [ids]);
    if (!missing) return;
    const pointer = named.find(({ id }) => id === missing.id)?.pointer;
    throw new Problem('product_not_given', { id: missing.id }, pointer);
  }
}

function formulaView(row: FormulaEntity): FormulaView {
  return {
    id: row.id,
    clientId: row.clientId,
    name: row.name,
    purpose: row.purpose,
    plan: row.plan,
    poured: row.poured,
    minutesOnHair: row.minutesOnHair,
    nextTime: row.nextTime,
    retiredAt: row.retiredAt,
  };
}
