/** What else happens to a bowl: divided, scooped back, relabelled, moved, called off, undone. */
import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { BowlView, CautionView, PourAnswer } from '../../../shared/contract/bowls.js';
import { caution } from '../../../shared/cautions.js';
import { divideContents } from '../../../shared/contents.js';
import { canonical, sum } from '../../../shared/decimal.js';
import { backToShelf, toOtherBowl, type FallenPart } from '../../../shared/moving/emptying.js';
import { putBackOnShelf } from '../../../shared/moving/returning.js';
import { Problem, within } from '../../../shared/problems/problem.js';
import { inStockUnit } from '../../../shared/units.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { LedgerService, type Posting } from '../stock/ledger.service.js';
import type { BowlInHand } from './bowl-in-hand.js';
import type { PourLine } from './bowl-state.js';
import { pourDraft } from './bowl-steps.js';
import { received } from './received-line.js';
import { refuseForeign } from './own-bowls.js';
import { BowlReadingService } from './bowl-reading.service.js';
import { BowlsService, closed, type Acting } from './bowls.service.js';
import { NOTE_CAUTION } from './bowls.queries.js';
import type {
  CautionRequest,
  DivisionRequest,
  MoveRequest,
  OtherProductRequest,
  PourRequest,
  ReversalRequest,
  ScoopedBackRequest,
} from './bowls.requests.js';
import { cautionViews } from './bowls.views.js';
import { plainProduct } from './mix-products.js';

/** Both bowls after a division. */
export interface Divided {
  readonly from: BowlView;
  readonly into: BowlView;
  readonly cautions: CautionView[];
}

@Injectable()
export class BowlEventsService {
  constructor(
    private readonly bowls: BowlsService,
    private readonly reading: BowlReadingService,
    private readonly ledger: LedgerService,
  ) {}

  /** Part of a bowl is poured into another: every pour and lot in the bowl's proportion. */
  async divide(
    tx: Transaction,
    id: string,
    request: DivisionRequest,
    at: string,
    by: Acting,
  ): Promise<Divided> {
    const { bowl, posting } = await this.bowls.held(tx, id, by, [], at);
    if (bowl.head.stage !== 'open') throw bowl.settlement ? closed(bowl) : empty(bowl);
    const into = await within('/into', () => this.bowls.opened(tx, request.into, by, at));
    if (into.head.visitId !== bowl.head.visitId && bowl.weighings.length > 0) {
      throw new Problem('bowl_was_touched', {}, '/into/visitId');
    }
    const { split } = within('/quantity', () =>
      divideContents(bowl.contents(), request.quantity.value, bowl.tolerance()),
    );
    const journal = posting.journal({ ...bowl.journalHead(at), kind: 'division' });
    const lines = new Map<string, PourLine>();
    for (const line of split.lines) {
      if (line.wasted.quantity.isZero()) continue;
      const source = bowl.standing.find((pour) => pour.id === line.pourId) as PourLine;
      lines.set(line.pourId, received(source, line.wasted, bowl.head.id, journal.id, at));
    }
    const movements = toOtherBowl(bowl.fallen(split.lines), (part: FallenPart) => ({
      bowlId: into.head.id,
      pourId: (lines.get(part.pour.pourId) as PourLine).id,
    }));
    posting.book(journal, { movements });
    bowl.flows.book(movements);
    into.flows.book(movements);
    for (const line of lines.values()) {
      into.pours.push(line);
      into.touchedPours.add(line);
    }
    bowl.reckon(posting);
    into.reckon(posting);
    // The second bowl has the first one's clock.
    into.head.firstContactAt = bowl.head.firstContactAt;
    this.bowls.write(tx, [bowl, into], posting, by);
    const cautions =
      into.head.visitId === bowl.head.visitId ? [] : [caution('stays_with_client', {})];
    return {
      from: await this.reading.view(tx, id),
      into: await this.reading.view(tx, into.head.id),
      cautions: cautionViews(cautions),
    };
  }

