/** The studio itself: its name, currency, time zone, costing method, closed days. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type { RulesVersionView, StudioView } from '../../../shared/contract/people.js';
import type { PricingSettings } from '../../../shared/contract/pricing.js';
import { canonical } from '../../../shared/decimal.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { supplierPricesOf, type SupplierPrices } from '../../../shared/supplier-prices.js';
import { Clock } from '../../platform/clock.js';
import {
  forStudio,
  inTransaction,
  type Reader,
  type Transaction,
} from '../../platform/database/transaction.js';
import type { StudioChangesRequest, SupplierPricesRequest } from './people.requests.js';
import { changedPricing, type RulesVersionRequest } from './pricing-settings.requests.js';
import {
  rulesOfPrice,
  rulesOn,
  rulesViews,
  type RulesOfPrice,
  type RulesRow,
} from './studio-rules.js';

/** Who changes the rules. */
interface RulesBy {
  readonly studioId: string;
  readonly personId?: string | undefined;
  readonly name: string;
}

interface StudioRow extends Omit<StudioView, 'pricing'> {
  /** The rules of price from the beginning, as far as they were told. */
  readonly first: Partial<PricingSettings> | null;
  readonly versions: readonly RulesRow[];
}

/** What a new studio is opened with. */
export type NewStudio = Pick<StudioView, 'id' | 'name' | 'currency' | 'timeZone' | 'country'> &
  Partial<Pick<StudioView, 'costingMethod' | 'demo' | 'supplierPrices'>>;

const VIEW = `
  select studio_id as id, name, currency, time_zone as "timeZone", country,
         costing_method as "costingMethod", demo,
         to_char(locked_before, 'YYYY-MM-DD') as "lockedBefore",
         settings->'supplierPrices' as "supplierPrices", settings->'pricing' as first,
         (select coalesce(json_agg(json_build_object('id', r.id, 'startsOn', r.starts_on,
             'rules', r.rules, 'withdrawn', r.withdrawn_at is not null, 'madeBy', p.name,
             'madeAt', to_char(r.made_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'))
             order by r.starts_on desc, r.seq desc), '[]')
            from studio_rules r
            left join person p on p.studio_id = r.studio_id and p.id = r.person_id
           where r.studio_id = current_studio()) as versions
    from studio where studio_id = current_studio()`;

/** Whether rules of price have been worked by. */
const HAS_CLOSED = `
  select exists (select from visit where studio_id = current_studio()
    and closed_at is not null) as closed`;

/** $1 id, $2 starts on, $3 rules, $4 made at, $5 person. */
const ADD_RULES = `
  insert into studio_rules (studio_id, id, starts_on, rules, made_at, person_id)
  values (current_studio(), $1, $2, $3, $4, $5)`;

/** $1 id, $2 now. */
const WITHDRAW_RULES = `
  update studio_rules set withdrawn_at = coalesce(withdrawn_at, $2)
   where studio_id = current_studio() and id = $1`;

