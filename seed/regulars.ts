/** The clients of the story: what each usually has, how often they come, who is due today. */
import { dayAfter, daysBetween } from '../shared/calendar.js';
import { yearsSince } from './calendar.js';
import type { Catalogue, DemoClient, DemoService, DemoStep, DemoVariant } from './catalogue.js';
import type { Chance } from './chance.js';

/** A client with habits. */
export interface Regular {
  readonly client: DemoClient;
  readonly usual: DemoService;
  readonly everyDays: number;
  readonly from: string;
  readonly until: string;
  /** More or less hair than others of the same length and density. */
  readonly takes: number;
  readonly paysCash: number;
  due: number;
  /** Visits so far. */
  visits: number;
  lastPersonId: string | null;
  /** The next visit does this one again. */
  redo: { readonly visitId: string; readonly service: DemoService } | null;
  /** The way in which each step is mixed for this client, by service and step. */
  readonly ways: Map<DemoStep, DemoVariant>;
}

const lengths: Readonly<Record<string, number>> = {
  short: 0.72,
  medium: 1,
  long: 1.32,
  'very long': 1.62,
};
const densities: Readonly<Record<string, number>> = { fine: 0.88, medium: 1, thick: 1.16 };
/** Share of clients who are there from the first day, and of those who stay away one day. */
const fromTheStart = 0.6;
const leaving = 0.12;
const sameAgain = 0.74;
/** Share of visits that are done again. */
const redone = 0.009;

export class Regulars {
  private readonly all: Regular[];

  constructor(
    private readonly catalogue: Catalogue,
    private readonly chance: Chance,
    private readonly first: string,
    last: string,
  ) {
    const days = daysBetween(first, last);
    this.all = catalogue.clients.map((client) => this.regular(client, days));
  }

  /** Those who have waited longest for their next visit. */
  come(day: string, count: number): Regular[] {
    const passed = daysBetween(this.first, day);
    const coming = this.all
      .filter(({ from, until }) => from <= day && day <= until)
      .map((regular) => ({ regular, late: passed - regular.due + this.chance.between(0, 9) }))
      .sort((a, b) => b.late - a.late)
      .slice(0, count)
      .map(({ regular }) => regular);
    for (const regular of coming) {
      regular.due = passed + regular.everyDays * this.chance.between(0.8, 1.3);
      regular.visits += 1;
    }
    return coming;
  }

  /** Everybody who has been here. */
  known(): Regular[] {
    return this.all.filter(({ visits }) => visits > 0);
  }

  /** What a client has today: the usual, or something else; now and then a cut with it. */
  services(regular: Regular, day: string): DemoService[] {
    const { services } = this.catalogue;
    const years = yearsSince(this.first, day);
    const main = this.chance.happens(sameAgain)
      ? regular.usual
      : this.chance.one(services, ({ share, yearly }) => share * grown(yearly, years));
    const cut = services.find(({ name }) => name === 'Cut');
    return cut && main !== cut && this.chance.happens(0.28) ? [main, cut] : [main];
  }

  /** Content, as a rule; now and then it has to be done again within days. */
  judge(regular: Regular, services: readonly DemoService[], visitId: string, day: string): void {
    const [service] = services;
    const again = regular.redo === null && service !== undefined && service.steps.length > 0;
    regular.redo = again && this.chance.happens(redone) ? { visitId, service } : null;
    if (regular.redo) regular.due = daysBetween(this.first, day) - 60;
  }

  /** How a step is mixed for the client: as last time, seldom in another way. */
  way(regular: Regular, step: DemoStep, day: string): DemoVariant {
    const known = regular.ways.get(step);
    if (known && !this.chance.happens(0.12)) return known;
    const years = yearsSince(this.first, day);
    const way = this.chance.one(step.variants, ({ weight, yearly }) => {
      return weight * grown(yearly, years);
    });
    regular.ways.set(step, way);
    return way;
  }

  /** How much a client's hair takes against medium hair of medium density. */
  hair({ client, takes }: Regular): { known: number; real: number } {
    const known = (lengths[client.hairLength] ?? 1) * (densities[client.hairDensity] ?? 1);
    return { known, real: known * takes };
  }

  private regular(client: DemoClient, days: number): Regular {
    const { chance } = this;
    const starts = chance.happens(fromTheStart) ? 0 : chance.whole(0, Math.floor(days * 0.85));
    const stays = chance.happens(leaving) ? chance.whole(120, days) : days;
    const everyDays = chance.between(34, 104);
    return {
      client,
      usual: chance.one(this.catalogue.services, ({ share }) => share),
      everyDays,
      from: dayAfter(this.first, starts),
      until: dayAfter(this.first, Math.min(days, starts + stays)),
      takes: Math.exp(0.1 * chance.scattered()),
      paysCash: chance.happens(0.3) ? 0.8 : 0.08,
      due: starts + chance.between(0, everyDays),
      visits: 0,
      lastPersonId: null,
      redo: null,
      ways: new Map(),
    };
  }
}

/** A weight after some years of growing (or shrinking) by a share a year. */
function grown(yearly: number, years: number): number {
  return Math.max(0.02, (1 + yearly) ** years);
}
