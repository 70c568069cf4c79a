/** What the diary and past visits say of use to come: bookings, closed days, use per visit. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter, daysBetween } from '../../../shared/calendar.js';
import { serviceOutlooks, type DoneVisits } from '../../../shared/ordering/booked-visits.js';
import type { VisitUse } from '../../../shared/ordering/use-per-visit.js';
import type { DiaryAhead, ProductVisits } from '../../../shared/ordering/with-bookings.js';
import { forStudio } from '../../platform/database/transaction.js';
import { BookingsService } from '../bookings/bookings.service.js';
import { byProduct, type Part } from './demand-facts.js';
import type { DemandMoment } from './demand.service.js';
import { READ_CLOSED_DAYS, READ_VISIT_USE, READ_VISITS_DONE } from './demand.queries.js';

/** Visits and bookings of the last year teach. */
const DAYS_BACK = 366;
/** Bookings are looked at so far ahead. */
const DAYS_AHEAD = 100;
/** A diary that was read longer ago does not show what is missing from it. */
const FRESH_DAYS = 14;

interface VisitRow {
  readonly id: string;
  readonly day: string;
  readonly services: readonly string[];
}

interface VisitUseRow {
  readonly visit_id: string | null;
  readonly product_id: string;
  readonly quantity: number;
}

/** What changes the forecasts of the days ahead. */
export interface BookedDemand {
  readonly diary: DiaryAhead;
  /** What past visits used of all parts together. */
  visitsOf(parts: readonly Part[]): ProductVisits;
}

@Injectable()
export class BookedDemandService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(BookingsService) private readonly bookings: BookingsService,
  ) {}

  /** Changes whenever what is told below may. */
  async state(studioId: string): Promise<string> {
    return (await this.bookings.state(studioId)).state;
  }

  /** Null where nothing is booked and no day is closed. */
  async ahead(studioId: string, { today }: DemandMoment): Promise<BookedDemand | null> {
    const reader = forStudio(this.dataSource, studioId);
    const since = dayAfter(today, -DAYS_BACK);
    const [bookings, closedDays, { readOn }] = await Promise.all([
      this.bookings.booked(studioId, since, dayAfter(today, DAYS_AHEAD)),
      reader.query<{ day: string }>(READ_CLOSED_DAYS, [today]),
      this.bookings.state(studioId),
    ]);
    if (bookings.length === 0 && closedDays.length === 0) return null;
    const [visits, use] = await Promise.all([
      reader.query<VisitRow & Record<string, unknown>>(READ_VISITS_DONE, [since]),
      reader.query<VisitUseRow & Record<string, unknown>>(READ_VISIT_USE, [since]),
    ]);
    const closed = new Set(closedDays.map(({ day }) => day));
    const isFresh = readOn !== null && daysBetween(readOn, today) <= FRESH_DAYS;
    const services = serviceOutlooks({
      ...{ today, bookings, isFresh, done: doneOf(visits) },
      openShare: (from) => openShareOf(from, closed),
    });
    const ofProducts = byProduct(use);
    return {
      diary: { today, services, isClosed: (day) => closed.has(day) },
      visitsOf: (parts) => productVisits(parts, visits, ofProducts),
    };
  }
}

function doneOf(visits: readonly VisitRow[]): DoneVisits[] {
  const counts = new Map<string, DoneVisits>();
  for (const { day, services } of visits) {
    for (const serviceId of services) {
      const key = `${day} ${serviceId}`;
      counts.set(key, { day, serviceId, visits: (counts.get(key)?.visits ?? 0) + 1 });
    }
  }
  return [...counts.values()];
}

/** Part of the seven days from a day on that is not closed. */
function openShareOf(from: string, closed: ReadonlySet<string>): number {
  const days = Array.from({ length: 7 }, (_, day) => dayAfter(from, day));
  return days.filter((day) => !closed.has(day)).length / 7;
}

function productVisits(
  parts: readonly Part[],
  visits: readonly VisitRow[],
  use: ReadonlyMap<string, readonly VisitUseRow[]>,
): ProductVisits {
  const ofVisit = new Map<string, number>();
  let all = 0;
  let inVisits = 0;
  for (const { row, factor } of parts) {
    for (const { visit_id: id, quantity } of use.get(row.id) ?? []) {
      all += quantity * factor;
      if (id === null) continue;
      inVisits += quantity * factor;
      ofVisit.set(id, (ofVisit.get(id) ?? 0) + quantity * factor);
    }
  }
  const told = visits.map(({ id, day, services }): VisitUse => {
    return { day, serviceIds: services, use: ofVisit.get(id) ?? 0 };
  });
  return { visits: told, share: all > 0 ? Math.min(1, Math.max(0, inVisits / all)) : 0 };
}
