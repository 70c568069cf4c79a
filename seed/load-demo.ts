/** Loads Saltmarsh Row, the invented studio: opened by the services, its history in batches. */
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { dayIn } from '../shared/calendar.js';
import type { ProductStock } from '../shared/moving/stock.js';
import type { Clock } from '../src/platform/clock.js';
import {
  forStudio,
  inTransaction,
  type Transaction,
} from '../src/platform/database/transaction.js';
import type { Opened } from '../src/platform/database/opening.js';
import { asOwner } from '../src/platform/database/owner.js';
import { plainProduct } from '../src/studio/bowls/mix-products.js';
import { StudioService } from '../src/studio/people/studio.service.js';
import type { Terms } from '../src/studio/pricing/terms.js';
import { LedgerService, type Posting } from '../src/studio/stock/ledger.service.js';
import { timeZone } from './calendar.js';
import { readCatalogue, type Catalogue } from './catalogue.js';
import type { Happening, Slow } from './happenings.js';
import { saltmarshRow } from './ids.js';
import { openSaltmarshRow, windowBench } from './opening.js';
import { happen } from './slow.js';
import { Story } from './story.js';
import { SwiftBatch } from './swift.js';
import { COUNTS } from './batches.queries.js';
import { allTerms } from './visits.js';

/** What loading needs. */
export interface DemoParts {
  readonly app: NestFastifyApplication;
  readonly dataSource: Opened['dataSource'];
  /** For the statistics by which the server plans, which only the owner may have it gather. */
  readonly target: Opened['target'];
  readonly clock: Clock;
  readonly progress: (line: string) => void;
  /** The last day to tell, YYYY-MM-DD; all of them unless told. */
  readonly until?: string;
  /** Hears all that happens, in the order in which it is recorded. */
  readonly heard?: (happening: Happening) => void;
}

/** The studio that was loaded and how its people sign in. */
export interface Demo {
  readonly studioId: string;
  /** Where its pours were weighed. */
  readonly benchId: string;
  readonly people: readonly {
    readonly id: string;
    readonly name: string;
    readonly role: 'owner' | 'manager' | 'stylist';
    readonly pin: string;
  }[];
  readonly summary: DemoSummary;
}

export interface DemoSummary {
  /** First and last day with visits, YYYY-MM-DD. */
  readonly from: string;
  readonly to: string;
  readonly products: number;
  readonly clients: number;
  readonly visits: number;
  readonly bowls: number;
  readonly movements: number;
}

/** Entries that are decided in memory before they are written. */
const batchSize = 120;
/** So many are decided before the server may be sent more of the batch before. */
const turnAfter = 4;
/** After so many entries the server looks at how much there is. */
const analyzeAt = [700, 3500];

/** Opens the studio and tells its history up to a few days before today; nothing of it is real. */
export async function loadDemo(parts: DemoParts): Promise<Demo> {
  parts.progress('Loading Saltmarsh Row, the invented studio …');
  const catalogue = readCatalogue();
  await openSaltmarshRow(parts, catalogue);
  const summary = await new Loading(parts, catalogue).load();
  const people = catalogue.people.map(({ id, name, role, pin }) => ({ id, name, role, pin }));
  return { studioId: saltmarshRow, benchId: windowBench.id, people, summary };
}

/** A history is told; what is swift is written while what follows is being decided. */
class Loading {
  private readonly ledger: LedgerService;
  private readonly tares: ReadonlyMap<string, string>;
  /** All products as they are after what is written. */
  private base: Posting | undefined;
  private batch: SwiftBatch | undefined;
  private writing: Promise<void> = Promise.resolve();
  private entries = 0;
  private terms: Terms | undefined;

  constructor(
    private readonly parts: DemoParts,
    private readonly catalogue: Catalogue,
  ) {
    this.ledger = parts.app.get(LedgerService);
    this.tares = new Map(catalogue.vessels.map(({ id, tare }) => [id, tare]));
  }

