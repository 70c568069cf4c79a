/**
 * The bowl in hand: listens to the scale, writes the sheet, tells the service, and asks the scale
 * for what is due. It holds no figures of its own; a reload goes on from the sheet.
 */
import { uuidv7 } from 'uuidv7';
import { canonical, decimal, type Decimal } from '../../../shared/decimal.js';
import { nameOf, type MixProduct } from '../../../shared/mix.js';
import type { OfferKind } from '../../../shared/rebalancing.js';
import { sentenceOf } from '../../../shared/weighing/sentences.js';
import type { Happening } from '../../../shared/weighing/happenings.js';
import type { PourRecord } from '../../../shared/weighing/state.js';
import type { BenchScale } from '../scales/bench-scale.js';
import { deviceNow } from '../shell/clock.js';
import { weight } from '../shell/figures.js';
import { store, type Store } from '../shell/store.js';
import * as booking from './bookings.js';
import { productIn, whatNext, type Due, type Known, type Next } from './next.js';
import { contentsByProduct, contentsGrams, scoopedBack, weighedBetween, withPour } from './sheet.js';
import type { Sheet, SheetPour } from './sheet.js';
import type { Sheets } from './sheets.js';

/** More than any bowl: a pour that only the person ends. */
const withoutEnd = decimal('5000');

/** What the page shows beside the sheet. */
export interface InHand {
  /** What happened last, in a sentence. */
  readonly said: string;
  /** Something that the person has to answer. */
  readonly question: Question | null;
}

export type Question =
  | { readonly type: 'taken_out' | 'unasked_rise'; readonly grams: Decimal }
  | { readonly type: 'zero_pressed'; readonly grams: Decimal }
  | { readonly type: 'residue'; readonly grams: Decimal };

/** Worth a sentence on the page; the others are only acted upon. */
const quiet: ReadonlySet<Happening['type']> = new Set(['poured', 'connected', 'moved_on']);

export class BowlInHand {
  readonly shown: Store<InHand> = store<InHand>({ said: '', question: null });
  private readonly stop: () => void;
  private current: { id: string; due: Due } | undefined;
  private readonly dues = new Map<string, Due>();
  private wanted: string | undefined;
  private tappedAll = false;
  private onlyWeighs = false;
  private awaitsWeight: ((net: Decimal) => void) | undefined;
  private readonly closing = new Map<string, { pour: SheetPour; finished: boolean }>();
  private readonly scoops = new Map<string, Decimal>();

  constructor(
    private readonly id: string,
    private readonly sheets: Sheets,
    private readonly scale: BenchScale,
    private readonly known: () => Omit<Known, 'wanted' | 'interval'>,
  ) {
    this.stop = scale.listen((happening) => this.happened(happening));
    this.takeUp();
  }

  get sheet(): Sheet {
    const sheet = this.sheets.get(this.id);
    if (!sheet) throw new Error('This bowl has no sheet.');
    return sheet;
  }

  /** The page as it stands. */
  next(sheet: Sheet = this.sheet): Next {
    const interval = this.scale.weighing.get().intervalGrams;
    return whatNext(sheet, { ...this.known(), interval, wanted: this.wanted });
  }

  /** Tells the scale which bowl comes; also after another scale was chosen. */
  takeUp(): void {
    const { tareGrams, firstContactAt } = this.sheet;
    const known = tareGrams === null ? undefined : decimal(tareGrams);
    const tare = this.scale.status.get().source?.tareGrams ?? known;
    const tares = tare ? { bowl: tare } : {};
    const contents = contentsGrams(this.sheet);
    const touched = firstContactAt !== null;
    const bowl = { tares, contentsGrams: contents, touched, isPack: false };
    this.scale.send({ type: 'use_bowl', bowl });
    this.pourDue();
  }

  /** Puts the bowl aside: what was under way is kept. */
  putAside(): void {
    this.scale.send({ type: 'bowl_done' });
    this.stop();
  }

  /** That's all of it: the pour ends here, and the bowl follows. */
  thatsAll(): void {
    this.tappedAll = true;
    this.scale.send({ type: 'tap' });
  }

  /** Another line is poured now. */
  pourNow(productId: string): void {
    this.wanted = productId;
    this.pourDue();
  }

