/** One bowl during a posting: every step moves its contents and its row together. */
import { uuidv7 } from 'uuidv7';
import { leftoverTolerance, splitLeftover, type ContentLine } from '../../../shared/contents.js';
import type { ContentSplit, SplitLine } from '../../../shared/contents.js';
import { shareOut } from '../../../shared/allocation.js';
import { decimal, larger, sum, zero, type Decimal } from '../../../shared/decimal.js';
import { toBin, toHead, type FallenPart } from '../../../shared/moving/emptying.js';
import { Problem } from '../../../shared/problems/problem.js';
import type { JournalDraft, LedgerService, Posting } from '../stock/ledger.service.js';
import { BowlFlows } from './bowl-flows.js';
import type { BowlHead, PourLine, SettlementLine, WeighingLine } from './bowl-state.js';

/** A pour before it is drawn. */
export type PourDraft = Omit<PourLine, 'journalId' | 'reversed'>;
export type WeighingDraft = Omit<WeighingLine, 'journalId' | 'reversed'>;
export type SettlementDraft = Omit<SettlementLine, 'journalId' | 'reversed'>;

/** What a pour drew, for its answer. */
export interface Drawn {
  readonly pour: PourLine;
  readonly value: Decimal;
  readonly lots: readonly { lotId: string; quantity: Decimal; value: Decimal }[];
  readonly flags: ReadonlySet<string>;
}

const powderKinds: ReadonlySet<string> = new Set(['lightener', 'toner', 'permanent']);

export class BowlInHand {
  readonly touchedPours = new Set<PourLine>();
  readonly touchedWeighings = new Set<WeighingLine>();
  readonly touchedSettlements = new Set<SettlementLine>();

  constructor(
    readonly head: BowlHead,
    readonly pours: PourLine[],
    readonly weighings: WeighingLine[],
    public settlement: SettlementLine | null,
    readonly flows: BowlFlows,
  ) {}

  /** Pours that stand. */
  get standing(): PourLine[] {
    return this.pours.filter((pour) => !pour.reversed);
  }

  /**
   * What the bowl holds now, or of all poured until an instant; pour by pour. A pour that nothing
   * was taken of keeps its grams, the others share what the bowl is known to hold beside it.
   */
  contents(until?: string): ContentLine[] {
    const lines = this.standing
      .filter((pour) => until === undefined || pour.pouredAt <= until)
      .map((pour) => {
        const lots = this.flows.held(pour.id);
        return { pour, lots, quantity: sum(lots.map((lot) => lot.quantity)) };
      })
      .filter((line) => line.quantity.greaterThan(zero));
    const untouched = lines.filter((line) => line.quantity.equals(line.pour.quantity));
    const rest = this.heldGrams(until).minus(sum(untouched.map((line) => line.pour.grams)));
    const touched = lines.filter((line) => !untouched.includes(line));
    const weights = touched.map((line) =>
      line.pour.grams.times(line.quantity).dividedBy(line.pour.quantity),
    );
    const shares = touched.length > 0 ? shareOut(rest, weights, 3) : [];
    return lines.map(({ pour, lots, quantity }) => {
      const index = touched.findIndex((line) => line.pour === pour);
      const grams = index < 0 ? pour.grams : (shares[index] ?? zero);
      return { pourId: pour.id, productId: pour.productId, grams, quantity, lots };
    });
  }

  /** How far a leftover may lie above the contents, in g. */
  tolerance(): Decimal {
    const intervals = this.standing.flatMap((pour) =>
      pour.scale?.interval === undefined ? [] : [decimal(pour.scale.interval)],
    );
    const interval = intervals.length === 0 ? undefined : intervals.reduce(larger);
    return leftoverTolerance(interval, this.head.tare === null && this.head.vesselTare !== null);
  }

