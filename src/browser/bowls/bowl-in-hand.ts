/**
 * The bowl in hand: listens to the scale, writes the sheet, tells the service, and asks the scale
 * for what is due. It holds no figures of its own; a reload goes on from the sheet.
 */
import { uuidv7 } from 'uuidv7';
import { canonical, zero, type Decimal } from '../../../shared/decimal.js';
import { nameOf } from '../../../shared/mix.js';
import type { OfferKind } from '../../../shared/rebalancing.js';
import type { Happening } from '../../../shared/weighing/happenings.js';
import type { PourRecord } from '../../../shared/weighing/state.js';
import type { BenchScale } from '../scales/bench-scale.js';
import { deviceNow } from '../shell/clock.js';
import { placesOf } from '../shell/figures.js';
import type { Store } from '../shell/store.js';
import * as booking from './bookings.js';
import { EndingPours } from './ending-pours.js';
import { HandTalk } from './hand-talk.js';
import type { InHand, Of } from './in-hand.js';
import { expectedBowl } from './known-tare.js';
import { pourWanted, productIn, startsClock, whatNext } from './next.js';
import type { Due, KnownHere, Next } from './next.js';
import { inItsPlace, weighedBetween, withPour } from './sheet.js';
import type { Sheet, SheetPour } from './sheet.js';
import type { Sheets } from './sheets.js';
import { WeighingOut } from './weighing-out.js';

export class BowlInHand {
  /** While a caution waits to be noted, a press on the plate says nothing. */
  cautionStands = false;
  private readonly talk = new HandTalk();
  readonly shown: Store<InHand> = this.talk.shown;
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

  /** Pours weighed out of a tub, tube or bottle. */
  readonly out: WeighingOut;

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
    taken_out: ({ type, grams }) => this.talk.ask({ type, grams }),
    unasked_rise: ({ type, grams }) => this.talk.ask({ type, grams }),
    residue: ({ type, grams }) => this.talk.ask({ type, grams }),
    zero_pressed: ({ type, keptGrams }) => this.talk.ask({ type, grams: keptGrams }),
    weighed: ({ netGrams }) => {
      this.awaitsWeight?.(netGrams);
      this.awaitsWeight = undefined;
    },
    plate_clear: () => this.answered(),
    carried_on: () => this.answered(),
    resumed: () => this.answered(),
    lifted: () => this.out.lifted(),
    knuckle: () => this.nodded(),
  };

  constructor(
    private readonly id: string,
    private readonly sheets: Sheets,
    private readonly scale: BenchScale,
    private readonly known: () => KnownHere,
  ) {
    this.out = new WeighingOut(scale, this.talk, {
      pourAfresh: () => {
        this.current = undefined;
        this.pourDue();
      },
      takeUp: () => this.takeUp(),
    });
    this.stop = scale.listen((happening) => this.happened(happening));
    const { underway } = this.sheet;
    this.wanted = underway ?? undefined;
    this.takeUp(typeof underway === 'string');
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
  takeUp(cutOff = false): void {
    const ownTare = this.scale.status.get().source?.tareGrams;
    const bowl = expectedBowl(this.sheet, this.known().vessels, ownTare, cutOff);
    this.scale.send({ type: 'use_bowl', bowl });
    this.pourDue();
  }

  /** Puts the bowl aside: what was under way is kept. */
  putAside(): void {
    if (this.scale.weighing.get().bowl) this.ending.underway(null);
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
    if (!this.ending.relabelled(pour.id, productId)) {
      const id = booking.bookOtherProduct(this.sheet, pour.id, productId);
      this.write(inItsPlace(this.sheet, pour.id, { id, productId }));
    }
    this.pourDue();
  }

  /** What came in without a pour was this product. */
  nameRise(productId: string, grams: Decimal): void {
    this.answered();
    const when = { pouredAt: deviceNow(), due: null };
    const pour = { id: uuidv7(), productId, grams: canonical(grams), ...when };
    this.pourIn(pour, false);
    booking.bookPour(this.sheet, pour, this.ending.pending(productId, false));
    this.pourDue();
  }

  /** What was taken out went onto the head. */
  ontoTheHead(): void {
    this.answered();
    this.weigh((net) => this.weighed(net));
  }

  /** A question is answered, or needs no answer. */
  answered(): void {
    this.talk.answered();
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
    const due = this.onlyWeighs || this.out.rests ? null : this.next().due;
    const before = this.current?.due;
    const same =
      due?.product.id === before?.product.id && due?.grams?.toFixed() === before?.grams?.toFixed();
    if (this.scale.weighing.get().plate === 'on') this.ending.underway(due?.product.id ?? null);
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
    const { products } = this.known();
    this.scale.send({ type: 'pour', pour: pourWanted(pour.id, due, this.sheet, products) });
  }

  private happened(happening: Happening): void {
    this.talk.say(happening, placesOf(this.scale.weighing.get().intervalGrams));
    const act = this.acts[happening.type] as ((facts: Happening) => void) | undefined;
    act?.(happening);
  }

  /** A press on the plate: a yes to "that's all", and to nothing else. */
  private nodded(): void {
    if (!this.cautionStands && this.shown.get().question === null && this.next().due) {
      this.thatsAll();
    }
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
    const finished = this.tappedAll;
    this.tappedAll = false;
    this.out.poured();
    const pending = this.ending.pending(productId, finished, record);
    const pour = { id, productId, grams: canonical(grams), ...when, pending };
    this.pourIn(pour, finished);
    this.ending.movedOn(pour);
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