const LOCK = `select studio_id from studio where studio_id = current_studio() for no key update`;

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
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  /** @throws Problem `not_signed_in` when there is no such studio */
  async show(studioId: string, money = true): Promise<StudioView> {
    const { pricing, ...rest } = this.view(await this.read(forStudio(this.dataSource, studioId)));
    return money && pricing ? { ...rest, pricing } : rest;
  }

  /** The rules of price in force and of any day, and the currency. */
  async pricing(reader: Reader): Promise<RulesOfPrice> {
    return rulesOfPrice(await this.read(reader), this.clock.now());
  }

  /** The rules of price as they were, are and are to be, the last first. */
  async rules(studioId: string): Promise<{ rows: RulesVersionView[] }> {
    const row = await this.read(forStudio(this.dataSource, studioId));
    return { rows: rulesViews(row.first, row.versions, this.today(row)) };
  }

  /**
   * Changes what is sent. Rules of price change from the beginning while no visit has been closed
   * by them, from today on afterwards. Currency and costing method are fixed by the first
   * movement. @throws Problem `fixed_by_movements`
   */
  change(caller: RulesBy, changes: StudioChangesRequest): Promise<StudioView> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      await tx.query(LOCK);
      const before = await this.read(tx);
      const { pricing: asked, supplierPrices: typed, ...others } = changes;
      const supplierPrices = typed ? supplierPricesIn(typed) : before.supplierPrices;
      const after = { ...before, ...defined(others) };
      const [[stock], [visits]] = await Promise.all([
        tx.query<{ moved: boolean }>(HAS_MOVED),
        tx.query<{ closed: boolean }>(HAS_CLOSED),
      ]);
      if (stock?.moved) refuseLate(before, after);
      const { name, currency, timeZone, country, costingMethod, lockedBefore } = after;
      const texts = [name, currency, timeZone, country, costingMethod, lockedBefore];
      const pricing = asked ? changedPricing(asked) : {};
      const later = visits?.closed === true && asked !== undefined;
      const settings = [JSON.stringify(later ? {} : pricing), JSON.stringify(supplierPrices)];
      await tx.execute(CHANGE, [...texts, ...settings]);
      if (later) {
        const version = { id: uuidv7(), startsOn: this.today(before), changes: pricing };
        await this.enter(tx, before, version, caller);
      }
      return this.view(await this.read(tx));
    });
  }

  /**
   * Enters rules of price from a day on; what is not sent stays as it is on that day.
   * @throws Problem `starts_in_the_past`, `nothing_to_change`
   */
  async plan(
    tx: Transaction,
    request: RulesVersionRequest,
    caller: RulesBy,
  ): Promise<RulesVersionView> {
    await tx.query(LOCK);
    const studio = await this.read(tx);
    const today = this.today(studio);
    const { id, startsOn } = request;
    const changes = changedPricing(request.pricing);
    if (Object.keys(changes).length === 0) throw new Problem('nothing_to_change', {});
    if (startsOn < today) throw new Problem('starts_in_the_past', { startsOn, today }, '/startsOn');
    const version = { id: id ?? uuidv7(), startsOn, changes };
    const rules = await this.enter(tx, studio, version, caller);
    const state = startsOn > today ? ('planned' as const) : ('in force' as const);
    const made = { madeAt: this.clock.now(), madeBy: caller.name };
    return { id: version.id, startsOn, state, rules, ...made };
  }

  /** Rules that have not started are taken back. @throws Problem `not_found`, `started_already` */
  async withdraw(tx: Transaction, id: string): Promise<{ id: string }> {
    await tx.query(LOCK);
    const studio = await this.read(tx);
    const version = studio.versions.find((row) => row.id === id);
    if (!version) throw new Problem('not_found', { what: 'version', id });
    const { startsOn } = version;
    if (startsOn <= this.today(studio)) throw new Problem('started_already', { startsOn });
    await tx.execute(WITHDRAW_RULES, [id, this.clock.now()]);
    return { id };
  }

  private async enter(
    tx: Transaction,
    studio: StudioRow,
    version: { id: string; startsOn: string; changes: Partial<PricingSettings> },
    caller: RulesBy,
  ): Promise<PricingSettings> {
    const { id, startsOn, changes } = version;
    const rules = { ...rulesOn(studio.first, studio.versions, startsOn), ...changes };
    const by = [this.clock.now(), caller.personId ?? null];
    await tx.execute(ADD_RULES, [id, startsOn, JSON.stringify(rules), ...by]);
    return rules;
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

  private async read(reader: Reader): Promise<StudioRow> {
    const [row] = await reader.query<StudioRow & Record<string, unknown>>(VIEW);
    if (!row) throw new Problem('not_signed_in', {});
    return row;
  }

  private view(row: StudioRow): StudioView {
    const { first, versions, ...studio } = row;
    return { ...studio, pricing: rulesOn(first, versions, this.today(row)) };
  }

  private today({ timeZone }: StudioRow): string {
    return dayIn(timeZone, this.clock.now());
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

type Fixed = Pick<StudioView, 'currency' | 'costingMethod'>;

function refuseLate(before: Fixed, after: Fixed): void {
  if (before.currency !== after.currency) {
    throw new Problem('fixed_by_movements', { field: 'currency' }, '/currency');
  }
  if (before.costingMethod !== after.costingMethod) {
    throw new Problem('fixed_by_movements', { field: 'costing method' }, '/costingMethod');
  }
}