  /** Draws a pour off the shelf into the bowl. */
  pour(posting: Posting, draft: PourDraft): Drawn {
    const { head } = this;
    const journal = posting.journal({ ...this.journalHead(draft.pouredAt), kind: 'pour' });
    if (head.visitClosed) {
      head.late = true;
      journal.flags.add('late');
    }
    const drawn = posting.draw(journal, draft.productId, {
      quantity: draft.quantity,
      to: 'bowl',
      toPour: { bowlId: head.id, pourId: draft.id },
    });
    const pour: PourLine = { ...draft, journalId: journal.id, reversed: false };
    this.pours.push(pour);
    this.touchedPours.add(pour);
    this.flows.book(drawn.movements);
    if (draft.estimated) head.estimated = true;
    this.reckon(posting);
    return { pour, value: drawn.value, lots: drawn.drawn, flags: journal.flags };
  }

  /** An interim weighing: what is gone since the last one is on the head. */
  weigh(posting: Posting, draft: WeighingDraft): { weighing: WeighingLine; split: ContentSplit } {
    if (this.standing.length === 0) throw new Problem('nothing_poured', {});
    const split = splitLeftover(this.contents(draft.at), draft.net, this.tolerance());
    const journal = posting.journal({ ...this.journalHead(draft.at), kind: 'weighing' });
    this.fall(posting, journal, toHead(this.fallen(split.lines)));
    const weighing: WeighingLine = { ...draft, journalId: journal.id, reversed: false };
    this.weighings.push(weighing);
    this.touchedWeighings.add(weighing);
    this.reckon(posting);
    return { weighing, split };
  }

  /** The end of a bowl: the applied part on the head, what is left in the bin. */
  settle(posting: Posting, draft: SettlementDraft): ContentSplit {
    const { head } = this;
    if (this.standing.length === 0) throw new Problem('nothing_poured', {});
    const split = splitLeftover(this.contents(), draft.leftover, this.tolerance());
    const journal = posting.journal({ ...this.journalHead(draft.at), kind: 'settlement' });
    if (head.visitClosed) journal.flags.add('late');
    const fallen = this.fallen(split.lines);
    this.fall(posting, journal, [...toHead(fallen), ...toBin(fallen, draft.why)]);
    this.settlement = {
      ...draft,
      leftover: split.wasted_g,
      journalId: journal.id,
      reversed: false,
    };
    this.touchedSettlements.add(this.settlement);
    if (draft.estimated) head.estimated = true;
    this.reckon(posting);
    return split;
  }

  /**
   * Takes back the weighings and the settlement from `at` on, so that something that happened
   * before them can be entered; give them back with `redo`, in order.
   */
  async unwind(
    tx: Parameters<LedgerService['journal']>[0],
    ledger: LedgerService,
    posting: Posting,
    at: string,
  ): Promise<{ weighings: WeighingDraft[]; settlement: SettlementDraft | null }> {
    const settlement =
      this.settlement && !this.settlement.reversed && this.settlement.at >= at
        ? this.settlement
        : null;
    const weighings = this.weighings
      .filter((weighing) => !weighing.reversed && weighing.at > at)
      .sort((a, b) => (a.at < b.at ? 1 : -1));
    for (const line of [...(settlement ? [settlement] : []), ...weighings]) {
      const original = await ledger.journal(tx, line.journalId);
      const journal = await ledger.reverse(tx, posting, original, uuidv7());
      this.flows.book(journal.movements);
      line.reversed = true;
    }
    if (settlement) {
      this.touchedSettlements.add(settlement);
      this.settlement = null;
    }
    for (const weighing of weighings) {
      this.touchedWeighings.add(weighing);
      this.weighings.splice(this.weighings.indexOf(weighing), 1);
    }
    this.reckon(posting);
    return { weighings: [...weighings].reverse(), settlement };
  }

  /** Enters again what `unwind` took back: same readings, same ids, new journals. */
  redo(
    posting: Posting,
    later: { weighings: WeighingDraft[]; settlement: SettlementDraft | null },
  ): void {
    for (const { id, net, at } of later.weighings) {
      this.forget(this.touchedWeighings, id);
      this.weigh(posting, { id, net, at });
    }
    if (later.settlement) {
      const { id, leftover, at, why, borneBy, estimated } = later.settlement;
      this.forget(this.touchedSettlements, id);
      this.settle(posting, { id, leftover, at, why, borneBy, estimated });
    }
  }

