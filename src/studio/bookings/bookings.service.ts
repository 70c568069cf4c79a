/** What is booked: shown day by day, begun as visits, and told to who plans ahead. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { shortClientLabel } from '../../../shared/client-label.js';
import { dayAfter } from '../../../shared/calendar.js';
import type { BookingView } from '../../../shared/contract/bookings.js';
import type { BookedVisit } from '../../../shared/ordering/booked-visits.js';
import { Problem } from '../../../shared/problems/problem.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import { VisitsService } from '../visits/visits.service.js';
import { BookingRulesService, type WordReader } from './booking-rules.service.js';
import {
  BEGUN,
  LIST_BOOKINGS,
  LOCK_BOOKING,
  READ_BOOKED,
  READ_DIARY_STATE,
  READ_TODAY,
} from './bookings.queries.js';
import type { BeginRequest, BookingListRequest } from './bookings.requests.js';

interface BookingRow {
  readonly id: string;
  readonly day: string;
  readonly starts_at: Date;
  readonly ends_at: Date | null;
  readonly all_day: boolean;
  readonly who: string | null;
  readonly what: string;
  readonly client_id: string | null;
  readonly called_off_at: Date | null;
  readonly visit_id: string | null;
  readonly client_number: number | null;
  readonly client_name: string | null;
}

interface LockedRow {
  readonly day: string;
  readonly visit_id: string | null;
  readonly called_off: boolean;
  readonly client_id: string | null;
  readonly what: string;
}

interface BookedRow {
  readonly day: string;
  readonly what: string;
  readonly came: boolean;
  readonly booked_on: string;
  readonly called_off_on: string | null;
}

@Injectable()
export class BookingsService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(BookingRulesService) private readonly rules: BookingRulesService,
    @Inject(VisitsService) private readonly visits: VisitsService,
  ) {}

  /** Bookings of the days asked for; at a bench, and for stylists, today's only. */
  list(caller: Caller, request: BookingListRequest, now: string): Promise<BookingView[]> {
    return inTransaction(this.dataSource, caller.studioId, async (tx) => {
      const [studio] = await tx.query<{ today: string }>(READ_TODAY, [now]);
      const today = studio?.today ?? '';
      const from = mayAct(caller, 'manager') ? (request.from ?? today) : today;
      const to = mayAct(caller, 'manager') ? (request.to ?? dayAfter(from, 1)) : dayAfter(today, 1);
      const [rows, reader] = await Promise.all([
        tx.query<BookingRow & Record<string, unknown>>(LIST_BOOKINGS, [from, to, null]),
        this.rules.reader(tx),
      ]);
      return rows
        .map((row) => bookingView(row, reader))
        .filter(({ what }) => !reader.of(what).notAVisit);
    });
  }

  /**
   * Begins the visit that was booked, with its client and services.
   * @throws Problem `not_found`, `booking_here_already`, `booking_called_off`
   */
  async begin(
    tx: Transaction,
    id: string,
    request: BeginRequest,
    by: { caller: Caller; startedAt: string; recordedAt: string },
  ) {
    const [booking] = await tx.query<LockedRow & Record<string, unknown>>(LOCK_BOOKING, [id]);
    if (!booking) throw new Problem('not_found', { what: 'booking', id });
    const { visit_id: visitId, client_id: clientId, called_off: calledOff, what } = booking;
    if (visitId !== null) throw new Problem('booking_here_already', { visitId });
    if (calledOff) throw new Problem('booking_called_off', {});
    const reader = await this.rules.reader(tx);
    const visit = await this.visits.start(
      tx,
      {
        ...(request.id === undefined ? {} : { id: request.id }),
        ...(clientId === null ? {} : { clientId }),
        services: reader.services(what).map(({ serviceId }) => ({ serviceId })),
        ...{ kind: 'client', startedAt: request.startedAt },
      },
      by,
    );
    await tx.execute(BEGUN, [id, visit.id]);
    return { bookingId: id, visitId: visit.id };
  }

  /** Text that changes whenever anything of the diary does, and the day it was read last. */
  async state(studioId: string): Promise<{ state: string; readOn: string | null }> {
    const reader = forStudio(this.dataSource, studioId);
    const [row] = await reader.query<{ state: string; read_on: string | null }>(READ_DIARY_STATE);
    return { state: row?.state ?? '', readOn: row?.read_on ?? null };
  }

  /** Every booked visit from a day to before another, called off or not. */
  booked(studioId: string, from: string, to: string): Promise<BookedVisit[]> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const [rows, reader] = await Promise.all([
        tx.query<BookedRow & Record<string, unknown>>(READ_BOOKED, [from, to]),
        this.rules.reader(tx),
      ]);
      return rows.flatMap((row): BookedVisit[] => {
        const { serviceIds } = reader.of(row.what);
        if (serviceIds.length === 0) return [];
        const { day, came } = row;
        return [{ day, serviceIds, came, bookedOn: row.booked_on, calledOffOn: row.called_off_on }];
      });
    });
  }
}

function bookingView(row: BookingRow, reader: WordReader): BookingView {
  const { id, day, what, client_id: clientId, visit_id: visitId } = row;
  const client =
    row.client_number === null ? null : { number: row.client_number, name: row.client_name };
  return {
    ...{ id, day, what, clientId, visitId },
    startsAt: row.all_day ? null : row.starts_at.toISOString(),
    endsAt: row.all_day ? null : (row.ends_at?.toISOString() ?? null),
    who: client ? shortClientLabel(client) : row.who,
    services: reader.services(what),
    state: visitId !== null ? 'here' : row.called_off_at !== null ? 'called off' : 'booked',
  };
}