  /** Scooped back into its tub, before powder and developer have met. */
  async scoopBack(
    tx: Transaction,
    id: string,
    request: ScoopedBackRequest,
    at: string,
    by: Acting,
  ): Promise<BowlView> {
    const first = await this.bowls.held(tx, id, by, [], at);
    const pour = standingPour(first.bowl, request.pourId);
    const { bowl, posting } = await this.bowls.held(tx, id, by, [pour.productId], at);
    if (bowl.settlement) throw closed(bowl);
    const met = bowl.head.firstContactAt;
    if ((met !== null && met <= at) || bowl.weighings.length > 0) {
      throw new Problem('after_first_contact', {});
    }
    const product = plainProduct(posting.product(pour.productId));
    const quantity = inStockUnit(request.quantity, request.unit, product);
    const held = bowl.flows.held(pour.id);
    const there = sum(held.map((lot) => lot.quantity));
    if (quantity.greaterThan(there)) {
      const figures = { asked: canonical(quantity), held: canonical(there), unit: pour.unit };
      throw new Problem('more_than_it_holds', figures, '/quantity');
    }
    const address = { bowlId: id, pourId: pour.id };
    const movements = backToShelf(
      held.map((lot) => ({ ...lot, pour: address, productId: pour.productId })),
      quantity,
    );
    const journal = posting.journal({ ...bowl.journalHead(at), kind: 'scooped back' });
    const lots = await this.ledger.lots(tx, [...new Set(movements.map((each) => each.lotId))]);
    const known = new Map(lots.map((lot) => [lot.id, lot]));
    posting.book(journal, { movements });
    posting.book(journal, putBackOnShelf(posting.stock(pour.productId), movements, known, at));
    bowl.flows.book(movements);
    bowl.reckon(posting);
    this.bowls.write(tx, [bowl], posting, by);
    return this.reading.view(tx, id);
  }

  /** It was another product: the pour is taken back and entered anew, same grams, same time. */
  async otherProduct(
    tx: Transaction,
    id: string,
    request: OtherProductRequest,
    by: Acting,
  ): Promise<PourAnswer> {
    const before = await this.bowls.held(tx, id, by, [], by.recordedAt);
    const pour = standingPour(before.bowl, request.pourId);
    const products = [pour.productId, request.productId];
    const { bowl, posting } = await this.bowls.held(tx, id, by, products, pour.pouredAt);
    const later = await bowl.unwind(tx, this.ledger, posting, pour.pouredAt);
    const wrong = await this.takeBack(tx, bowl, posting, request.pourId);
    const anew = Object.assign(Object.create(null) as object, {
      id: request.id,
      productId: request.productId,
      quantity: wrong.grams,
      unit: 'g',
      pouredAt: wrong.pouredAt,
      estimated: wrong.estimated,
      finished: false,
      ranOut: false,
    }) as PourRequest;
    const draft = within('/productId', () => pourDraft(posting, bowl, anew, wrong.pouredAt));
    const drawn = bowl.pour(posting, { ...draft, scale: wrong.scale });
    bowl.redo(posting, later);
    this.bowls.write(tx, [bowl], posting, by);
    return this.bowls.answerPour(bowl, drawn, posting, anew, by);
  }

  /** Moved to another visit while that one is open; books no movement. */
  async move(tx: Transaction, id: string, request: MoveRequest, by: Acting): Promise<BowlView> {
    const { bowl } = await this.bowls.held(tx, id, by, [], by.recordedAt);
    if (bowl.head.stage === 'void') throw closed(bowl);
    if (bowl.head.visitClosed) throw new Problem('visit_is_closed', { what: 'Moving a bowl' });
    const { visit } = await this.bowls.backing(tx, { visitId: request.visitId });
    if (visit?.closed) {
      throw new Problem('visit_is_closed', { what: 'Moving a bowl' }, '/visitId');
    }
    bowl.head.visitId = request.visitId;
    this.bowls.put(tx, [bowl], by);
    return this.reading.view(tx, id);
  }

