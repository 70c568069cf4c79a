/** The studio itself: its name, currency, time zone, costing method, closed days. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { StudioView } from '../../../shared/contract/people.js';
import type { PricingSettings } from '../../../shared/contract/pricing.js';
import { canonical } from '../../../shared/decimal.js';
import { pricingInForce } from '../../../shared/pricing-settings.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { supplierPricesOf, type SupplierPrices } from '../../../shared/supplier-prices.js';
import {
  forStudio,
  inTransaction,
  type Reader,
  type Transaction,
} from '../../platform/database/transaction.js';
import type { StudioChangesRequest, SupplierPricesRequest } from './people.requests.js';
import { changedPricing } from './pricing-settings.requests.js';

/** What a new studio is opened with. */
export type NewStudio = Pick<StudioView, 'id' | 'name' | 'currency' | 'timeZone' | 'country'> &
  Partial<Pick<StudioView, 'costingMethod' | 'demo' | 'supplierPrices'>>;

const VIEW = `
  select studio_id as id, name, currency, time_zone as "timeZone", country,
         costing_method as "costingMethod", demo,
         to_char(locked_before, 'YYYY-MM-DD') as "lockedBefore",
         settings->'supplierPrices' as "supplierPrices", settings->'pricing' as pricing
    from studio where studio_id = current_studio()`;

const HAS_MOVED = `
  select exists (select from movement where studio_id = current_studio()) as moved`;

/**
 * $1 name, $2 currency, $3 time zone, $4 country, $5 costing method, $6 locked before, $7 what
 * changes of the rules of price, $8 what supplier prices are.
 */
const CHANGE = `
  update studio set name = $1, currency = $2, time_zone = $3, country = $4,
         costing_method = $5, locked_before = $6,
         settings = settings || jsonb_build_object('pricing',
           coalesce(settings->'pricing', '{}') || $7::jsonb, 'supplierPrices', $8::jsonb)
   where studio_id = current_studio()`;

/** $1 name, $2 currency, $3 time zone, $4 country, $5 costing method, $6 demo, $7 settings. */
const OPEN = `
  insert into studio (studio_id, name, currency, time_zone, country, costing_method, demo, settings)
  values (current_setting('bowlworth.studio_id')::uuid, $1, $2, $3, $4, $5, $6, $7)`;

@Injectable()
export class StudioService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** @throws Problem `not_signed_in` when there is no such studio */
  async show(studioId: string, money = true): Promise<StudioView> {
    const { pricing, ...rest } = await this.read(forStudio(this.dataSource, studioId));
    return money && pricing ? { ...rest, pricing } : rest;
  }

  /** The rules of price in force, and the currency. */
  async pricing(reader: Reader): Promise<{ settings: PricingSettings; currency: string }> {
    const { pricing, currency } = await this.read(reader);
    return { settings: pricingInForce(pricing ?? null), currency };
  }

  /** Currency and costing method are fixed by the first movement. @throws `fixed_by_movements` */
  change(studioId: string, changes: StudioChangesRequest): Promise<StudioView> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const before = await this.read(tx);
      const { pricing: asked, supplierPrices: typed, ...others } = changes;
      const pricing = asked ? changedPricing(asked) : {};
      const supplierPrices = typed ? supplierPricesIn(typed) : before.supplierPrices;
      const after = { ...before, ...defined(others) };
      const [stock] = await tx.query<{ moved: boolean }>(HAS_MOVED);
      if (stock?.moved) refuseLate(before, after);
      const { name, currency, timeZone, country, costingMethod, lockedBefore } = after;
      const texts = [name, currency, timeZone, country, costingMethod, lockedBefore];
      const settings = [JSON.stringify(pricing), JSON.stringify(supplierPrices)];
      await tx.execute(CHANGE, [...texts, ...settings]);
      return this.read(tx);
    });
  }

  /** Opens a new studio; nobody can sign in to it before it has people and a token. */
  async open(studio: NewStudio): Promise<void> {
    await inTransaction(this.dataSource, studio.id, (tx) => this.insert(tx, studio));
  }

  /** The same within a transaction that stands in the new studio. */
  async insert(tx: Transaction, studio: Omit<NewStudio, 'id'>): Promise<void> {
    const { name, currency, timeZone, country, costingMethod = 'fifo', demo = false } = studio;
    const { supplierPrices = null } = studio;
    const settings = JSON.stringify({ supplierPrices });
    await tx.execute(OPEN, [name, currency, timeZone, country, costingMethod, demo, settings]);
  }

  private async read(reader: Reader): Promise<StudioView> {
    const [row] = await reader.query<StudioView & Record<string, unknown>>(VIEW);
    if (!row) throw new Problem('not_signed_in', {});
    return { ...row, pricing: pricingInForce(row.pricing ?? null) };
  }
}

function defined<T extends object>(changes: T): Partial<T> {
  const given = Object.entries(changes).filter(([, value]) => value !== undefined);
  return Object.fromEntries(given) as Partial<T>;
}

/** What was sent of supplier prices, as it is kept. @throws Problem `tax_rate_needed` */
export function supplierPricesIn({ are, taxRate }: SupplierPricesRequest): SupplierPrices {
  return within('/supplierPrices', () => supplierPricesOf(are, taxRate && canonical(taxRate)));
}

function refuseLate(before: StudioView, after: StudioView): void {
  if (before.currency !== after.currency) {
    throw new Problem('fixed_by_movements', { field: 'currency' }, '/currency');
  }
  if (before.costingMethod !== after.costingMethod) {
    throw new Problem('fixed_by_movements', { field: 'costing method' }, '/costingMethod');
  }
}
