/** Terms of buying one product: price breaks of its packs, and how many there is room for. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { OrderTermsView } from '../../../shared/contract/purchasing.js';
import { canonical, decimal, fixed } from '../../../shared/decimal.js';
import { breaksAreInOrder } from '../../../shared/ordering/price-breaks.js';
import { Problem } from '../../../shared/problems/problem.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import {
  READ_ORDER_TERMS,
  READ_PRODUCT_PACKS,
  WRITE_BREAKS,
  WRITE_ORDER_TERMS,
} from './plan.queries.js';
import type { OrderTermsRequest } from './plan.requests.js';

interface PackRow {
  name: string;
  id: string | null;
  label: string | null;
  list_price: string | null;
}

interface TermsRow {
  id: string;
  most_packs: number | null;
  breaks: OrderTermsView['priceBreaks'];
}

@Injectable()
export class OrderTermsService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** @throws Problem `not_found` */
  show(studioId: string, productId: string): Promise<OrderTermsView> {
    return inTransaction(this.dataSource, studioId, (tx) => this.read(tx, productId));
  }

  /** Replaces the terms of a product. @throws Problem `breaks_out_of_order` and for packs */
  set(studioId: string, productId: string, request: OrderTermsRequest): Promise<OrderTermsView> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const packs = await tx.query<PackRow & Record<string, unknown>>(READ_PRODUCT_PACKS, [
        productId,
      ]);
      if (packs.length === 0) throw new Problem('not_found', { what: 'product', id: productId });
      const breaks = breaksOf(packs, request);
      await tx.query(WRITE_ORDER_TERMS, [productId, request.mostPacks ?? null]);
      await tx.execute(WRITE_BREAKS, [JSON.stringify(breaks)]);
      return this.read(tx, productId);
    });
  }

  private async read(tx: Transaction, productId: string): Promise<OrderTermsView> {
    const [row] = await tx.query<TermsRow & Record<string, unknown>>(READ_ORDER_TERMS, [productId]);
    if (!row) throw new Problem('not_found', { what: 'product', id: productId });
    return {
      productId: row.id,
      mostPacks: row.most_packs,
      priceBreaks: row.breaks.map((each) => ({
        ...each,
        packPrice: canonical(decimal(each.packPrice)),
      })),
    };
  }
}

function breaksOf(packs: readonly PackRow[], request: OrderTermsRequest) {
  const product = packs[0]?.name ?? '';
  const known = packs.flatMap(({ label }) => (label === null ? [] : [label]));
  const rows = request.priceBreaks.map(({ packLabel, fromPacks, packPrice }, index) => {
    const pack = packs.find(({ label }) => packLabel === undefined || label === packLabel);
    const pointer = `/priceBreaks/${index}/packLabel`;
    if (known.length === 0) throw new Problem('product_without_pack', { product }, pointer);
    if (!pack)
      throw new Problem('unknown_pack', { product, label: packLabel ?? '', known }, pointer);
    return { pack, pack_id: pack.id, from_packs: fromPacks, pack_price: fixed(packPrice, 6) };
  });
  for (const pack of packs) {
    const own = rows.filter((row) => row.pack_id === pack.id);
    const breaks = own.map(({ from_packs, pack_price }) => {
      return { fromPacks: from_packs, packPrice: pack_price };
    });
    if (breaksAreInOrder(pack.list_price, breaks)) continue;
    throw new Problem('breaks_out_of_order', { pack: `${product}, ${pack.label}` }, '/priceBreaks');
  }
  return rows.map(({ pack_id, from_packs, pack_price }) => ({ pack_id, from_packs, pack_price }));
}
