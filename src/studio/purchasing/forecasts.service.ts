/** Forecasts of the studio, worked out once a day and ledger, between other people's requests. */
import { setImmediate as otherRequests } from 'node:timers/promises';
import { Inject, Injectable } from '@nestjs/common';
import {
  familyPrior,
  ownForecast,
  productForecast,
  studioPool,
  wantsPrior,
  type OwnForecast,
  type ProductForecast,
} from '../../../shared/ordering/studio-forecast.js';
import type { StudioPool } from '../../../shared/forecasting/studio-pool.js';
import { withBookings } from '../../../shared/ordering/with-bookings.js';
import { BookedDemandService } from './booked-demand.service.js';
import { DemandService, type DemandItem, type DemandMoment } from './demand.service.js';

/** A forecast with the product's name, kind and strength. */
export interface ItemForecast extends ProductForecast {
  readonly of: DemandItem;
}

/** All forecasts of one moment. */
export interface StudioForecast {
  readonly moment: DemandMoment;
  readonly items: readonly ItemForecast[];
  readonly pool: StudioPool | null;
}

type By = 'product' | 'strength';

interface Kept {
  readonly key: string;
  readonly forecast: Promise<StudioForecast>;
}

interface KeptOwn {
  readonly signature: string;
  readonly own: OwnForecast;
}

/** Studios whose forecasts are kept in memory. */
const MOST_STUDIOS = 50;

@Injectable()
export class ForecastsService {
  private readonly kept = new Map<string, Kept>();
  private readonly own = new Map<string, Map<string, KeptOwn>>();

  constructor(
    @Inject(DemandService) private readonly demand: DemandService,
    @Inject(BookedDemandService) private readonly booked: BookedDemandService,
  ) {}

  /** Of every product, or of developers by strength; the same until something moves. */
  async all(studioId: string, now: string, by: By = 'product'): Promise<StudioForecast> {
    const [moment, diary] = await Promise.all([
      this.demand.moment(studioId, now),
      this.booked.state(studioId),
    ]);
    const name = `${studioId} ${by}`;
    const key = `${moment.today} ${moment.seq} ${moment.timeZone} ${moment.marks} ${diary}`;
    const kept = this.kept.get(name);
    if (kept?.key === key) return kept.forecast;
    const forecast = this.work(studioId, moment, by);
    this.keep(this.kept, name, { key, forecast });
    forecast.catch(() => this.kept.delete(name));
    return forecast;
  }

  private async work(studioId: string, moment: DemandMoment, by: By): Promise<StudioForecast> {
    const items =
      by === 'product'
        ? await this.demand.items(studioId, moment)
        : await this.demand.strengths(studioId, moment);
    const earlier = this.own.get(`${studioId} ${by}`) ?? new Map<string, KeptOwn>();
    const found: (OwnForecast & { of: DemandItem })[] = [];
    const next = new Map<string, KeptOwn>();
    for (const of of items) {
      const { months, openShare, outOfStockShare } = of.history;
      const signature = JSON.stringify([of.unit, months, openShare, outOfStockShare]);
      const before = earlier.get(of.id);
      const same = before?.signature === signature;
      const own = same ? before.own : ownForecast(of, null, before?.own.series.memory);
      next.set(of.id, { signature, own });
      found.push({ ...own, of });
      // A forecast takes some 40 ms: whoever is pouring meanwhile is answered first.
      if (!same) await otherRequests();
    }
    this.keep(this.own, `${studioId} ${by}`, next);
    const pool = studioPool(found);
    const complete = found.map((own) => {
      if (!wantsPrior(own)) return own;
      const prior = familyPrior(own.of.family, found);
      return prior ? { ...ownForecast(own.of, prior), of: own.of } : own;
    });
    const booked = await this.booked.ahead(studioId, moment);
    return {
      moment,
      pool,
      items: complete.map((own) => {
        const alone = productForecast(own, pool);
        if (!booked) return { ...alone, of: own.of };
        const visits = booked.visitsOf(own.of.parts);
        return { ...withBookings(alone, booked.diary, visits), of: own.of };
      }),
    };
  }

  private keep<T>(all: Map<string, T>, name: string, value: T): void {
    all.delete(name);
    all.set(name, value);
    const oldest = all.keys().next().value;
    if (all.size > MOST_STUDIOS && oldest !== undefined) all.delete(oldest);
  }
}
