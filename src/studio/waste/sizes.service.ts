/** The right size of a bowl: what like heads took, the narrowest group first. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { HairDensity, HairLength } from '../../../shared/contract/clients.js';
import type { SizeView } from '../../../shared/contract/waste.js';
import { canonical, decimal } from '../../../shared/decimal.js';
import { needsOf, rightSize, usualPoint } from '../../../shared/sizing.js';
import { Clock } from '../../platform/clock.js';
import { forStudio } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { READ_TAKEN } from './waste.queries.js';
import type { SizeRequest } from './waste.requests.js';

interface TakenRow {
  readonly visitId: string;
  readonly purpose: string;
  readonly order: number;
  readonly applied: string;
  readonly leftover: string;
  readonly sameService: boolean;
  readonly hairLength: HairLength | null;
  readonly hairDensity: HairDensity | null;
}

@Injectable()
export class SizesService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  /**
   * The size for a purpose, by service, hair length and density where they are told: the point of
   * what was applied over 24 months, rounded up to 5 g; groups under 8 heads are pooled with the
   * next wider one.
   */
  async size(caller: Caller, request: SizeRequest): Promise<SizeView> {
    const { purpose, serviceId, visitId, hairLength, hairDensity } = request;
    const rows = await forStudio(this.dataSource, caller.studioId).query<
      TakenRow & Record<string, unknown>
    >(READ_TAKEN, [purpose, serviceId ?? null, visitId ?? null, this.clock.now()]);
    const point = request.point ?? usualPoint;
    const found = rightSize(
      narrowing(rows, request).map((group) => needsOf(group.map(taken))),
      point,
    );
    return {
      purpose,
      serviceId: serviceId ?? null,
      hairLength: hairLength ?? null,
      hairDensity: hairDensity ?? null,
      point: canonical(point),
      size: found && { quantity: canonical(found.grams), unit: 'g' },
      heads: found?.bowls ?? 0,
      widerHeads: found?.widerBowls ?? 0,
      pooled: found?.pooled ?? false,
      lowerBound: found?.lowerBound ?? false,
    };
  }
}

/** Groups of like heads, narrowest first: each gives up what the one before asked for last. */
function narrowing(rows: readonly TakenRow[], asked: SizeRequest): TakenRow[][] {
  const tests: ((row: TakenRow) => boolean)[] = [
    ...(asked.serviceId === undefined ? [] : [(row: TakenRow) => row.sameService]),
    ...(asked.hairLength === undefined
      ? []
      : [(row: TakenRow) => row.hairLength === asked.hairLength]),
    ...(asked.hairDensity === undefined
      ? []
      : [(row: TakenRow) => row.hairDensity === asked.hairDensity]),
  ];
  return [...tests.keys(), tests.length]
    .reverse()
    .map((how) => rows.filter((row) => tests.slice(0, how).every((test) => test(row))));
}

function taken({ visitId, purpose, order, applied, leftover }: TakenRow) {
  return {
    ...{ visitId, purpose, order },
    applied_g: decimal(applied),
    leftover_g: decimal(leftover),
  };
}
