/** What is on the clients' cards by the last day: formulas they come back to, sensitivity tests. */
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { dayAfter } from '../shared/calendar.js';
import type { Transaction } from '../src/platform/database/transaction.js';
import { FormulasService } from '../src/studio/catalogue/formulas.service.js';
import { instantAt } from './calendar.js';
import type { DemoPerson } from './catalogue.js';
import type { Chance } from './chance.js';
import { idOf } from './ids.js';
import type { Regular, Regulars } from './regulars.js';
import { WRITE_SENSITIVITY_TESTS } from './batches.queries.js';

/** How many visits it takes until a formula is saved. */
const oftenEnough = 3;
const testedShare = 0.85;
const lines = ['Tidewater', 'Marram'];

/** Fills the cards in; written once, at the end of the story. */
export class Cards {
  constructor(
    private readonly regulars: Regulars,
    private readonly people: readonly DemoPerson[],
    private readonly chance: Chance,
  ) {}

  async write(tx: Transaction, app: NestFastifyApplication): Promise<void> {
    const all = this.regulars.known();
    const formulas = all.flatMap((regular) => this.formulasOf(regular));
    if (formulas.length > 0) await app.get(FormulasService).insert(tx, formulas);
    const tests = all.flatMap((regular) => this.testsOf(regular));
    await tx.execute(WRITE_SENSITIVITY_TESTS, [JSON.stringify(tests)]);
  }

  private formulasOf(regular: Regular) {
    const { client, visits, usual, ways } = regular;
    if (visits < oftenEnough) return [];
    const { known } = this.regulars.hair(regular);
    return usual.steps.flatMap((step) => {
      const way = ways.get(step);
      if (!way) return [];
      const grams = Math.ceil((way.grams * known) / 5) * 5;
      const name = `${way.purpose}, ${way.name}`;
      return [
        {
          id: idOf('formula', `${client.number} ${name}`),
          clientId: client.id,
          name,
          purpose: way.purpose,
          plan: { ...way.plan, size: { total: { quantity: String(grams), unit: 'g' } } },
          minutesOnHair: way.minutes,
        },
      ];
    });
  }

  /** Placed three days before the first visit, read the day before it. */
  private testsOf({ client, from }: Regular) {
    return lines
      .filter(() => this.chance.happens(testedShare))
      .map((line) => ({
        id: idOf('sensitivity test', `${client.number} ${line}`),
        client_id: client.id,
        line,
        placed_at: instantAt(dayAfter(from, -3), 10 * 60 + this.chance.whole(0, 300)),
        read_at: instantAt(dayAfter(from, -1), 16 * 60 + this.chance.whole(0, 120)),
        result: this.chance.happens(0.008) ? 'reaction' : 'no reaction',
        person_id: this.chance.one(this.people).id,
      }));
  }
}
