/** What was left over, by one key, with an interval; people only as each one's own page. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { dayAfter, dayIn } from '../../../shared/calendar.js';
import type { WasteRowView, WasteView } from '../../../shared/contract/waste.js';
import { canonical, count, decimal, fixed, round, type Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { jackknifeInterval } from '../../../shared/waste.js';
import { Clock } from '../../platform/clock.js';
import { forStudio } from '../../platform/database/transaction.js';
import { mayAct, type Caller } from '../../platform/http/rights.js';
import { StudioService } from '../people/studio.service.js';
import { readWaste } from './waste.queries.js';
import type { WasteRequest } from './waste.requests.js';

/** Others see a person's figures from this many bowls. */
export const fewestBowlsOfPerson = 20;

interface WasteRow {
  readonly key: string;
  readonly label: string;
  readonly bowls: number;
  readonly estimatedBowls: number;
  readonly remadeBowls: number;
  readonly ranOut: number;
  readonly mixed: string;
  readonly wasted: string;
  readonly remade: string;
  readonly value: string;
  readonly leftOutShares: string;
  readonly leftOutSquares: string;
}

@Injectable()
export class WasteService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
  ) {}

  /**
   * Left over by a key. A stylist sees what she sized herself, without money; by person, others
   * are shown in alphabetical order and from 20 bowls.
   * @throws Problem `needs_a_person`, `from_after_to`
   */
  async leftOver(caller: Caller, request: WasteRequest): Promise<WasteView> {
    const manages = mayAct(caller, 'manager');
    if (!manages && caller.personId === undefined) throw new Problem('needs_a_person', {});
    const reader = forStudio(this.dataSource, caller.studioId);
    const { timeZone } = await this.studio.show(caller.studioId, false);
    const to = request.to ?? dayAfter(dayIn(timeZone, this.clock.now()), 1);
    const from = request.from ?? dayAfter(to, -365);
    if (from >= to) throw new Problem('from_after_to', { from, to }, '/to');
    const rows = await reader.query<WasteRow & Record<string, unknown>>(readWaste(request.by), [
      from,
      to,
      manages ? null : caller.personId,
    ]);
    const shown = rows.filter(
      (row) =>
        request.by !== 'person' ||
        row.key === 'none' ||
        row.key === caller.personId ||
        row.bowls >= fewestBowlsOfPerson,
    );
    return { from, to, rows: shown.map((row) => rowView(row, manages)) };
  }
}

const grams = (value: Decimal) =>
  ({ quantity: canonical(round(value, 3, 'half_even')), unit: 'g' }) as const;

const share = (value: Decimal) => canonical(round(value, 6, 'half_even'));

function rowView(row: WasteRow, money: boolean): WasteRowView {
  const [mixed, wasted] = [decimal(row.mixed), decimal(row.wasted)];
  const ratio = mixed.isZero() ? null : wasted.dividedBy(mixed);
  const interval =
    ratio &&
    jackknifeInterval({
      share: ratio,
      bowls: row.bowls,
      sumOfShares: decimal(row.leftOutShares),
      sumOfSquares: decimal(row.leftOutSquares),
    });
  const counted = row.bowls + row.estimatedBowls;
  return {
    key: row.key,
    label: row.label,
    bowls: row.bowls,
    estimatedBowls: row.estimatedBowls,
    remadeBowls: row.remadeBowls,
    ranOut: row.ranOut,
    mixed: grams(mixed),
    applied: grams(mixed.minus(wasted)),
    wasted: grams(wasted),
    remade: grams(decimal(row.remade)),
    share: ratio && share(ratio),
    shareLow: interval && share(interval.low),
    shareHigh: interval && share(interval.high),
    notWeighedShare:
      counted === 0 ? null : share(count(row.estimatedBowls).dividedBy(count(counted))),
    ...(money ? { value: fixed(decimal(row.value), 6) } : {}),
  };
}
