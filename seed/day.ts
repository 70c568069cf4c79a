/** One day at the three chairs: who comes, who serves, which bowls are mixed, what is paid. */
import { canonical } from '../shared/decimal.js';
import { millisOf } from '../src/platform/clock.js';
import { instantAt, later, yearsSince } from './calendar.js';
import type { Catalogue, DemoPerson, DemoService, DemoStep, DemoVariant } from './catalogue.js';
import type { Chance } from './chance.js';
import type { BowlIsMixed, Swift, TakenLine, VisitBegins, VisitCloses } from './happenings.js';
import { dueOf } from './due.js';
import { idAt } from './ids.js';
import type { Mixing } from './bowls.js';
import type { Regular, Regulars } from './regulars.js';

/** What the day's story is told with. */
export interface DayParts {
  readonly catalogue: Catalogue;
  readonly chance: Chance;
  readonly regulars: Regulars;
  readonly mixing: Mixing;
  /** The last day of the story: the menu of today. */
  readonly last: string;
  /** True when the shelf has what a step's way takes, at about so many grams. */
  readonly isThere: (
    variant: DemoVariant,
    grams: number,
    spokenFor: ReadonlyMap<string, number>,
  ) => boolean;
}

const opens = 9 * 60;
const lastStart = 17 * 60 + 15;
/** A year's rise of menu prices; past visits were charged less. */
const priceRise = 0.05;

export class Day {
  private readonly desk: DemoPerson;
  private readonly free: Map<DemoPerson, number>;
  private readonly told: Swift[] = [];
  /** What the day's bowls have taken so far, by product. */
  private readonly spokenFor = new Map<string, number>();

  constructor(
    private readonly parts: DayParts,
    private readonly day: string,
  ) {
    const { people } = parts.catalogue;
    this.desk = people.find(({ role }) => role === 'manager') as DemoPerson;
    this.free = new Map(people.map((person) => [person, opens + parts.chance.whole(0, 25)]));
  }

  /** All that is written down on the day, in that order. */
  happenings(visits: number): Swift[] {
    for (const regular of this.parts.regulars.come(this.day, visits)) this.visit(regular);
    return this.told.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  }

  private visit(regular: Regular): void {
    const { chance, regulars } = this.parts;
    const { redo } = regular;
    const services = redo ? [redo.service] : regulars.services(regular, this.day);
    const person = this.whoServes(regular);
    const start = this.free.get(person) ?? opens;
    const handsOn = services.reduce((all, service) => all + service.handsOn, 0);
    const chair = services.reduce((all, service) => all + service.chair, 0);
    this.free.set(person, start + handsOn * chance.between(0.78, 0.95) + chance.whole(0, 10));
    const startedAt = instantAt(this.day, start, chance.whole(0, 59));
    const begins = this.begins(regular, person, services, startedAt);
    this.told.push(begins);
    regulars.judge(regular, services, begins.visit.id, this.day);
    const lastBowl = services.reduce(
      (from, service) => this.bowls(regular, person, service, begins.visit.id, from),
      later(startedAt, chance.whole(6, 14) * 60),
    );
    const planned = later(startedAt, Math.floor(chair * chance.between(0.88, 1.12)) * 60);
    const afterBowl = later(lastBowl, 9 * 60);
    const closedAt = planned > afterBowl ? planned : afterBowl;
    const kinds = this.told
      .slice(this.told.indexOf(begins))
      .flatMap((each) =>
        each.what === 'a bowl is mixed' && isCharged(each) ? [each.variant.kind] : [],
      );
    this.told.push(this.closes(regular, person, services, { begins, kinds, closedAt }));
  }

  /** Whom the client had last time, if there is time; else who is free first, by share. */
  private whoServes({ lastPersonId }: Regular): DemoPerson {
    const { chance, catalogue } = this.parts;
    const timely = catalogue.people.filter((each) => (this.free.get(each) ?? 0) <= lastStart);
    const usual = timely.find(({ id }) => id === lastPersonId);
    if (usual && chance.happens(0.8)) return usual;
    if (timely.length > 0) return chance.one(timely, ({ visitsShare }) => visitsShare);
    const [first] = [...this.free].sort(([, a], [, b]) => a - b);
    return first?.[0] ?? this.desk;
  }

  private begins(
    regular: Regular,
    person: DemoPerson,
    services: readonly DemoService[],
    startedAt: string,
  ): VisitBegins {
    regular.lastPersonId = person.id;
    const id = idAt(millisOf(startedAt), this.parts.chance);
    const yearsAgo = yearsSince(this.day, this.parts.last);
    return {
      what: 'a visit begins',
      at: startedAt,
      personId: this.desk.id,
      visit: {
        id,
        clientId: regular.client.id,
        personId: person.id,
        startedAt,
        ...(regular.redo ? { kind: 'redo', redoOf: regular.redo.visitId } : { kind: 'client' }),
        services: services.map(({ id: serviceId, price }) => ({
          serviceId,
          price: regular.redo ? '0' : priceIn(price, yearsAgo),
        })),
      },
    };
  }

