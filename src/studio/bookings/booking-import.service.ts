/** Takes over a diary's file: all of it or nothing, and the same however often it is sent. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter } from '../../../shared/calendar.js';
import type { ImportedBookingsView } from '../../../shared/contract/bookings.js';
import { instantFrom, millisOf } from '../../platform/clock.js';
import { inTransaction, type Transaction } from '../../platform/database/transaction.js';
import {
  changesOf,
  clientsByName,
  hashOf,
  type BookingRow,
  type DiaryChanges,
  type DiaryMoment,
  type KeptBooking,
} from './booking-changes.js';
import { bookingsIn } from './booking-file.js';
import { BookingRulesService, type WordReader } from './booking-rules.service.js';
import {
  CALL_OFF,
  FORGET_NAMES,
  NOTE_CHANGE,
  PUT_BOOKINGS,
  READ_CLIENT_NAMES,
  READ_KEPT,
  READ_TODAY,
  READ_TO_COME,
} from './bookings.queries.js';
import type { ImportOptions } from './bookings.requests.js';

const DAY = 86_400_000;
/** What has been is read this far back, what is to come this far ahead. */
const DAYS_BACK = 366;
const DAYS_AHEAD = 400;
/** Names of bookings are forgotten after so many days; common practice, no source. */
const NAME_DAYS = 31;
const EXAMPLES = 12;

@Injectable()
export class BookingImportService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(BookingRulesService) private readonly rules: BookingRulesService,
  ) {}

  /** @throws Problem `file_damaged` */
  take(
    studioId: string,
    text: string,
    { now, dry, named, whole, diary }: ImportOptions & { now: string },
  ): Promise<ImportedBookingsView> {
    return inTransaction(
      this.dataSource,
      studioId,
      async (tx) => {
        const [moment, reader] = await Promise.all([this.moment(tx, now), this.rules.reader(tx)]);
        const stretch = {
          from: moment.now - DAYS_BACK * DAY,
          to: moment.now + DAYS_AHEAD * DAY,
        };
        const { timeZone } = moment;
        const of = { timeZone, stretch, place: named, rules: reader.rules };
        const series = bookingsIn(text, of).map((each) => ({
          ...each,
          hash: hashOf(studioId, each.uid),
        }));
        const hashes = series.map(({ hash }) => hash);
        const kept = await tx.query<KeptRow>(READ_KEPT, [diary, hashes]);
        const changes = changesOf(series, kept, moment);
        if (whole) await this.missing(tx, new Set(hashes), changes, { diary, moment, stretch });
        await this.write(tx, changes, { diary, now, moment });
        const view = viewOf(changes, reader, moment);
        return dry ? { ...view, dry } : view;
      },
      { dry },
    );
  }

  private async moment(tx: Transaction, now: string): Promise<DiaryMoment> {
    const [[studio], clients] = await Promise.all([
      tx.query<{ today: string; time_zone: string }>(READ_TODAY, [now]),
      tx.query<{ id: string; name: string }>(READ_CLIENT_NAMES),
    ]);
    const today = studio?.today ?? '';
    return {
      ...{ today, timeZone: studio?.time_zone ?? 'UTC', now: millisOf(now) },
      clients: clientsByName(clients),
      namesFrom: dayAfter(today, -NAME_DAYS),
    };
  }

  /** What is to come and not in a file that is all of the diary. */
  private async missing(
    tx: Transaction,
    inFile: ReadonlySet<string>,
    changes: DiaryChanges,
    of: { diary: string; moment: DiaryMoment; stretch: { to: number } },
  ): Promise<void> {
    const rows = await tx.query<KeptRow>(READ_TO_COME, [
      ...[of.diary, of.moment.today, instantFrom(of.stretch.to)],
    ]);
    for (const { id, uid_hash } of rows) if (!inFile.has(uid_hash)) changes.callOff.add(id);
  }

  private async write(
    tx: Transaction,
    changes: DiaryChanges,
    of: { diary: string; now: string; moment: DiaryMoment },
  ): Promise<void> {
    await tx.execute(PUT_BOOKINGS, [JSON.stringify(changes.put), of.diary, of.now]);
    await tx.execute(CALL_OFF, [[...changes.callOff], of.now]);
    await tx.execute(FORGET_NAMES, [of.moment.namesFrom]);
    await tx.execute(NOTE_CHANGE, [of.now, true]);
  }
}

type KeptRow = KeptBooking & Record<string, unknown>;

function viewOf(
  { found, added, changed, callOff, same, older, standing }: DiaryChanges,
  reader: WordReader,
  { today }: DiaryMoment,
): ImportedBookingsView {
  const toCome = standing.filter(({ day }) => day >= today).sort(byStart);
  const isUnread = ({ what }: BookingRow) => {
    const { serviceIds, notAVisit } = reader.of(what);
    return serviceIds.length === 0 && !notAVisit;
  };
  return {
    ...{ found, added, changed, calledOff: callOff.size, same, older },
    unread: toCome.filter(isUnread).length,
    examples: toCome.slice(0, EXAMPLES).map(({ day, who, what }) => ({
      ...{ day, who, what },
      services: reader.services(what).map(({ name }) => name),
    })),
  };
}

function byStart(a: BookingRow, b: BookingRow): number {
  return a.starts_at < b.starts_at ? -1 : 1;
}
