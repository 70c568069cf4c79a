/** Quotes before the service: from like visits, kept with the day until which they hold. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { dayAfter, dayIn } from '../../../shared/calendar.js';
import type { HairDensity, HairLength } from '../../../shared/contract/clients.js';
import type { OnTopSetting, PricingSettings } from '../../../shared/contract/pricing.js';
import type {
  ClientQuoteView,
  QuotedServiceView,
  QuoteView,
} from '../../../shared/contract/quotes.js';
import { count, decimal, sum, zero } from '../../../shared/decimal.js';
import { moneyRuleOf, onTopInForce, onTopRulesOf } from '../../../shared/pricing-settings.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { enoughVisits, mixedGrams, quote, type PastVisit } from '../../../shared/quoting.js';
import { forStudio, type Reader, type Transaction } from '../../platform/database/transaction.js';
import { Clock } from '../../platform/clock.js';
import { cursorValues, pageOf, type Page } from '../../platform/http/paging.js';
import type { Caller } from '../../platform/http/rights.js';
import { StudioService } from '../people/studio.service.js';
import {
  KEEP_QUOTE,
  LIST_QUOTES,
  READ_HAIR,
  READ_LIKE_VISITS,
  READ_MENU_NOW,
  READ_QUOTE,
} from './quotes.queries.js';
import type { QuoteListRequest, QuoteRequest } from './quotes.requests.js';
import { clientQuote, onTopWords, quotedFigures } from './quotes.views.js';
import { sheetInputOf, type SheetRows } from './sheet-input.js';
import { SheetRowsService } from './sheet-rows.service.js';

interface Hair {
  readonly hairLength: HairLength | null;
  readonly hairDensity: HairDensity | null;
}

type LikeVisit = Hair & { readonly id: string };
/** A service of the menu, with its own rules of what is on top. */
type MenuRow = QuotedServiceView & { readonly onTop: readonly OnTopSetting[] };
type KeptQuote = Omit<QuoteView, 'expired' | 'dry'>;

const usualDays = 30;

@Injectable()
export class QuotesService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(SheetRowsService) private readonly sheetRows: SheetRowsService,
  ) {}

  /**
   * Quotes services: each like visit of the last 24 months re-priced at today's prices, by kind
   * of hair where there are enough of it; keeps the quote.
   * @throws Problem `not_found`, `retired`, `no_tax_rule`, `quote_over_already`
   */
  async give(tx: Transaction, request: QuoteRequest, caller: Caller): Promise<QuoteView> {
    const id = request.id ?? uuidv7();
    const madeAt = this.clock.now();
    const serviceIds = request.services.map((service) => service.serviceId);
    const [{ settings, currency }, menu, noted, like, today] = await Promise.all([
      this.studio.pricing(tx),
      menuNow(tx, serviceIds, madeAt),
      hairOf(tx, request.clientId),
      tx.query<LikeVisit & Record<string, unknown>>(READ_LIKE_VISITS, [
        [...serviceIds].sort(),
        madeAt,
      ]),
      this.today(caller.studioId),
    ]);
    const hair = {
      hairLength: request.hairLength ?? noted.hairLength,
      hairDensity: request.hairDensity ?? noted.hairDensity,
    };
    const validUntil = request.validUntil ?? dayAfter(today, usualDays);
    if (validUntil < today) {
      throw new Problem('quote_over_already', { validUntil, today }, '/validUntil');
    }
    const { ids, basis } = likeHair(like, hair);
    const past = (await this.sheetRows.ofMany(tx, ids)).map(pastVisit);
    const rules = { ...settings, onTop: onTopInForce(settings, menu) };
    const services = menu.map(({ onTop: _own, ...service }) => service);
    const step = settings.priceStep === null ? undefined : decimal(settings.priceStep);
    const found = quote(past, priceToday(services, rules, currency), step);
    const kept: KeptQuote = {
      ...{ id, madeAt, validUntil, clientId: request.clientId ?? null },
      ...{ ...hair, currency, services, basis },
      ...quotedFigures(found, currency),
      onTop: onTopWords(rules, currency),
      onTopRules: rules.onTop,
    };
    const by = [kept.clientId, caller.personId ?? null];
    await tx.query(KEEP_QUOTE, [id, ...by, madeAt, validUntil, JSON.stringify(kept)]);
    return { ...kept, expired: false };
  }

  /** @throws Problem `not_found` */
  async show(caller: Caller, id: string): Promise<QuoteView> {
    const reader = forStudio(this.dataSource, caller.studioId);
    const [rows, today] = await Promise.all([
      reader.query<{ quote: KeptQuote }>(READ_QUOTE, [id]),
      this.today(caller.studioId),
    ]);
    const [row] = rows;
    if (!row) throw new Problem('not_found', { what: 'quote', id });
    return onDay(row.quote, today);
  }

  /** What a client may see of it. @throws Problem `not_found` */
  async forClient(caller: Caller, id: string): Promise<ClientQuoteView> {
    return clientQuote(await this.show(caller, id));
  }

  /** The newest first. */
  async list(caller: Caller, request: QuoteListRequest): Promise<Page<QuoteView>> {
    const { clientId = null, limit } = request;
    const [before = null] = cursorValues(request, 1) ?? [];
    const [rows, today] = await Promise.all([
      forStudio(this.dataSource, caller.studioId).query<{ place: string; quote: KeptQuote }>(
        LIST_QUOTES,
        [clientId, before, limit + 1],
      ),
      this.today(caller.studioId),
    ]);
    return pageOf(
      rows,
      limit,
      ({ place }) => [place],
      (row) => onDay(row.quote, today),
    );
  }

  private async today(studioId: string): Promise<string> {
    const { timeZone } = await this.studio.show(studioId, false);
    return dayIn(timeZone, this.clock.now());
  }
}