  async load(): Promise<DemoSummary> {
    const { catalogue, parts } = this;
    const base = await this.transact((tx) => this.held(tx));
    const products = catalogue.products.map(({ id }) => plainProduct(base.product(id)));
    const today = dayIn(timeZone, parts.clock.now());
    const story = new Story(catalogue, products, today, (id) => this.stock(id));
    const until = parts.until ?? story.last;
    const days = story.days.filter((day) => day <= until);
    if (days.length > 0) await this.slowly([story.opening()]);
    for (const day of days) {
      await this.day(story, day);
      if (day.slice(0, 4) < (story.days[story.days.indexOf(day) + 1] ?? day).slice(0, 4)) {
        parts.progress(`Loading Saltmarsh Row … ${day.slice(0, 4)}`);
      }
    }
    await this.write();
    await this.writing;
    await this.transact((tx) => story.cards().write(tx, parts.app));
    await this.analyze();
    return this.summary(days);
  }

  private async day(story: Story, day: string): Promise<void> {
    const batch = await this.current(story);
    const told = story.day(day);
    for (const [index, happening] of told.entries()) {
      batch.book(happening);
      this.parts.heard?.(happening);
      // what is being sent to the server needs a turn, too
      if (index % turnAfter === 0) await new Promise((resolve) => setImmediate(resolve));
    }
    const evening = story.evening(day, told, () => this.refresh());
    if (evening) await this.slowly(evening);
    else if (batch.size > batchSize) await this.write();
  }

  private async current(story: Story): Promise<SwiftBatch> {
    this.terms ??= await this.transact((tx) =>
      allTerms(tx, this.parts.app.get(StudioService), this.catalogue),
    );
    this.base ??= await this.transact((tx) => this.held(tx));
    this.batch ??= new SwiftBatch({
      posting: this.base,
      plans: story.plans,
      terms: this.terms,
      benchId: windowBench.id,
      tares: this.tares,
    });
    return this.batch;
  }

  /** Hands the batch over to be written, when the one before is. */
  private async write(): Promise<void> {
    const { batch } = this;
    if (!batch) return;
    this.base = batch.last;
    this.batch = undefined;
    await this.writing;
    const before = this.entries;
    this.entries += batch.size;
    // plans made while a table was empty would read all of it for every row that refers to it
    if (analyzeAt.some((entries) => before < entries && entries <= this.entries)) {
      await this.analyze('visit, bowl, pour, journal, lot, movement');
    }
    this.writing = this.transact((tx) => batch.write(tx, this.ledger));
    this.writing.catch(() => undefined); // told where it is waited for
  }

  /** Writes what was decided, then asks the services, one step after the other. */
  private async slowly(steps: Iterable<Slow> | AsyncIterable<Slow>): Promise<void> {
    await this.write();
    await this.writing;
    await this.transact(async (tx) => {
      this.evening = tx;
      for await (const happening of steps) {
        await happen(tx, this.parts.app, happening, windowBench.id);
        this.parts.heard?.(happening);
      }
      await this.refresh();
    });
  }

  private stock(productId: string): ProductStock {
    const kept = this.batch ?? this.base;
    if (!kept) throw new Error('No shelf of the demo has been read.');
    return kept.stock(productId);
  }

  private async refresh(): Promise<void> {
    if (this.evening) this.base = await this.held(this.evening);
  }

  private evening: Transaction | undefined;

  private analyze(tables = ''): Promise<unknown> {
    return asOwner(this.parts.target, (owner) => owner.query(`analyze ${tables}`));
  }

  private held(tx: Transaction): Promise<Posting> {
    const productIds = this.catalogue.products.map(({ id }) => id);
    return this.ledger.hold(tx, { productIds }, this.parts.clock.now());
  }

  private transact<T>(work: (tx: Transaction) => Promise<T>): Promise<T> {
    return inTransaction(this.parts.dataSource, saltmarshRow, work);
  }

  private async summary(days: readonly string[]): Promise<DemoSummary> {
    const reader = forStudio(this.parts.dataSource, saltmarshRow);
    const [row] = await reader.query<{ visits: number; bowls: number; movements: number }>(COUNTS);
    return {
      from: days[0] ?? '',
      to: days[days.length - 1] ?? '',
      products: this.catalogue.products.length,
      clients: this.catalogue.clients.length,
      ...{ visits: row?.visits ?? 0, bowls: row?.bowls ?? 0, movements: row?.movements ?? 0 },
    };
  }
}
