/** Products and their packs: entered one or many at once, found, changed, retired. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { readGtin } from '../../../shared/gtin.js';
import { asOneLine, LineCheck, LinesRefused } from '../../../shared/problems/lines-refused.js';
import { Problem } from '../../../shared/problems/problem.js';
import { productCard } from '../../../shared/product-card.js';
import { Clock } from '../../platform/clock.js';
import { Once, type Answered } from '../../platform/database/once.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { cursorValues, pageOf, type Page } from '../../platform/http/paging.js';
import { mayAct, whoMay, type Caller } from '../../platform/http/rights.js';
import { inWords } from './conflicts.js';
import { PackEntity } from './pack.entity.js';
import { changedProduct, keptSinceItMoved } from './product-changes.js';
import { checkReferences, type CheckedProduct } from './product-references.queries.js';
import { packRows, productRow } from './product-rows.js';
import { ProductEntity } from './product.entity.js';
import {
  DROP_PACKS,
  HOLD_PRODUCT,
  PRODUCT,
  PRODUCTS,
  type ProductRow,
} from './products.queries.js';
import type {
  ManyProductsRequest,
  NewProductRequest,
  ProductChangesRequest,
  ProductListRequest,
} from './products.requests.js';
import { productView } from './products.views.js';
import { insertRows } from './records.queries.js';

@Injectable()
export class ProductsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  async list(caller: Caller, request: ProductListRequest): Promise<Page<ProductView>> {
    const { limit, retired, kind, line, gtin, name } = request;
    const [before = null] = cursorValues(request, 1) ?? [];
    const rows = await forStudio(this.dataSource, caller.studioId).query<ProductRow>(PRODUCTS, [
      ...[before, limit + 1, retired, kind ?? null, line ?? null],
      ...[gtin === undefined ? null : readGtin(gtin), name ?? null],
    ]);
    return pageOf(
      rows,
      limit,
      ({ seq }) => [seq],
      (row) => productView(row, caller.role),
    );
  }

  /** @throws Problem `not_found` */
  async show(caller: Caller, id: string): Promise<ProductView> {
    const reader = forStudio(this.dataSource, caller.studioId);
    const [row] = await reader.query<ProductRow>(PRODUCT, [id]);
    if (!row) throw new Problem('not_found', { what: 'product', id });
    return productView(row, caller.role);
  }

  /** @throws Problem as `productCard` does, `gtin_in_use`, `not_found` for a supplier */
  add(caller: Caller, request: NewProductRequest): Promise<Answered<ProductView>> {
    return this.once.answer(caller.studioId, 'POST /products', request, async (tx) => {
      refuseMoney(request, caller);
      const [added] = await asOneLine(this.insert(tx, [request]));
      if (!added) throw new Error('The product was not stored.');
      return this.answer(tx, added, caller);
    });
  }

  /** All or none of a list. @throws LinesRefused with every line that needs correcting */
  addMany(
    caller: Caller,
    request: ManyProductsRequest,
    dry: boolean,
  ): Promise<Answered<{ items: ProductView[] }>> {
    const work = async (tx: Transaction) => {
      for (const product of request.products) refuseMoney(product, caller);
      const added = await this.insert(tx, request.products).catch((error: unknown) => {
        throw error instanceof LinesRefused
          ? new LinesRefused(error.refusals, error.lines, '/products')
          : error;
      });
      return { items: await Promise.all(added.map((each) => this.answer(tx, each, caller))) };
    };
    return this.once.answer(caller.studioId, 'POST /products/many', request, work, { dry });
  }

  /**
   * Inserts products in two statements, however many.
   * @throws LinesRefused with every line that needs correcting
   */
  async insert(tx: Transaction, requests: readonly NewProductRequest[]): Promise<CheckedProduct[]> {
    const check = new LineCheck(requests.length);
    const checked = requests.flatMap((request, line): CheckedProduct[] => {
      const card = check.of(line, () => productCard(request));
      return card ? [{ line, id: request.id ?? uuidv7(), entry: request, card }] : [];
    });
    await checkReferences(tx, checked, check);
    check.done();
    const products = checked.map(({ id, entry, card }) => ({
      ...productRow(id, entry, card),
      retiredAt: null,
    }));
    const packs = checked.flatMap(({ id, entry, card }) =>
      packRows({ id, name: entry.name }, card),
    );
    await inWords(
      Promise.all([insertRows(tx, ProductEntity, products), insertRows(tx, PackEntity, packs)]),
      {
        product_pkey: () => new Problem('id_reused', { id: requests[0]?.id ?? '' }),
        pack_pkey: () => new Problem('id_reused', { id: packs[0]?.id ?? '' }),
        pack_gtin: gtinTaken,
      },
    );
    return checked;
  }

  /** @throws Problem as `add` does, `kept_since_it_moved`, `packs_in_old_unit`, `pack_unknown` */
  async change(caller: Caller, id: string, request: ProductChangesRequest): Promise<ProductView> {
    if (Object.values(request).every((value) => value === undefined)) {
      throw new Problem('nothing_to_change', {});
    }
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const [held] = await tx.query<{ moved: boolean }>(HOLD_PRODUCT, [id]);
      const [row] = await tx.query<ProductRow>(PRODUCT, [id]);
      if (!held || !row) throw new Problem('not_found', { what: 'product', id });
      const entry = changedProduct(row, request, held.moved);
      const card = productCard(entry);
      const check = new LineCheck(1);
      await checkReferences(tx, [{ line: 0, id, entry, card }], check);
      await asOneLine(Promise.resolve().then(() => check.done()));
      const packs = packRows({ id, name: entry.name }, card, row.packs);
      const changes = { ...productRow(id, entry, card), ...this.retirement(request.retired) };
      await inWords(this.write(tx, id, changes, request.packs && packs), {
        '23001': () => keptSinceItMoved(row, request.unit ? 'unit' : 'kind'),
        pack_gtin: gtinTaken,
      });
      return this.answer(tx, { id, card }, caller);
    });
  }

  /** It leaves the lists and stays in history. @throws Problem `not_found` */
  retire(caller: Caller, id: string): Promise<ProductView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const [held] = await tx.query(HOLD_PRODUCT, [id]);
      if (!held) throw new Problem('not_found', { what: 'product', id });
      await tx.execute(
        `update product set retired_at = coalesce(retired_at, $2)
          where studio_id = current_studio() and id = $1`,
        [id, this.clock.now()],
      );
      return this.answer(tx, { id }, caller);
    });
  }

  private retirement(retired: boolean | undefined): { retiredAt?: string | null } {
    if (retired === undefined) return {};
    return { retiredAt: retired ? this.clock.now() : null };
  }

  private async write(
    tx: Transaction,
    id: string,
    changes: Partial<ProductEntity>,
    packs: ReturnType<typeof packRows> | undefined,
  ): Promise<void> {
    await tx.manager.update(ProductEntity, { studioId: tx.studioId, id }, changes);
    if (!packs) return;
    await tx.execute(DROP_PACKS, [id]);
    await insertRows(tx, PackEntity, packs);
  }

  private async answer(
    tx: Transaction,
    { id, card }: { id: string; card?: { readonly assumedDensity: boolean } },
    caller: Caller,
  ): Promise<ProductView> {
    const [row] = await tx.query<ProductRow>(PRODUCT, [id]);
    if (!row) throw new Problem('not_found', { what: 'product', id });
    const view = productView(row, caller.role);
    return card?.assumedDensity ? { ...view, assumedDensity: true } : view;
  }
}

/** Prices and terms of buying are a manager's; the rest anybody may enter at the bench. */
function refuseMoney(request: NewProductRequest, caller: Caller): void {
  if (mayAct(caller, 'manager')) return;
  const priced = request.packs.findIndex(({ listPrice }) => listPrice !== undefined);
  const pointer =
    priced >= 0
      ? `/packs/${priced}/listPrice`
      : request.reorder
        ? '/reorder'
        : request.supplierId && '/supplierId';
  if (pointer) throw new Problem('not_your_right', { needs: whoMay('manager') }, pointer);
}

/** Said where another copy took the GTIN between our looking and our writing. */
function gtinTaken(): Problem {
  return new Problem('gtin_in_use', { gtin: 'A GTIN of these', product: 'another product' });
}