function onDay(kept: KeptQuote, today: string): QuoteView {
  return { ...kept, expired: kept.validUntil < today };
}

/** @throws Problem `not_found`, `retired` */
async function menuNow(reader: Reader, ids: readonly string[], now: string): Promise<MenuRow[]> {
  const rows = await reader.query<MenuRow & { retired: boolean } & Record<string, unknown>>(
    READ_MENU_NOW,
    [ids, now],
  );
  return ids.map((id, index) =>
    within(`/services/${index}/serviceId`, () => {
      const row = rows.find((each) => each.serviceId === id);
      if (!row) throw new Problem('not_found', { what: 'service', id });
      const { retired, ...service } = row;
      if (retired) throw new Problem('retired', { name: row.name });
      return service;
    }),
  );
}

/** @throws Problem `not_found` */
async function hairOf(reader: Reader, clientId: string | undefined): Promise<Hair> {
  if (clientId === undefined) return { hairLength: null, hairDensity: null };
  const [hair] = await reader.query<Hair & Record<string, unknown>>(READ_HAIR, [clientId]);
  if (!hair) throw new Problem('not_found', { what: 'client', id: clientId }, '/clientId');
  return hair;
}

/** Those with the same hair, where there are enough of them; else all. */
function likeHair(
  like: readonly LikeVisit[],
  { hairLength, hairDensity }: Hair,
): { ids: string[]; basis: QuoteView['basis'] } {
  const same = like.filter(
    (visit) =>
      (hairLength === null || visit.hairLength === hairLength) &&
      (hairDensity === null || visit.hairDensity === hairDensity),
  );
  const told = hairLength !== null || hairDensity !== null;
  const narrow = told && same.length >= enoughVisits;
  const ids = (narrow ? same : like).map((visit) => visit.id);
  if (ids.length === 0) return { ids, basis: 'menu' };
  return { ids, basis: narrow ? 'services and hair' : 'services' };
}

/** What a visit took, its product at what it would cost now, where that is known. */
function pastVisit(rows: SheetRows): PastVisit {
  const { products = [], bowls = [], time = [], chairMinutes = zero } = sheetInputOf(rows);
  return {
    products: products.map(({ appliedValue, replacementValue, ...use }) =>
      replacementValue
        ? { ...use, value: replacementValue }
        : { ...use, ...(appliedValue ? { appliedValue } : {}) },
    ),
    bowls,
    minutes: chairMinutes,
    handsOnMinutes: sum(time.map((each) => each.minutes)),
    grams: mixedGrams(products),
    started: count(bowls.filter((bowl) => bowl.borneBy !== 'studio').length),
  };
}

function priceToday(
  services: readonly QuotedServiceView[],
  settings: PricingSettings,
  currency: string,
) {
  return {
    money: moneyRuleOf(settings, currency),
    services: services.map(({ serviceId, name, price, inThePrice }) => ({
      ...{ id: serviceId, label: name, price: decimal(price) },
      inThePrice: inThePrice.map(({ kind, grams, bowls }) => ({
        kind,
        ...(grams === undefined ? {} : { grams: decimal(grams) }),
        ...(bowls === undefined ? {} : { bowls: decimal(bowls) }),
      })),
    })),
    onTop: onTopRulesOf(settings),
    measuredOn: settings.measuredOn,
  };
}
