/** What a client is being shown; until a PIN is typed nothing else can be reached here. */
import { store, type Store } from '../shell/store.js';

/** All that a client sees; nothing else of the visit or the quote is kept with it. */
export interface ClientFacts {
  readonly studio?: string;
  readonly currency: string;
  readonly services: readonly string[];
  readonly minutes: { readonly from: number; readonly to: number };
  readonly price: { readonly from: string; readonly to: string };
  readonly inThePrice: readonly string[];
  /** "We ask you before going above …"; a visit that is priced has none. */
  readonly promise: string | null;
  readonly validUntil: string | null;
  readonly expired: boolean;
  /** Lines under the price: tip, paid before, to pay. */
  readonly more: readonly { readonly label: string; readonly amount: string }[];
}

const place = 'bowlworth.showing';

/** Kept on the device, so that a reload does not lead out of it. */
export const showing: Store<ClientFacts | null> = store(read());

function read(): ClientFacts | null {
  try {
    return JSON.parse(localStorage.getItem(place) ?? 'null') as ClientFacts | null;
  } catch {
    return null;
  }
}

/** Turns the page to the client. */
export function show(facts: ClientFacts): void {
  localStorage.setItem(place, JSON.stringify(facts));
  showing.set(facts);
}

/** Back to work; call it only once a PIN was right. */
export function stopShowing(): void {
  localStorage.removeItem(place);
  showing.set(null);
}
