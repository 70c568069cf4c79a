/** A supplier's new price list: what it would do to every service, and taking it over. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type {
  AcceptedPricesView,
  PriceEffectView,
  PriceHistoryView,
} from '../../../shared/contract/price-lists.js';
import { canonical, count, decimal } from '../../../shared/decimal.js';
import { effectOf } from '../../../shared/price-effects.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import {
  forStudio,
  inTransaction,
  type Reader,
  type Transaction,
} from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { BulkService } from '../catalogue/bulk.service.js';
import { StudioService } from '../people/studio.service.js';
import { newPrices, type ListedPack, type NewPrice } from './price-list-reading.js';
import {
  HAS_SUPPLIER,
  NOTE_PRICES,
  READ_LAST_NOTED,
  READ_NOTED,
  READ_PACKS,
  READ_PRICES_NOW,
  READ_RECENT_VISITS,
} from './price-lists.queries.js';
import type {
  AcceptedPricesRequest,
  PriceEffectRequest,
  PriceListRequest,
} from './price-lists.requests.js';
import { changedPrice, effectView, inOrderOfMoney, totalOf } from './price-lists.views.js';
import { repricedVisits, type MenuService } from './repriced-visits.js';
import { SheetRowsService } from './sheet-rows.service.js';

type Recent = { readonly id: string; readonly key: string; readonly label: string } & {
  readonly menu: string;
};

@Injectable()
export class PriceListsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(BulkService) private readonly bulk: BulkService,
    @Inject(SheetRowsService) private readonly sheetRows: SheetRowsService,
  ) {}

  /**
   * What the list would do to every service that was done in the last months, at today's menu and
   * rules, its product bought again; nothing is stored.
   * @throws Problem `no_tax_rule`, and those of `newPrices`
   */
  effect(caller: Caller, request: PriceEffectRequest): Promise<PriceEffectView> {
    const { months, margin } = request;
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const prices = await this.pricesOf(tx, request);
      const [{ settings, currency }, recent, menu] = await Promise.all([
        this.studio.pricing(tx),
        tx.query<Recent & Record<string, unknown>>(READ_RECENT_VISITS, [this.clock.now(), months]),
        tx.query<MenuService & Record<string, unknown>>(READ_PRICES_NOW, [this.clock.now()]),
      ]);
      const ids = recent.map((visit) => visit.id);
      const rows = await this.sheetRows.ofMany(tx, ids);
      const products = rows.flatMap((each) => each.flows.map((flow) => flow.product_id));
      const after = await this.sheetRows.unitCosts(tx, [...new Set(products)], byPack(prices));
      const today = { settings, menu: new Map(menu.map((service) => [service.id, service])) };
      const visits = repricedVisits(rows, today, after);
      const step = settings.priceStep === null ? {} : { step: decimal(settings.priceStep) };
      const terms = { months: count(months), ...step, ...(margin ? { margin } : {}) };
      const services = [...new Set(recent.map((visit) => visit.key))].flatMap((key) => {
        const own = recent.filter((visit) => visit.key === key);
        const some = own.flatMap(({ id }) => visits.get(id) ?? []);
        const found = effectOf(some, terms);
        const [first] = own;
        return found && first ? effectView(first, found, { months, currency }) : [];
      });
      const perMonth = totalOf(services, currency);
      const changed = prices.map(changedPrice);
      return { currency, months, prices: changed, services: inOrderOfMoney(services), perMonth };
    });
  }

  /**
   * Takes the list over: the catalogue has its prices from now on, the history since when.
   * @throws Problem `prices_start_later`, and those of `newPrices`
   */
  async accept(tx: Transaction, request: AcceptedPricesRequest): Promise<AcceptedPricesView> {
    const id = request.id ?? uuidv7();
    const { timeZone } = await this.studio.show(tx.studioId, false);
    const today = dayIn(timeZone, this.clock.now());
    const startsOn = request.startsOn ?? today;
    if (startsOn > today) throw new Problem('prices_start_later', { startsOn, today }, '/startsOn');
    const prices = await this.pricesOf(tx, request);
    await this.note(tx, prices, { list_id: id, supplier: request.supplierId ?? null, startsOn });
    await this.bulk.putPrices(
      tx,
      prices.map(({ pack, price }) => ({ id: pack.id, price })),
    );
    return { id, startsOn, prices: prices.map(changedPrice) };
  }

  /** What the packs of a product cost by the list, the newest first. */
  async history(caller: Caller, productId: string): Promise<PriceHistoryView> {
    const rows = await forStudio(this.dataSource, caller.studioId).query<
      PriceHistoryView['rows'][number] & Record<string, unknown>
    >(READ_NOTED, [productId]);
    return { rows };
  }

  private async pricesOf(reader: Reader, request: PriceListRequest): Promise<NewPrice[]> {
    const { supplierId = null } = request;
    const [packs, known] = await Promise.all([
      reader.query<ListedPack & Record<string, unknown>>(READ_PACKS, [supplierId]),
      supplierId === null ? [{}] : reader.query(HAS_SUPPLIER, [supplierId]),
    ]);
    if (supplierId !== null && known.length === 0) {
      throw new Problem('not_found', { what: 'supplier', id: supplierId }, '/supplierId');
    }
    return newPrices(request, packs);
  }

  /** What was in force before is noted too, where the history does not say so already. */
  private async note(
    tx: Transaction,
    prices: readonly NewPrice[],
    list: { list_id: string; supplier: string | null; startsOn: string },
  ): Promise<void> {
    const ids = prices.map(({ pack }) => pack.id);
    const last = await tx.query<{ id: string; price: string }>(READ_LAST_NOTED, [ids]);
    const noted = new Map(last.map((row) => [row.id, row.price]));
    const rows = prices.flatMap(({ pack, price }) => {
      const row = {
        ...{ list_id: list.list_id, pack_id: pack.id, product_id: pack.productId },
        ...{ label: pack.label, recorded_at: this.clock.now() },
      };
      const unknown = pack.price !== null && noted.get(pack.id) !== pack.price;
      const before = { ...row, price: pack.price, starts_on: null, supplier_id: null };
      const now = { ...row, price: canonical(price), starts_on: list.startsOn };
      return [...(unknown ? [before] : []), { ...now, supplier_id: list.supplier }];
    });
    await tx.query(NOTE_PRICES, [JSON.stringify(rows)]);
  }
}

function byPack(prices: readonly NewPrice[]): Record<string, string> {
  return Object.fromEntries(prices.map(({ pack, price }) => [pack.id, canonical(price)]));
}
