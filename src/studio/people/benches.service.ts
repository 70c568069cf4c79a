/** Benches, and the tokens that devices and programs of the studio hold. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource, LessThan } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { BenchView, NewTokenView, TokenView } from '../../../shared/contract/people.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { Once, type Answered } from '../../platform/database/once.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { cursorValues, pageOf, type Page, type PageRequest } from '../../platform/http/paging.js';
import type { Caller } from '../../platform/http/rights.js';
import { CallersService } from './callers.service.js';
import { BenchEntity } from './people.entity.js';
import type { BenchChangesRequest, NewBenchRequest, NewTokenRequest } from './people.requests.js';
import { benchView, tokenView, type TokenRow } from './people.views.js';
import { newSecret } from './secret.js';
import { TOKEN_MAKE, TOKEN_REVOKE, TOKENS, TOKENS_REVOKE_OF_BENCH } from './sign-in.queries.js';

@Injectable()
export class BenchesService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(CallersService) private readonly callers: CallersService,
  ) {}

  /** Newest first. */
  list(caller: Caller, request: PageRequest): Promise<Page<BenchView>> {
    const before = cursorValues(request, 1)?.[0];
    return inTransaction(this.dataSource, caller.studioId, async ({ studioId, manager }) => {
      const rows = await manager.find(BenchEntity, {
        where: { studioId, ...(before === undefined ? {} : { id: LessThan(before) }) },
        order: { id: 'DESC' },
        take: request.limit + 1,
      });
      return pageOf(rows, request.limit, (bench) => [bench.id], benchView);
    });
  }

  /** @throws Problem `not_found` */
  show(caller: Caller, id: string): Promise<BenchView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) =>
      benchView(await this.find(tx, id)),
    );
  }

  add(caller: Caller, request: NewBenchRequest): Promise<Answered<BenchView>> {
    return this.once.answer(caller.studioId, 'benches', request, async (tx) => {
      const { id = uuidv7(), name } = request;
      const bench = { studioId: tx.studioId, id, name, retiredAt: null };
      await tx.manager.insert(BenchEntity, bench);
      return benchView(bench);
    });
  }

  /** @throws Problem `not_found` */
  change(caller: Caller, id: string, changes: BenchChangesRequest): Promise<BenchView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const bench = await this.find(tx, id);
      bench.name = changes.name ?? bench.name;
      await tx.manager.update(BenchEntity, { studioId: tx.studioId, id }, { name: bench.name });
      return benchView(bench);
    });
  }

  /** Its devices can do nothing any more. @throws Problem `not_found` */
  async retire(caller: Caller, id: string): Promise<BenchView> {
    const view = await inTransaction(this.dataSource, caller.studioId, async (tx) => {
      await this.find(tx, id);
      const now = this.clock.now();
      await tx.execute(TOKENS_REVOKE_OF_BENCH, [id, now]);
      const [row] = await tx.query<{ retiredAt: Date; name: string }>(
        `update bench set retired_at = coalesce(retired_at, $2)
          where studio_id = current_studio() and id = $1
         returning name, retired_at as "retiredAt"`,
        [id, now],
      );
      return benchView({ studioId: tx.studioId, id, name: '', retiredAt: null, ...row });
    });
    this.callers.forget();
    return view;
  }

  /** Newest first; never their texts. */
  async tokens(caller: Caller, request: PageRequest): Promise<Page<TokenView>> {
    const before = cursorValues(request, 1)?.[0] ?? null;
    const rows = await forStudio(this.dataSource, caller.studioId).query<TokenRow>(TOKENS, [
      before,
      request.limit + 1,
    ]);
    return pageOf(rows, request.limit, (token) => [token.id], tokenView);
  }

  /**
   * Makes a token; its text is in this answer and nowhere else.
   * @param by who makes it; absent when the command line does
   * @throws Problem `not_found`, `retired`
   */
  makeToken(
    studioId: string,
    request: NewTokenRequest,
    by: Pick<Caller, 'personId'> = { personId: undefined },
  ): Promise<NewTokenView> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const { name, role, benchId } = request;
      if (benchId !== undefined) {
        const bench = await this.find(tx, benchId);
        if (bench.retiredAt) throw new Problem('retired', { name: bench.name });
      }
      const { text, hash } = newSecret('token', studioId);
      const values = [uuidv7(), name, role, benchId ?? null, hash, this.clock.now()];
      const [row] = await tx.query<TokenRow>(TOKEN_MAKE, [...values, by.personId ?? null]);
      if (!row) throw new Error('The token was not stored.');
      return { ...tokenView(row), token: text };
    });
  }

  /** From now on it opens nothing; people signed in on it are out. @throws Problem `not_found` */
  async revoke(caller: Caller, id: string): Promise<TokenView> {
    const [row] = await forStudio(this.dataSource, caller.studioId).query<TokenRow>(TOKEN_REVOKE, [
      id,
      this.clock.now(),
    ]);
    if (!row) throw new Problem('not_found', { what: 'token', id });
    this.callers.forget();
    return tokenView(row);
  }

  private async find(tx: Transaction, id: string): Promise<BenchEntity> {
    const bench = await tx.manager.findOneBy(BenchEntity, { studioId: tx.studioId, id });
    if (!bench) throw new Problem('not_found', { what: 'bench', id });
    return bench;
  }
}
