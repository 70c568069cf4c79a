/**
 * The bowl in hand: listens to the scale, writes the sheet, tells the service, and asks the scale
 * for what is due. It holds no figures of its own; a reload goes on from the sheet.
 */
import { uuidv7 } from 'uuidv7';
import { canonical, decimal, zero, type Decimal } from '../../../shared/decimal.js';
import { nameOf } from '../../../shared/mix.js';
import type { OfferKind } from '../../../shared/rebalancing.js';
import { sentenceOf } from '../../../shared/weighing/sentences.js';
import type { Happening } from '../../../shared/weighing/happenings.js';
import type { PourRecord } from '../../../shared/weighing/state.js';
import type { BenchScale } from '../scales/bench-scale.js';
import { deviceNow } from '../shell/clock.js';
import { placesOf, weight } from '../shell/figures.js';
import { store, type Store } from '../shell/store.js';
import * as booking from './bookings.js';
import { EndingPours } from './ending-pours.js';
import type { InHand, Of, Question } from './in-hand.js';
import { productIn, startsClock, whatNext, type Due, type Known, type Next } from './next.js';
import { contentsGrams, weighedBetween, withPour } from './sheet.js';
import type { Sheet, SheetPour } from './sheet.js';
import type { Sheets } from './sheets.js';

/** More than any bowl: a pour that only the person ends. */
const withoutEnd = decimal('5000');

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
  private readonly ending = new EndingPours({
    sheet: () => this.sheet,
    write: (sheet) => this.write(sheet),
    source: () => this.scale.status.get().source?.name ?? 'keypad',
    nameOf: (id) => nameOf(productIn(this.known().products, id)),
  });

  /** What is done about a happening; of the others the person only reads. */
  private readonly acts: { [T in Happening['type']]?: (facts: Of<T>) => void } = {
    tared: (facts) => this.tared(facts),
    moved_on: (facts) => this.movedOn(facts),
    poured: (facts) => {
      if (this.ending.poured(facts)) this.pourDue();
    },
    nothing_poured: () => {
      this.tappedAll = false;
    },
    scooped_back: ({ pourId, grams }) => {
      this.ending.scooped(pourId, grams);
      this.pourDue();
    },
    taken_out: ({ type, grams }) => this.ask({ type, grams }),
    unasked_rise: ({ type, grams }) => this.ask({ type, grams }),
    residue: ({ type, grams }) => this.ask({ type, grams }),
    zero_pressed: ({ type, keptGrams }) => this.ask({ type, grams: keptGrams }),
    weighed: ({ netGrams }) => {
      this.awaitsWeight?.(netGrams);
      this.awaitsWeight = undefined;
    },
    plate_clear: () => this.answered(),
    carried_on: () => this.answered(),
    resumed: () => this.answered(),
  };

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
    const when = { pouredAt: deviceNow(), due: null };
    const pour = { id: uuidv7(), productId, grams: canonical(grams), ...when };
    this.pourIn(pour, false);
    this.ending.book(pour, undefined, false);
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
        startsClock: startsClock(this.sheet, due.product, this.known().products),
      },
    });
  }

  private happened(happening: Happening): void {
    if (!quiet.has(happening.type)) this.say(happening);
    const act = this.acts[happening.type] as ((facts: Happening) => void) | undefined;
    act?.(happening);
  }

  private say(happening: Happening): void {
    const places = placesOf(this.scale.weighing.get().intervalGrams);
    const said = sentenceOf(happening, (grams) => weight(grams, places));
    this.shown.set({ ...this.shown.get(), said });
  }

  private ask(question: Question): void {
    this.shown.set({ ...this.shown.get(), question });
  }

  private tared({ tareGrams, source }: Of<'tared'>): void {
    if (source === 'set_down') {
      this.write({ ...this.sheet, tareGrams: canonical(tareGrams) });
    }
    this.open();
    this.pourDue();
  }

  private movedOn(record: PourRecord): void {
    const due = this.dues.get(record.pourId);
    if (!due) return;
    this.dues.delete(record.pourId);
    if (this.current?.id === record.pourId) this.current = undefined;
    const { pourId: id, grams } = record;
    const productId = due.product.id;
    const line = this.next().lines.find((each) => each.product.id === productId);
    const dueInAll = due.grams && canonical((line?.poured ?? zero).plus(due.grams));
    const when = { pouredAt: deviceNow(), due: dueInAll };
    const pour = { id, productId, grams: canonical(grams), ...when };
    const finished = this.tappedAll;
    this.tappedAll = false;
    this.pourIn(pour, finished);
    this.ending.movedOn(pour, finished);
    const { extra } = this.sheet;
    if (extra?.productId === productId && (finished || extra.grams === null)) {
      this.write({ ...this.sheet, extra: null });
    }
    this.pourDue();
  }

  private pourIn(pour: SheetPour, finished: boolean): void {
    this.open();
    const product = productIn(this.known().products, pour.productId);
    const meets = startsClock(this.sheet, product, this.known().products) ? pour.pouredAt : null;
    const met = this.sheet.firstContactAt ?? meets;
    const done = finished ? [...this.sheet.finished, pour.productId] : this.sheet.finished;
    this.write({ ...withPour(this.sheet, pour), firstContactAt: met, finished: done });
  }
}