  /** Called off before the first pour. */
  async callOff(tx: Transaction, id: string, by: Acting): Promise<BowlView> {
    const { bowl } = await this.bowls.held(tx, id, by, [], by.recordedAt);
    if (bowl.settlement) throw closed(bowl);
    if (bowl.pours.length > 0) throw new Problem('bowl_has_pours', { pours: bowl.pours.length });
    bowl.head.stage = 'void';
    this.bowls.put(tx, [bowl], by);
    return this.reading.view(tx, id);
  }

  /** Undoes the settlement, a weighing, or a pour that was none. */
  async reverse(
    tx: Transaction,
    id: string,
    request: ReversalRequest,
    by: Acting,
  ): Promise<BowlView> {
    const before = await this.bowls.held(tx, id, by, [], by.recordedAt);
    const inside = before.bowl.pours.map((pour) => pour.productId);
    const { bowl, posting } = await this.bowls.held(tx, id, by, inside, by.recordedAt);
    if (by.ownOnly) refuseForeign(bowl, posting, by);
    const { settlement } = bowl;
    if (request.of === undefined || request.of === settlement?.id) {
      if (!settlement) throw new Problem('not_found', { what: 'settlement of bowl', id });
      await bowl.unwind(tx, this.ledger, posting, settlement.at);
    } else if (settlement) {
      throw new Problem('settlement_first', {});
    } else {
      await this.undo(tx, bowl, posting, request.of);
    }
    this.bowls.write(tx, [bowl], posting, by);
    return this.reading.view(tx, id);
  }

  /** A caution was seen: who and when; it travels with the bowl. */
  async note(tx: Transaction, id: string, request: CautionRequest, at: string, by: Acting) {
    await this.reading.view(tx, id);
    if (request.notedBy !== undefined)
      await this.bowls.checkPerson(tx, request.notedBy, '/notedBy');
    await tx.query(NOTE_CAUTION, [
      request.id ?? uuidv7(),
      id,
      request.code,
      request.answer,
      request.notedBy ?? by.personId,
      at,
      by.recordedAt,
    ]);
    return this.reading.view(tx, id);
  }

  private async undo(tx: Transaction, bowl: BowlInHand, posting: Posting, of: string) {
    const weighing = bowl.weighings.find((each) => each.id === of && !each.reversed);
    const at = weighing?.at ?? standingPour(bowl, of).pouredAt;
    const later = bowl.weighings.filter((each) => !each.reversed && each.at > at);
    if (later[0])
      throw new Problem('reverse_later_first', { what: `The weighing at ${later[0].at}` });
    if (!weighing) {
      await this.takeBack(tx, bowl, posting, of);
      return;
    }
    const journal = await this.ledger.reverse(
      tx,
      posting,
      await this.ledger.journal(tx, weighing.journalId),
      uuidv7(),
    );
    bowl.flows.book(journal.movements);
    weighing.reversed = true;
    bowl.touchedWeighings.add(weighing);
    bowl.reckon(posting);
  }

  private async takeBack(
    tx: Transaction,
    bowl: BowlInHand,
    posting: Posting,
    pourId: string,
  ): Promise<PourLine> {
    const pour = standingPour(bowl, pourId);
    const original = await this.ledger.journal(tx, pour.journalId);
    const journal = await this.ledger.reverse(tx, posting, original, uuidv7());
    bowl.flows.book(journal.movements);
    pour.reversed = true;
    bowl.touchedPours.add(pour);
    bowl.reckon(posting);
    return pour;
  }
}

function standingPour(bowl: BowlInHand, pourId: string): PourLine {
  const pour = bowl.standing.find((each) => each.id === pourId);
  if (!pour) throw new Problem('not_found', { what: 'pour', id: pourId }, '/pourId');
  return pour;
}

function empty(bowl: BowlInHand): Problem {
  return bowl.head.stage === 'void' ? closed(bowl) : new Problem('nothing_poured', {});
}
