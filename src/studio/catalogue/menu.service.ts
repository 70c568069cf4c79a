/** The menu by day: what each service is from when on; what is entered is never changed. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type {
  MenuRowView,
  MenuView,
  ServiceTermsView,
  ServiceVersionsView,
  ServiceVersionView,
} from '../../../shared/contract/menu.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { forStudio, type Reader, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { StudioService } from '../people/studio.service.js';
import * as sql from './menu.queries.js';
import { menuNotes, versionViews, type VersionRow } from './menu.views.js';
import { MISSING_PRODUCTS } from './products.queries.js';
import { termsSent } from './service-terms.js';
import type { ServiceVersionRequest } from './services.requests.js';

type Row<T> = T & Record<string, unknown>;

interface NewVersion {
  readonly id: string;
  readonly startsOn: string;
  /** What is another from then on. */
  readonly changes: Partial<ServiceTermsView>;
}

@Injectable()
export class MenuService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
  ) {}

  /** The menu of a day; today's unless told. */
  async onDay({ studioId }: Caller, asked: string | undefined): Promise<MenuView> {
    const reader = forStudio(this.dataSource, studioId);
    const on = asked ?? (await this.today(reader));
    const [rows, { rulesOn, currency }] = await Promise.all([
      reader.query<Row<Omit<MenuRowView, 'notes'>>>(sql.READ_MENU_ON, [on]),
      this.studio.pricing(reader),
    ]);
    const { onTop } = rulesOn(on);
    return { on, currency, rows: rows.map((row) => ({ ...row, notes: menuNotes(row, onTop) })) };
  }

  /** All that a service was, is and is to be. @throws Problem `not_found` */
  async versions({ studioId }: Caller, id: string): Promise<ServiceVersionsView> {
    const reader = forStudio(this.dataSource, studioId);
    const [[first], rows, today, { currency }] = await Promise.all([
      reader.query<Row<ServiceTermsView & { name: string }>>(sql.READ_FIRST, [id]),
      reader.query<Row<VersionRow>>(sql.READ_VERSIONS, [id]),
      this.today(reader),
      this.studio.pricing(reader),
    ]);
    if (!first) throw new Problem('not_found', { what: 'service', id });
    const { name, ...terms } = first;
    return { serviceId: id, name, currency, rows: versionViews(terms, rows, today) };
  }

  /**
   * Enters what a service is from a day on; what is not sent stays as it is on that day.
   * @throws Problem `not_found`, `starts_in_the_past`, `product_not_given`, `nothing_to_change`
   */
  async plan(
    tx: Transaction,
    serviceId: string,
    request: ServiceVersionRequest,
    caller: Caller,
  ): Promise<ServiceVersionView> {
    const { id, startsOn } = request;
    const changes = termsSent(request);
    if (Object.keys(changes).length === 0) throw new Problem('nothing_to_change', {});
    const today = await this.today(tx);
    if (startsOn < today) throw new Problem('starts_in_the_past', { startsOn, today }, '/startsOn');
    const version = { id: id ?? uuidv7(), startsOn, changes };
    const made = await this.enter(tx, serviceId, version, caller);
    const state = startsOn > today ? ('planned' as const) : ('in force' as const);
    return { ...made, startsOn, state, madeAt: this.clock.now(), madeBy: caller.name };
  }

  /**
   * A version that has not started is taken back. @throws Problem `not_found`, `started_already`
   */
  async withdraw(tx: Transaction, serviceId: string, id: string): Promise<{ id: string }> {
    await tx.query(sql.LOCK_SERVICE, [serviceId]);
    const rows = await tx.query<Row<VersionRow>>(sql.READ_VERSIONS, [serviceId]);
    const version = rows.find((row) => row.id === id);
    if (!version) throw new Problem('not_found', { what: 'version', id });
    const { startsOn } = version;
    if (startsOn <= (await this.today(tx))) throw new Problem('started_already', { startsOn });
    await tx.execute(sql.WITHDRAW_VERSION, [serviceId, id, this.clock.now()]);
    return { id };
  }

  /**
   * What of a change to a service stands in its own row: all of it while no visit has had it;
   * afterwards the rest starts today as a version.
   */
  async changeNow(
    tx: Transaction,
    serviceId: string,
    changes: Partial<ServiceTermsView>,
    caller: Caller,
  ): Promise<'in the row' | 'from today on'> {
    await tx.query(sql.LOCK_SERVICE, [serviceId]);
    const [row] = await tx.query<{ used: boolean }>(sql.READ_IS_USED, [serviceId]);
    if (!row?.used) return 'in the row';
    const startsOn = await this.today(tx);
    await this.enter(tx, serviceId, { id: uuidv7(), startsOn, changes }, caller);
    return 'from today on';
  }

  /** What services are now, by id. */
  async termsNow(studioId: string, ids: readonly string[]): Promise<Map<string, ServiceTermsView>> {
    const reader = forStudio(this.dataSource, studioId);
    const rows = await reader.query<Row<ServiceTermsView & { id: string }>>(sql.READ_TERMS_NOW, [
      this.clock.now(),
      ids,
    ]);
    return new Map(rows.map(({ id, ...terms }) => [id, terms]));
  }

  private async enter(
    tx: Transaction,
    serviceId: string,
    { id, startsOn, changes }: NewVersion,
    caller: Caller,
  ): Promise<ServiceTermsView & { id: string }> {
    await tx.query(sql.LOCK_SERVICE, [serviceId]);
    const [before] = await tx.query<Row<ServiceTermsView>>(sql.READ_TERMS, [startsOn, [serviceId]]);
    if (!before) throw new Problem('not_found', { what: 'service', id: serviceId });
    const { price, handsOnMinutes, chairMinutes, kit, inThePrice, onTop } = before;
    const terms = { price, handsOnMinutes, chairMinutes, kit, inThePrice, onTop, ...changes };
    await this.checkKit(tx, terms.kit);
    await tx.query(sql.ADD_VERSION, [
      ...[id, serviceId, startsOn, terms.price, terms.handsOnMinutes, terms.chairMinutes],
      ...[JSON.stringify(terms.kit), JSON.stringify(terms.inThePrice), JSON.stringify(terms.onTop)],
      ...[this.clock.now(), caller.personId ?? null],
    ]);
    return { id, ...terms };
  }

  /** @throws Problem `product_not_given` for a kit with a product that this studio has not */
  async checkKit(tx: Transaction, kit: readonly { readonly productId: string }[]): Promise<void> {
    if (kit.length === 0) return;
    const ids = kit.map(({ productId }) => productId);
    const [missing] = await tx.query<{ id: string }>(MISSING_PRODUCTS, [ids]);
    if (!missing) return;
    const pointer = `/kit/${ids.indexOf(missing.id)}/productId`;
    throw new Problem('product_not_given', { id: missing.id }, pointer);
  }

  private async today(reader: Reader): Promise<string> {
    const [row] = await reader.query<{ today: string }>(sql.READ_TODAY, [this.clock.now()]);
    return row?.today ?? dayIn('UTC', this.clock.now());
  }
}