  choose(kind: OfferKind): void {
    this.write({ ...this.sheet, choice: kind });
    this.pourDue();
  }

  /** Pours something beyond the plan; grams of null are ended by hand. */
  pourExtra(productId: string, grams: Decimal | null): void {
    const { finished } = this.sheet;
    this.write({
      ...this.sheet,
      extra: { productId, grams: grams && canonical(grams) },
      finished: finished.filter((each) => each !== productId),
    });
    this.pourDue();
  }

  /** It was another product: taken back and entered anew, same grams, same time. */
  otherProduct(pour: SheetPour, productId: string): void {
    this.write(withPour(this.sheet, { ...pour, productId }));
    booking.bookOtherProduct(this.sheet, pour.id, productId, (answer) => {
      const pours = this.sheet.pours.map((each) =>
        each.id === pour.id ? { ...each, id: answer.id } : each,
      );
      this.write({ ...this.sheet, pours });
    });
    this.pourDue();
  }

  /** What came in without a pour was this product. */
  nameRise(productId: string, grams: Decimal): void {
    this.answered();
    const pour = { id: uuidv7(), productId, grams: canonical(grams), pouredAt: deviceNow() };
    this.pourIn(pour, false);
    this.book(pour, undefined, false);
    this.pourDue();
  }

  /** What was taken out went onto the head. */
  ontoTheHead(): void {
    this.answered();
    this.weigh((net) => this.weighed(net));
  }

  /** A question is answered, or needs no answer. */
  answered(): void {
    this.shown.set({ ...this.shown.get(), question: null });
  }

  /** The bowl was weighed in between: what is gone went onto the head. */
  weighed(net: Decimal): void {
    booking.bookWeighing(this.sheet, net);
    this.write(weighedBetween(this.sheet, net));
  }

  /** A new plan for what is to be added now. */
  planAnew(plan: Pick<Sheet, 'request' | 'planned'>): void {
    this.write({ ...this.sheet, ...plan });
    booking.bookPlan(this.sheet);
    this.pourDue();
  }

  /** While it is only weighed, nothing is due. */
  weighOnly(only: boolean): void {
    this.onlyWeighs = only;
    this.pourDue();
  }

  /** Asks the scale what the bowl holds; `then` hears it once it stands still. */
  weigh(then: (net: Decimal) => void): void {
    this.awaitsWeight = then;
    this.scale.send({ type: 'weigh' });
  }

  noted(code: string): void {
    this.open();
    booking.bookNoted(this.sheet, code);
    this.write({ ...this.sheet, noted: [...this.sheet.noted, code] });
  }

  /** The service hears of the bowl: when it is on the scale, at the latest at the first pour. */
  private open(): void {
    if (this.sheet.opened) return;
    this.write({ ...this.sheet, opened: true });
    booking.bookOpening(this.sheet);
  }

  private write(sheet: Sheet): void {
    this.sheets.put(sheet);
  }

  /** Asks the scale for what is due now; a smaller change of the target keeps the pour. */
  private pourDue(): void {
    const due = this.onlyWeighs ? null : this.next().due;
    const before = this.current?.due;
    const same =
      due?.product.id === before?.product.id &&
      (due?.grams ?? withoutEnd).equals(before?.grams ?? withoutEnd);
    if (same && due && this.scale.weighing.get().due) return;
    if (!due) {
      this.current = undefined;
      if (this.scale.weighing.get().due) this.scale.send({ type: 'withdraw_pour' });
      return;
    }
    this.wanted = undefined;
    const pour = { id: uuidv7(), due };
    this.current = pour;
    this.dues.set(pour.id, due);
    // a pour under way is moved on from inside of this, and may make another one due
    this.scale.send({
      type: 'pour',
      pour: {
        id: pour.id,
        targetGrams: due.grams ?? withoutEnd,
        bandGrams: due.band,
        startsClock: this.startsClock(due.product),
      },
    });
  }

  /** With this pour powder and developer meet. */
  private startsClock(product: MixProduct): boolean {
    const wet = (id: string) => {
      const { kind } = productIn(this.known().products, id);
      return kind === 'developer';
    };
    const inside = [...contentsByProduct(this.sheet).keys()];
    return inside.some((id) => wet(id) !== wet(product.id));
  }

