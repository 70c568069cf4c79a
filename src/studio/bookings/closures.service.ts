/** Days on which the studio is closed: typed in, or taken from a calendar of holidays. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import { dayIn } from '../../../shared/calendar.js';
import type { ClosureView, ImportedClosuresView } from '../../../shared/contract/bookings.js';
import { Problem } from '../../../shared/problems/problem.js';
import { instantFrom, millisOf } from '../../platform/clock.js';
import { forStudio, inTransaction, type Transaction } from '../../platform/database/transaction.js';
import {
  ADD_CLOSURES,
  DROP_CLOSURE,
  NOTE_CHANGE,
  READ_CLOSURES,
  READ_TODAY,
} from './bookings.queries.js';
import type { ClosureRequest } from './bookings.requests.js';
import { eventsIn } from './calendar-events.js';
import { seriesIn, type Occurrence } from './calendar-occurrences.js';

const DAY = 86_400_000;
/** Closed days of three years back teach, of two years ahead are known. */
const DAYS_BACK = 1100;
const DAYS_AHEAD = 740;
const LONGEST_NAME = 100;

@Injectable()
export class ClosuresService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  list(studioId: string): Promise<ClosureView[]> {
    return forStudio(this.dataSource, studioId).query<ClosureView & Record<string, string>>(
      READ_CLOSURES,
    );
  }

  /** @throws Problem `days_back_to_front` */
  async add(tx: Transaction, request: ClosureRequest, now: string): Promise<ClosureView> {
    const { id = uuidv7(), from, to = from, name } = request;
    if (to < from) throw new Problem('days_back_to_front', { from, to }, '/to');
    await tx.execute(ADD_CLOSURES, [JSON.stringify([{ id, from, to, name }])]);
    await tx.execute(NOTE_CHANGE, [now, false]);
    const all = await tx.query<ClosureView & Record<string, string>>(READ_CLOSURES);
    const same = all.find((each) => each.from === from && each.to === to && each.name === name);
    return same ?? { id, from, to, name };
  }

  /** @throws Problem `not_found` */
  drop(studioId: string, id: string, now: string): Promise<void> {
    return inTransaction(this.dataSource, studioId, async (tx) => {
      const dropped = await tx.execute(DROP_CLOSURE, [id]);
      await tx.execute(NOTE_CHANGE, [now, false]);
      if (dropped === 0) throw new Problem('not_found', { what: 'closed day', id });
    });
  }

  /** Every event of an iCalendar file is a closed day or a stretch of them. */
  take(
    studioId: string,
    text: string,
    { now, dry }: { now: string; dry: boolean },
  ): Promise<ImportedClosuresView> {
    return inTransaction(
      this.dataSource,
      studioId,
      async (tx) => {
        const [studio] = await tx.query<{ time_zone: string }>(READ_TODAY, [now]);
        const timeZone = studio?.time_zone ?? 'UTC';
        const at = millisOf(now);
        const stretch = { from: at - DAYS_BACK * DAY, to: at + DAYS_AHEAD * DAY };
        const closures = seriesIn(eventsIn(text, timeZone), stretch)
          .flatMap(({ occurrences }) => occurrences)
          .filter(({ calledOff }) => !calledOff)
          .map((each) => ({ id: uuidv7(), ...daysOf(each, timeZone) }))
          .sort((a, b) => (a.from < b.from ? -1 : 1));
        const added = await tx.execute(ADD_CLOSURES, [JSON.stringify(closures)]);
        await tx.execute(NOTE_CHANGE, [now, false]);
        const found = closures.length;
        const view = {
          ...{ found, added, same: found - added },
          closures: closures.map(({ from, to, name }) => ({ from, to, name })),
        };
        return dry ? { ...view, dry } : view;
      },
      { dry },
    );
  }
}

/** The end of an event of whole days is the day after it (RFC 5545, section 3.6.1). */
function daysOf({ start, end, day, title }: Occurrence, timeZone: string) {
  const from = day ?? dayIn(timeZone, instantFrom(start));
  const last = end === null ? from : dayIn(timeZone, instantFrom(end - 1));
  return { from, to: last < from ? from : last, name: title.slice(0, LONGEST_NAME) };
}