  /** The bowls of a service, one after the other; when the last of them was settled. */
  private bowls(
    regular: Regular,
    person: DemoPerson,
    service: DemoService,
    visitId: string,
    from: string,
  ): string {
    const { chance, regulars, mixing } = this.parts;
    const hair = regulars.hair(regular);
    let at = from;
    let last = from;
    for (const step of service.steps) {
      if (!chance.happens(step.chance)) continue;
      const variant = this.wayThatIsThere(regular, step);
      const { grams } = variant;
      let missing = grams * hair.real * Math.exp(0.11 * chance.scattered());
      let expected = grams * hair.known;
      for (let bowl = 0; bowl < 2 && (bowl === 0 || missing > 5); bowl += 1) {
        const mixed = mixing.mix({
          ...{ visitId, variant, at, expected, needed: missing },
          ...this.hands(person),
        });
        this.told.push(recorded(mixed.body, mixed.settledAt, variant));
        this.speakFor(mixed.body);
        missing = mixed.missing;
        expected = missing + 6;
        last = mixed.settledAt > last ? mixed.settledAt : last;
        if (missing > 5) at = later(at, chance.whole(16, 24) * 60);
      }
      const waits = ['gloss', 'second pass', 'lengths'].includes(variant.purpose);
      at = later(waits ? last : at, chance.whole(waits ? 6 : 14, waits ? 12 : 22) * 60);
    }
    return last;
  }

  private wayThatIsThere(regular: Regular, step: DemoStep): DemoVariant {
    const { chance, regulars, isThere } = this.parts;
    const way = regulars.way(regular, step, this.day);
    const there = (each: DemoVariant) => isThere(each, each.grams * 1.5, this.spokenFor);
    if (there(way)) return way;
    const others = step.variants.filter(there);
    // a little of it is left in the book: poured all the same, and beyond it
    return others.length > 0 && chance.happens(0.85) ? chance.one(others) : way;
  }

  private speakFor({ pours }: BowlIsMixed['body']): void {
    for (const { productId, quantity } of pours) {
      this.spokenFor.set(productId, (this.spokenFor.get(productId) ?? 0) + +quantity);
    }
  }

  /** The owner and the manager have their bowls mixed for them as often as not. */
  private hands(person: DemoPerson) {
    const { chance, catalogue } = this.parts;
    const stylists = catalogue.people.filter(({ role }) => role === 'stylist');
    const helped = person.role !== 'stylist' && chance.happens(0.5);
    const mixedBy = helped ? chance.one(stylists) : person;
    return { sizedBy: person, mixedBy, appliedBy: person };
  }

  private closes(
    regular: Regular,
    person: DemoPerson,
    services: readonly DemoService[],
    told: {
      readonly begins: VisitBegins;
      /** What each bowl is of. */
      readonly kinds: readonly string[];
      readonly closedAt: string;
    },
  ): VisitCloses {
    const { chance } = this.parts;
    const { kinds, closedAt } = told;
    const { visit } = told.begins;
    const minutes = services.reduce((all, service) => all + service.handsOn, 0);
    const charged = visit.services.map(({ serviceId, price }, index) => ({
      ...{ id: serviceId, price, inThePrice: services[index]?.inThePrice ?? [] },
    }));
    const due = dueOf(charged, visit.kind === 'client' ? kinds : []);
    const method = chance.happens(regular.paysCash) ? 'cash' : 'card';
    const tip = chance.happens(0.34) ? `${chance.whole(2, 8)}` : null;
    return {
      what: 'a visit closes',
      at: closedAt,
      personId: this.desk.id,
      visitId: visit.id,
      chairMinutes: services.reduce((all, service) => all + service.chair, 0),
      minutes: [{ personId: person.id, minutes: minutes + chance.whole(-2, 3) * 5 }],
      payments: due.isZero() ? [] : [{ method, amount: canonical(due) }],
      tip: tip === null ? null : { amount: tip, method },
      uses: this.uses(services),
      useId: idAt(millisOf(closedAt), chance),
    };
  }

  /** The kits of the services; foils as many as it took. */
  private uses(services: readonly DemoService[]): TakenLine[] {
    const used = new Map<string, TakenLine>();
    for (const { kit } of services) {
      for (const { productId, quantity, unit } of kit) {
        const many = +quantity > 20 && unit === 'piece';
        const more = many ? Math.max(1, +quantity + this.parts.chance.whole(-4, 4) * 2) : +quantity;
        const known = +(used.get(productId)?.quantity ?? '0');
        used.set(productId, { productId, quantity: String(known + more), unit });
      }
    }
    return [...used.values()];
  }
}

/** The studio bears what was spilled or mixed wrong; of a bowl that was stopped, too. */
function isCharged({ body }: BowlIsMixed): boolean {
  return (body.settlement.why ?? 'left over') === 'left over';
}

function recorded(body: BowlIsMixed['body'], at: string, variant: DemoVariant): BowlIsMixed {
  return {
    what: 'a bowl is mixed',
    at: later(at, 20),
    personId: body.bowl.mixedBy,
    body,
    variant,
  };
}

/** The menu price so many years before today's menu, in whole units of the currency. */
function priceIn(price: number, yearsBefore: number): string {
  return (price / (1 + priceRise) ** Math.max(0, yearsBefore)).toFixed(0);
}
