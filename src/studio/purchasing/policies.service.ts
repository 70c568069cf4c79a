/** Reorder points of every product: worked out from demand, kept, and used by the flags. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayIn } from '../../../shared/calendar.js';
import type { StockUnit } from '../../../shared/amount.js';
import type { ReorderPointView } from '../../../shared/contract/purchasing.js';
import { canonical, count, decimal } from '../../../shared/decimal.js';
import { IntervalDemand } from '../../../shared/ordering/interval-demand.js';
import { leadTimeOf, type LeadTime } from '../../../shared/ordering/lead-time.js';
import {
  reorderPolicy,
  USUAL_REVIEW_DAYS,
  USUAL_SERVICE_LEVEL,
  type ReorderPolicy,
} from '../../../shared/ordering/reorder-policy.js';
import { forStudio, inTransaction } from '../../platform/database/transaction.js';
import { ForecastsService, type StudioForecast } from './forecasts.service.js';
import { figure } from './forecasts.views.js';
import {
  READ_LAST_MADE,
  READ_POLICIES,
  READ_RECEIPTS,
  READ_TERMS,
  WRITE_POLICIES,
} from './policies.queries.js';

/** How a product is bought, as typed and as learned. */
export interface ProductTerms {
  readonly id: string;
  readonly typedPoint: string | null;
  readonly keepSealed: number | null;
  readonly serviceLevel: number;
  readonly supplierId: string | null;
  readonly leadTime: LeadTime;
  readonly reviewDays: number;
  /** 1 Monday ... 7 Sunday; null where every day will do. */
  readonly orderDay: number | null;
  readonly packs: readonly PackTerms[];
}

export interface PackTerms {
  readonly id: string;
  readonly label: string;
  readonly quantity: string;
  readonly listPrice: string | null;
  readonly orderCode: string | null;
}

interface TermsRow {
  id: string;
  reorder_point: string | null;
  keep_sealed: number | null;
  service_level: string | null;
  supplier_id: string | null;
  own_lead_time: number | null;
  supplier_lead_time: number | null;
  order_day: number | null;
  packs: PackTerms[] | null;
}

interface PolicyRow {
  product_id: string;
  name: string;
  unit: StockUnit;
  typed: string | null;
  keep_sealed: number | null;
  pack: string | null;
  point: string | null;
  up_to: string | null;
  made_at: Date | null;
  basis: Basis | null;
}

interface Basis {
  serviceLevel: string;
  leadTimeDays: string;
  leadTimeFrom: LeadTime['from'];
  receipts: number;
  reviewDays: number;
  days: string;
  meanUse: string;
  safetyStock: string;
  sentence: string;
}

@Injectable()
export class PoliciesService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(ForecastsService) private readonly forecasts: ForecastsService,
  ) {}

  /** Terms of every product that is kept, lead times learned. */
  async terms(studioId: string): Promise<Map<string, ProductTerms>> {
    const reader = forStudio(this.dataSource, studioId);
    const [rows, receipts] = await Promise.all([
      reader.query<TermsRow>(READ_TERMS),
      reader.query<{ supplier_id: string; days: number }>(READ_RECEIPTS),
    ]);
    const bySupplier = new Map<string, number[]>();
    for (const { supplier_id, days } of receipts) {
      bySupplier.set(supplier_id, [...(bySupplier.get(supplier_id) ?? []), days]);
    }
    return new Map(
      rows.map((row) => [row.id, termsOf(row, bySupplier.get(row.supplier_id ?? '') ?? [])]),
    );
  }

  /** Works all policies out anew and keeps them. */
  async refresh(studioId: string, now: string): Promise<void> {
    const [forecast, terms] = await Promise.all([
      this.forecasts.all(studioId, now),
      this.terms(studioId),
    ]);
    const rows = policiesOf(forecast, terms).map(({ productId, policy, of }) => ({
      product_id: productId,
      point: figure(policy.point),
      up_to: figure(Math.max(policy.point, policy.upTo)),
      basis: basisOf(policy, of),
    }));
    await inTransaction(this.dataSource, studioId, (tx) =>
      tx.execute(WRITE_POLICIES, [JSON.stringify(rows), now]),
    );
  }

  /** Refreshes policies that were not made today, or before the diary changed. */
  async keepFresh(studioId: string, now: string): Promise<void> {
    const reader = forStudio(this.dataSource, studioId);
    const [row] = await reader.query<{ at: Date | null; outdated: boolean }>(READ_LAST_MADE);
    const { moment } = await this.forecasts.all(studioId, now);
    const made = row?.at ? dayIn(moment.timeZone, row.at.toISOString()) : null;
    if (made !== moment.today || row?.outdated) await this.refresh(studioId, now);
  }

  /** The reorder point that stands for every product, and why. */
  async list(studioId: string): Promise<ReorderPointView[]> {
    const rows = await forStudio(this.dataSource, studioId).query<PolicyRow>(READ_POLICIES);
    return rows.map(policyView);
  }
}

