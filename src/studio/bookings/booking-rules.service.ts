/** How the diary's words are read: rules that a person typed, and the names of the menu. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import {
  matchWords,
  plainWords,
  standingRules,
  type MatchedWords,
  type WordRule,
} from '../../../shared/booking-words.js';
import { dayAfter } from '../../../shared/calendar.js';
import type { BookedServiceView, BookingRulesView } from '../../../shared/contract/bookings.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { inTransaction, type Reader } from '../../platform/database/transaction.js';
import {
  CLEAR_RULES,
  NOTE_CHANGE,
  PUT_RULES,
  READ_MENU_NAMES,
  READ_RULES,
  READ_TODAY,
  READ_WORDS,
} from './bookings.queries.js';
import type { RulesRequest } from './bookings.requests.js';

/** Words of the last so many days are shown to be read. */
const WORDS_DAYS = 183;

interface MenuRow {
  readonly id: string;
  readonly name: string;
  readonly retired: boolean;
}

/** Reads words by the rules that stand; every text is read once. */
export class WordReader {
  private readonly read = new Map<string, MatchedWords>();

  constructor(
    readonly rules: readonly WordRule[],
    private readonly names: ReadonlyMap<string, string>,
  ) {}

  of(what: string): MatchedWords {
    const known = this.read.get(what);
    if (known) return known;
    const matched = matchWords(what, this.rules);
    this.read.set(what, matched);
    return matched;
  }

  services(what: string): BookedServiceView[] {
    return this.of(what).serviceIds.flatMap((serviceId) => {
      const name = this.names.get(serviceId);
      return name === undefined ? [] : [{ serviceId, name }];
    });
  }
}

@Injectable()
export class BookingRulesService {
  constructor(@Inject(DataSource) private readonly dataSource: DataSource) {}

  /** The rules that stand now. */
  async reader(tx: Reader): Promise<WordReader> {
    const [typed, menu] = await Promise.all([this.typed(tx), menuOf(tx)]);
    const offered = menu.filter(({ retired }) => !retired);
    const names = new Map(menu.map(({ id, name }) => [id, name]));
    return new WordReader(standingRules(typed, offered), names);
  }

  /** Rules as typed, and what the diary's words mean by them. */
  show(studioId: string, now: string): Promise<BookingRulesView> {
    return inTransaction(this.dataSource, studioId, (tx) => this.view(tx, now));
  }

  /**
   * Replaces all rules.
   * @throws Problem `not_found` for a service, `no_words_to_match`, `words_twice`
   */
  put(
    studioId: string,
    { rules }: RulesRequest,
    { now, dry }: { now: string; dry: boolean },
  ): Promise<BookingRulesView> {
    return inTransaction(
      this.dataSource,
      studioId,
      async (tx) => {
        refuseUnusable(rules, await menuOf(tx));
        const rows = rules.map(({ words, serviceIds }) => ({ words, service_ids: serviceIds }));
        await tx.execute(CLEAR_RULES, []);
        await tx.execute(PUT_RULES, [JSON.stringify(rows)]);
        await tx.execute(NOTE_CHANGE, [now, false]);
        const view = await this.view(tx, now);
        return dry ? { ...view, dry } : view;
      },
      { dry },
    );
  }

  private async view(tx: Reader, now: string): Promise<BookingRulesView> {
    const [day] = await tx.query<{ today: string }>(READ_TODAY, [now]);
    const today = day?.today ?? '';
    const [typed, reader, words] = await Promise.all([
      this.typed(tx),
      this.reader(tx),
      tx.query<{ what: string; bookings: number; upcoming: number }>(READ_WORDS, [
        ...[today, dayAfter(today, -WORDS_DAYS)],
      ]),
    ]);
    return {
      rules: typed.map(({ words: each, serviceIds }) => ({
        words: each,
        serviceIds: [...serviceIds],
      })),
      words: words.map(({ what, bookings, upcoming }) => {
        const { found, notAVisit } = reader.of(what);
        const services = reader.services(what);
        return { what, bookings, upcoming, services, found: [...found], notAVisit };
      }),
    };
  }

  private async typed(tx: Reader): Promise<WordRule[]> {
    const rows = await tx.query<{ words: string; service_ids: string[] }>(READ_RULES);
    return rows.map(({ words, service_ids }) => ({ words, serviceIds: service_ids }));
  }
}

function menuOf(tx: Reader): Promise<MenuRow[]> {
  return tx.query<MenuRow & Record<string, unknown>>(READ_MENU_NAMES);
}

function refuseUnusable(rules: readonly WordRule[], menu: readonly MenuRow[]): void {
  const known = new Set(menu.map(({ id }) => id));
  const seen = new Set<string>();
  rules.forEach(({ words, serviceIds }, index) =>
    within(`/rules/${index}`, () => {
      const plain = plainWords(words);
      if (plain === '') throw new Problem('no_words_to_match', {}, '/words');
      if (seen.has(plain)) throw new Problem('words_twice', { words }, '/words');
      seen.add(plain);
      const missing = serviceIds.find((id) => !known.has(id));
      if (missing === undefined) return;
      throw new Problem('not_found', { what: 'service', id: missing }, '/serviceIds');
    }),
  );
}
