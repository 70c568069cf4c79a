/** Reads all that price sheets are worked out from, of one visit or of many at once. */
import { Inject, Injectable } from '@nestjs/common';
import { decimal, type Decimal } from '../../../shared/decimal.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import type { Reader } from '../../platform/database/transaction.js';
import { StudioService } from '../people/studio.service.js';
import { VisitsService } from '../visits/visits.service.js';
import { READ_REPLACEMENT } from './price-sheets.queries.js';
import type { FlowRow, FoundRow, SheetRows, StartedRow } from './sheet-input.js';
import {
  READ_FLOWS_OF_MANY,
  READ_FOUND_OF_MANY,
  READ_STARTED_OF_MANY,
} from './sheet-rows.queries.js';
import { presentTerms } from './terms.js';

type OfVisit<T> = T & { readonly visit_id: string } & Record<string, unknown>;

/** So many visits are read in one go. */
const atOnce = 500;

@Injectable()
export class SheetRowsService {
  constructor(
    @Inject(Clock) private readonly clock: Clock,
    @Inject(StudioService) private readonly studio: StudioService,
    @Inject(VisitsService) private readonly visits: VisitsService,
  ) {}

  /** @throws Problem `not_found` */
  async of(reader: Reader, visitId: string): Promise<SheetRows> {
    const [rows] = await this.ofMany(reader, [visitId]);
    if (!rows) throw new Problem('not_found', { what: 'visit', id: visitId });
    return rows;
  }

  /** In the order of the ids; what is not there is left out. */
  async ofMany(reader: Reader, visitIds: readonly string[]): Promise<SheetRows[]> {
    const all: SheetRows[] = [];
    for (let from = 0; from < visitIds.length; from += atOnce) {
      all.push(...(await this.some(reader, visitIds.slice(from, from + atOnce))));
    }
    return all;
  }

  /**
   * What one stock unit of each product would cost now; null where nobody knows.
   * @param prices list prices by pack that are taken instead of those there are
   */
  async unitCosts(
    reader: Reader,
    productIds: readonly string[],
    prices: Readonly<Record<string, string>> = {},
  ): Promise<Map<string, Decimal | null>> {
    const parameters = [productIds, this.clock.now(), JSON.stringify(prices)];
    const rows = await reader.query<{ id: string; unit_cost: string | null }>(
      READ_REPLACEMENT,
      parameters,
    );
    return new Map(
      rows.map((row) => [row.id, row.unit_cost === null ? null : decimal(row.unit_cost)]),
    );
  }

  private async some(reader: Reader, ids: readonly string[]): Promise<SheetRows[]> {
    const [visits, flows, started] = await Promise.all([
      this.visits.readMany(reader, ids, this.clock.now()),
      reader.query<OfVisit<FlowRow>>(READ_FLOWS_OF_MANY, [ids]),
      reader.query<OfVisit<StartedRow>>(READ_STARTED_OF_MANY, [ids]),
    ]);
    const products = [...new Set(flows.map((flow) => flow.product_id))];
    const without = flows.some((flow) => !decimal(flow.zero).isZero());
    const [{ termsFor, currency }, unitCosts, found] = await Promise.all([
      presentTerms(reader, this.studio, [...visits.values()]),
      this.unitCosts(reader, products),
      without ? reader.query<OfVisit<FoundRow>>(READ_FOUND_OF_MANY, [ids]) : [],
    ]);
    const [flowsOf, startedOf, foundOf] = [byVisit(flows), byVisit(started), byVisit(found)];
    return ids.flatMap((id) => {
      const visit = visits.get(id);
      if (!visit) return [];
      return {
        ...{ visit, terms: termsFor(visit), currency, unitCosts },
        flows: flowsOf(id),
        found: foundOf(id),
        started: startedOf(id),
      };
    });
  }
}

function byVisit<T extends { readonly visit_id: string }>(rows: readonly T[]) {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.visit_id);
    if (group) group.push(row);
    else groups.set(row.visit_id, [row]);
  }
  return (id: string): readonly T[] => groups.get(id) ?? [];
}
