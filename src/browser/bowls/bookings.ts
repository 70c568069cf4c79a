/** What is done to a bowl, as the postings that tell the service of it. */
import { uuidv7 } from 'uuidv7';
import type { SettlementAnswer } from '../../../shared/contract/bowls.js';
import { canonical, type Decimal } from '../../../shared/decimal.js';
import { outbox } from '../api/outbox.js';
import { handsNow } from '../people/session.js';
import { deviceNow } from '../shell/clock.js';
import { texts } from '../shell/texts.js';
import type { PendingPour, Sheet, SheetPour } from './sheet.js';
import { bowlTexts } from './texts.js';

const inGrams = (grams: Decimal | string) => ({
  quantity: typeof grams === 'string' ? grams : canonical(grams),
  unit: 'g',
});

function post(path: string, what: string, body: object, onAnswer?: (answer: unknown) => void) {
  const withId = { id: uuidv7(), ...body };
  void outbox.post({ id: withId.id, method: 'POST', path, body: withId, what }, onAnswer);
}

/** A bowl begins: its plan, its empty weight, whose hands. */
export function bookOpening(sheet: Sheet): void {
  const hands = handsNow();
  const body = {
    id: sheet.id,
    purpose: sheet.purpose,
    ...(sheet.visitId === null ? {} : { visitId: sheet.visitId }),
    ...(sheet.contact === null ? {} : { contact: sheet.contact }),
    ...(sheet.request === null ? {} : { plan: sheet.request }),
    ...(sheet.vesselId === null ? {} : { vesselId: sheet.vesselId }),
    ...(sheet.tareGrams === null ? {} : { tare: inGrams(sheet.tareGrams) }),
    ...(sheet.mark === null ? {} : { mark: sheet.mark }),
    ...(hands ? { sizedBy: hands.id, mixedBy: hands.id } : {}),
    plannedAt: deviceNow(),
  };
  post('/bowls', texts.bookings.opening(sheet.purpose), body);
}

/** A pour that is final, drips included. */
export function bookPour(sheet: Sheet, pour: SheetPour, told: PendingPour): void {
  const body = {
    id: pour.id,
    productId: pour.productId,
    quantity: pour.grams,
    unit: 'g',
    pouredAt: pour.pouredAt,
    finished: told.finished,
    ...(told.scale ? { scale: told.scale } : {}),
  };
  post(`/bowls/${sheet.id}/pours`, texts.bookings.pour(told.name, pour.grams), body);
}

/** Some of a pour went back, before powder and developer met. */
export function bookScoop(sheet: Sheet, pourId: string, grams: Decimal): void {
  const body = { pourId, quantity: canonical(grams), unit: 'g', at: deviceNow() };
  post(`/bowls/${sheet.id}/scooped-back`, texts.bookings.scoop, body);
}

/** It was another product. Returns the id of the pour that takes its place. */
export function bookOtherProduct(sheet: Sheet, pourId: string, productId: string): string {
  const id = uuidv7();
  const body = { id, pourId, productId };
  post(`/bowls/${sheet.id}/other-product`, texts.bookings.otherProduct, body);
  return id;
}

/** What it holds now; what is gone was applied. */
export function bookWeighing(sheet: Sheet, net: Decimal): void {
  const body = { net: inGrams(net), at: deviceNow() };
  post(`/bowls/${sheet.id}/weighings`, texts.bookings.weighing(sheet.purpose), body);
}

/** A new plan for a bowl that is open: a bit more of the same. */
export function bookPlan(sheet: Sheet): void {
  if (!sheet.request) return;
  const body = { ...sheet.request, plannedAt: deviceNow() };
  void outbox.post({
    id: uuidv7(),
    method: 'PUT',
    path: `/bowls/${sheet.id}/plan`,
    body,
    what: texts.bookings.plan(sheet.purpose),
  });
}

/** What a settlement says beside the weight. */
export interface Settling {
  readonly leftover?: Decimal;
  /** Not weighed: about this share was left. */
  readonly leftoverShare?: string;
  readonly why: string;
  readonly borneBy: 'visit' | 'studio';
}

/** What is left, and the bowl is done. */
export function bookSettlement(
  sheet: Sheet,
  { leftover, leftoverShare, why, borneBy }: Settling,
  onAnswer: (answer: SettlementAnswer) => void,
): void {
  const left = leftover
    ? { leftover: inGrams(leftover) }
    : { leftoverShare: leftoverShare ?? '0', estimated: true };
  const body = { ...left, why, borneBy, settledAt: deviceNow() };
  post(`/bowls/${sheet.id}/settlement`, texts.bookings.settlement(sheet.purpose), body, (answer) =>
    onAnswer(answer as SettlementAnswer),
  );
}

/** Part of it went into a second bowl. */
export function bookDivision(
  sheet: Sheet,
  grams: Decimal,
  into: Sheet,
  onAnswer: (answer: unknown) => void,
): void {
  const hands = handsNow();
  const second = {
    ...{ id: into.id, purpose: into.purpose },
    ...(into.visitId === null ? {} : { visitId: into.visitId }),
    ...(into.contact === null ? {} : { contact: into.contact }),
    ...(into.tareGrams === null ? {} : { tare: inGrams(into.tareGrams) }),
    ...(into.mark === null ? {} : { mark: into.mark }),
    ...(hands ? { sizedBy: hands.id, mixedBy: hands.id } : {}),
  };
  const body = { quantity: inGrams(grams), into: second, at: deviceNow() };
  const what = bowlTexts.divide.booked(canonical(grams));
  post(`/bowls/${sheet.id}/division`, what, body, onAnswer);
}

/** It belongs to another visit. */
export function bookMove(sheet: Sheet, visitId: string): void {
  post(`/bowls/${sheet.id}/move`, bowlTexts.move.booked, { visitId });
}

/** Called off before anything went in. */
export function bookVoid(sheet: Sheet): void {
  post(`/bowls/${sheet.id}/void`, texts.bookings.void(sheet.purpose), {});
}

/** A caution was seen. */
export function bookNoted(sheet: Sheet, code: string): void {
  const hands = handsNow();
  const by = hands ? { notedBy: hands.id } : {};
  const body = { code, answer: 'Noted', at: deviceNow(), ...by };
  post(`/bowls/${sheet.id}/cautions`, texts.bookings.noted, body);
}