function termsOf(row: TermsRow, receipts: readonly number[]): ProductTerms {
  return {
    id: row.id,
    typedPoint: row.reorder_point,
    keepSealed: row.keep_sealed,
    serviceLevel: row.service_level === null ? USUAL_SERVICE_LEVEL : +row.service_level,
    supplierId: row.supplier_id,
    leadTime: leadTimeOf(receipts, {
      product: row.own_lead_time,
      supplier: row.supplier_lead_time,
    }),
    reviewDays: USUAL_REVIEW_DAYS,
    orderDay: row.order_day,
    packs: row.packs ?? [],
  };
}

/** Policies of all products that anything is expected to be used of. */
function policiesOf(
  { items, moment }: StudioForecast,
  terms: ReadonlyMap<string, ProductTerms>,
): { productId: string; policy: ReorderPolicy; of: ProductTerms }[] {
  const demand = new IntervalDemand(items, moment.today);
  return items.flatMap((item, index) => {
    const of = terms.get(item.of.id);
    if (!of) return [];
    const { leadTime, reviewDays, serviceLevel } = of;
    const days = leadTime.days + reviewDays;
    const policy = reorderPolicy(demand.over(index, days, leadTime.variance), {
      ...{ serviceLevel, leadTime, reviewDays },
      pack: of.packs[0] ? +of.packs[0].quantity : null,
      unit: item.of.unit,
    });
    return policy.point > 0 ? [{ productId: of.id, policy, of }] : [];
  });
}

function basisOf(policy: ReorderPolicy, of: ProductTerms): Basis {
  return {
    serviceLevel: figure(of.serviceLevel, 6),
    leadTimeDays: figure(of.leadTime.days, 1),
    leadTimeFrom: of.leadTime.from,
    receipts: of.leadTime.receipts,
    reviewDays: of.reviewDays,
    days: figure(policy.days, 1),
    meanUse: figure(policy.mean),
    safetyStock: figure(policy.safetyStock),
    sentence: policy.sentence,
  };
}

function policyView(row: PolicyRow): ReorderPointView {
  const { rule, point, sentence } = standing(row);
  const { basis } = row;
  return {
    productId: row.product_id,
    name: row.name,
    rule,
    point: point === null ? null : { quantity: point, unit: row.unit },
    upTo: row.up_to === null ? null : { quantity: canonical(decimal(row.up_to)), unit: row.unit },
    madeAt: row.made_at?.toISOString() ?? null,
    basis: basis && {
      serviceLevel: basis.serviceLevel,
      leadTimeDays: basis.leadTimeDays,
      leadTimeFrom: basis.leadTimeFrom,
      receipts: basis.receipts,
      reviewDays: basis.reviewDays,
      days: basis.days,
      meanUse: basis.meanUse,
      safetyStock: basis.safetyStock,
    },
    sentence,
  };
}

/** What is typed stands before what is learned. */
function standing(row: PolicyRow): Pick<ReorderPointView, 'rule' | 'sentence'> & {
  point: string | null;
} {
  if (row.typed !== null) {
    const point = canonical(decimal(row.typed));
    return { rule: 'typed', point, sentence: `Typed on the product: ${point} ${row.unit}.` };
  }
  if (row.keep_sealed !== null && row.pack !== null) {
    const point = canonical(decimal(row.pack).times(count(row.keep_sealed)));
    const sentence = `Keep ${row.keep_sealed} sealed: ${point} ${row.unit}.`;
    return { rule: 'keep sealed', point, sentence };
  }
  if (row.point !== null) {
    const point = canonical(decimal(row.point));
    return { rule: 'forecast', point, sentence: row.basis?.sentence ?? '' };
  }
  const sentence = 'No use is expected, so nothing is reordered by itself.';
  return { rule: 'none', point: null, sentence };
}