  /** Works out again all of the row that follows from the lines. */
  reckon(posting: Posting): void {
    const { head } = this;
    const pours = this.standing;
    head.held = this.heldGrams();
    head.mixed = sum(pours.map((pour) => this.netGrams(pour))).toDecimalPlaces(3);
    head.lastPourAt = pours.map((pour) => pour.pouredAt).reduce(latest, null);
    head.firstContactAt = firstContact(pours, (id) => posting.product(id).kind);
    const { settlement } = this;
    head.stage = settlement
      ? 'settled'
      : pours.length > 0
        ? 'open'
        : head.stage === 'void'
          ? 'void'
          : 'planned';
    head.settledAt = settlement?.at ?? null;
    head.wasted = settlement?.leftover ?? zero;
    head.why = settlement?.why ?? null;
    head.borneBy = settlement?.borneBy ?? null;
    if (settlement) head.held = zero;
  }

  /** The head of a journal of this bowl. */
  journalHead(happenedAt: string): { id: string; happenedAt: string } & {
    visitId: string | null;
    bowlId: string;
  } {
    return {
      id: uuidv7(),
      happenedAt,
      visitId: this.head.visitId,
      bowlId: this.head.id,
    };
  }

  /** The split's parts with their addresses in this bowl; `aside` is what stays or is left. */
  fallen(lines: readonly SplitLine[]): FallenPart[] {
    return lines.flatMap((line) =>
      line.lots.map((lot) => ({
        pour: { bowlId: this.head.id, pourId: line.pourId },
        productId: line.productId,
        lotId: lot.lotId,
        quantity: lot.applied.quantity.plus(lot.wasted.quantity),
        value: lot.applied.value.plus(lot.wasted.value),
        aside: lot.wasted,
      })),
    );
  }

  private fall(posting: Posting, journal: JournalDraft, movements: JournalDraft['movements']) {
    posting.book(journal, { movements });
    this.flows.book(movements);
  }

  /** Grams in the bowl: pours add, a weighing sets, what was handed on or back is gone. */
  private heldGrams(until?: string): Decimal {
    const events = [
      ...this.standing.map((pour) => ({ at: pour.pouredAt, pour })),
      ...this.weighings
        .filter((each) => !each.reversed)
        .map((weighing) => ({
          at: weighing.at,
          weighing,
        })),
    ]
      .filter((event) => until === undefined || event.at <= until)
      .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 'pour' in a ? -1 : 1));
    let held = zero;
    for (const event of events) {
      if ('pour' in event) held = held.plus(this.netGrams(event.pour).toDecimalPlaces(3));
      else if (event.weighing.net.lessThan(held)) held = event.weighing.net;
    }
    return held;
  }

  private netGrams(pour: PourLine): Decimal {
    const gone = this.flows.gone(pour.id);
    if (gone.isZero()) return pour.grams;
    return pour.grams.minus(gone.times(pour.grams).dividedBy(pour.quantity));
  }

  private forget(touched: Set<{ id: string }>, id: string): void {
    for (const line of touched) if (line.id === id) touched.delete(line);
  }
}

function latest(a: string | null, b: string): string {
  return a === null || b > a ? b : a;
}

/** When powder (or cream) and developer first met: the later of their first pours. */
function firstContact(
  pours: readonly PourLine[],
  kindOf: (productId: string) => string,
): string | null {
  const first = (wanted: (kind: string) => boolean): string | null =>
    pours
      .filter((pour) => wanted(kindOf(pour.productId)))
      .map((pour) => pour.pouredAt)
      .reduce<string | null>((a, b) => (a === null || b < a ? b : a), null);
  const powder = first((kind) => powderKinds.has(kind));
  const developer = first((kind) => kind === 'developer');
  if (powder === null || developer === null) return null;
  return powder > developer ? powder : developer;
}
