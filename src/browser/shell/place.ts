/** Which page is shown, kept in the address behind "#", so that reload and back work. */
import { useSyncExternalStore } from 'react';

/** A page and what it is about: "#/bowl/0192…/left" -> ["bowl", "0192…", "left"]. */
export type Place = readonly string[];

/** The place in the address now. */
export function place(): Place {
  return location.hash.replace(/^#\/?/, '').split('/').filter(Boolean).map(decodeURIComponent);
}

/** Goes to a place: goTo('bowl', id). */
export function goTo(...parts: string[]): void {
  location.hash = addressOf(...parts);
}

/** The address of a place, for links. */
export function addressOf(...parts: string[]): string {
  return `#/${parts.map(encodeURIComponent).join('/')}`;
}

/** The place, kept up to date. */
export function usePlace(): Place {
  const hash = useSyncExternalStore(listen, () => location.hash);
  return hash === '' ? [] : place();
}

function listen(listener: () => void): () => void {
  addEventListener('hashchange', listener);
  return () => removeEventListener('hashchange', listener);
}
