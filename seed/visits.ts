/** Visits of the story as rows, each with the terms that it was closed by. */
import type { Transaction } from '../src/platform/database/transaction.js';
import type { StudioService } from '../src/studio/people/studio.service.js';
import { termsOf, type Terms } from '../src/studio/pricing/terms.js';
import type { VisitRow } from '../src/studio/visits/visits.service.js';
import type { Catalogue } from './catalogue.js';
import type { VisitBegins, VisitCloses } from './happenings.js';
import { READ_IN_THE_PRICE, WRITE_VISITS } from './batches.queries.js';

type Row = Readonly<Record<string, unknown>>;

/** Every rule and rate of the studio; a visit keeps those of its services and people. */
export async function allTerms(
  tx: Transaction,
  studio: StudioService,
  { people }: Catalogue,
): Promise<Terms> {
  const services = await tx.query(READ_IN_THE_PRICE);
  const everything = { terms: null, closed_at: null, person_id: null, minutes: [], services };
  const ids = people.map(({ id }) => id);
  return (await termsOf(tx, studio, everything as unknown as VisitRow, ids)).terms;
}

/** Visits that begin and end within a batch. */
export class VisitRows {
  private readonly begun = new Map<string, VisitBegins>();
  private readonly visits: Row[] = [];
  private readonly services: Row[] = [];
  private readonly minutes: Row[] = [];

  constructor(private readonly terms: Terms) {}

  begin(begins: VisitBegins): void {
    this.begun.set(begins.visit.id, begins);
  }

  close(closes: VisitCloses): void {
    const begins = this.begun.get(closes.visitId);
    if (!begins) throw new Error('A visit of the demo closed before it began.');
    const { visit } = begins;
    const { tip } = closes;
    this.visits.push({
      id: visit.id,
      client_id: visit.clientId,
      person_id: visit.personId,
      kind: visit.kind,
      redo_of: visit.redoOf ?? null,
      started_at: visit.startedAt,
      recorded_at: begins.at,
      closed_at: closes.at,
      chair_minutes: closes.chairMinutes,
      payments: closes.payments,
      tip: tip?.amount ?? null,
      tip_method: tip?.method ?? null,
      tip_person_id: tip ? visit.personId : null,
      terms: this.termsFor(begins, closes),
    });
    visit.services.forEach(({ serviceId, price }, index) =>
      this.services.push({
        ...{ visit_id: visit.id, position: index + 1, service_id: serviceId, price },
      }),
    );
    for (const { personId, minutes } of closes.minutes) {
      this.minutes.push({ visit_id: visit.id, person_id: personId, minutes });
    }
  }

  async write(tx: Transaction): Promise<void> {
    if (this.visits.length === 0) return;
    await tx.execute(WRITE_VISITS, [
      JSON.stringify(this.visits),
      JSON.stringify(this.services),
      JSON.stringify(this.minutes),
    ]);
  }

  private termsFor({ visit }: VisitBegins, { minutes }: VisitCloses): Terms {
    const { pricing, services, people } = this.terms;
    const there = new Set([visit.personId, ...minutes.map(({ personId }) => personId)]);
    return {
      pricing,
      services: visit.services.flatMap(({ serviceId }) =>
        services.filter((service) => service.serviceId === serviceId),
      ),
      people: people.filter(({ id }) => there.has(id)),
    };
  }
}