  private happened(happening: Happening): void {
    if (!quiet.has(happening.type)) this.say(happening);
    switch (happening.type) {
      case 'tared':
        return this.tared(happening);
      case 'moved_on':
        return this.movedOn(happening);
      case 'poured':
        return this.poured(happening);
      case 'nothing_poured':
        this.tappedAll = false;
        return;
      case 'scooped_back':
        return this.scooped(happening.pourId, happening.grams);
      case 'taken_out':
      case 'unasked_rise':
      case 'residue':
        return this.ask({ type: happening.type, grams: happening.grams });
      case 'zero_pressed':
        return this.ask({ type: 'zero_pressed', grams: happening.keptGrams });
      case 'weighed':
        this.awaitsWeight?.(happening.netGrams);
        this.awaitsWeight = undefined;
        return;
      case 'plate_clear':
      case 'carried_on':
      case 'resumed':
        return this.answered();
      default:
    }
  }

  private say(happening: Happening): void {
    const said = sentenceOf(happening, (grams) => weight(grams));
    this.shown.set({ ...this.shown.get(), said });
  }

  private ask(question: Question): void {
    this.shown.set({ ...this.shown.get(), question });
  }

  private tared({ tareGrams, source }: Extract<Happening, { type: 'tared' }>): void {
    if (source === 'set_down') {
      this.write({ ...this.sheet, tareGrams: canonical(tareGrams) });
    }
    this.open();
    this.pourDue();
  }

  private movedOn(record: PourRecord & { why: string }): void {
    const due = this.dues.get(record.pourId);
    if (!due) return;
    this.dues.delete(record.pourId);
    if (this.current?.id === record.pourId) this.current = undefined;
    const { pourId: id, grams } = record;
    const productId = due.product.id;
    const pour = { id, productId, grams: canonical(grams), pouredAt: deviceNow() };
    const finished = this.tappedAll;
    this.tappedAll = false;
    this.closing.set(id, { pour, finished });
    this.pourIn(pour, finished);
    const scooped = this.scoops.get(id);
    if (scooped) this.write(scoopedBack(this.sheet, id, scooped));
    if (this.sheet.extra?.productId === productId && (finished || this.sheet.extra.grams === null)) {
      this.write({ ...this.sheet, extra: null });
    }
    this.pourDue();
  }

  private pourIn(pour: SheetPour, finished: boolean): void {
    this.open();
    const product = productIn(this.known().products, pour.productId);
    const meets = this.startsClock(product) ? pour.pouredAt : null;
    const met = this.sheet.firstContactAt ?? meets;
    const done = finished ? [...this.sheet.finished, pour.productId] : this.sheet.finished;
    this.write({ ...withPour(this.sheet, pour), firstContactAt: met, finished: done });
  }

  private poured(record: PourRecord): void {
    const found = this.closing.get(record.pourId);
    if (!found) return;
    this.closing.delete(record.pourId);
    const pour = { ...found.pour, grams: canonical(record.grams) };
    const dripped = pour.grams !== found.pour.grams;
    if (dripped) this.write(withPour(this.sheet, pour));
    this.book(pour, record, found.finished);
    const scooped = this.scoops.get(record.pourId);
    if (scooped) {
      this.scoops.delete(record.pourId);
      if (dripped) this.write(scoopedBack(this.sheet, record.pourId, scooped));
      booking.bookScoop(this.sheet, record.pourId, scooped);
    }
    if (dripped) this.pourDue();
  }

  private book(pour: SheetPour, record: PourRecord | undefined, finished: boolean): void {
    const name = nameOf(productIn(this.known().products, pour.productId));
    const source = this.scale.status.get().source?.name ?? 'keypad';
    booking.bookPour(this.sheet, pour, record, { source, finished, name }, () => undefined);
  }

  private scooped(pourId: string | undefined, grams: Decimal): void {
    if (pourId === undefined) return;
    const booked = this.sheet.pours.some((pour) => pour.id === pourId);
    if (booked && !this.closing.has(pourId)) {
      this.write(scoopedBack(this.sheet, pourId, grams));
      booking.bookScoop(this.sheet, pourId, grams);
      this.pourDue();
    } else {
      this.scoops.set(pourId, (this.scoops.get(pourId) ?? decimal('0')).plus(grams));
    }
  }
}
