/** The page kept on the device by the service worker, and a newer one taken when it is opened. */
import { store, type Store } from './store.js';

/** A newer version of the page is on the device and waits for the next opening. */
export const newerWaits: Store<boolean> = store(false);

let newer: ServiceWorker | undefined;

/** Whether this page can be opened while there is no network: over https or on localhost. */
export function canOpenAway(): boolean {
  return isSecureContext && 'serviceWorker' in navigator;
}

/**
 * Lets the service worker keep the page; without one the page still works as long as the service
 * answers. A newer version is taken at once if no other tab works with this one.
 */
export async function keepPage(): Promise<void> {
  if (!canOpenAway()) return;
  const alone = isAlone();
  const registration = await navigator.serviceWorker.register('/service-worker.js');
  const notice = (worker: ServiceWorker | null) => {
    if (!worker || !navigator.serviceWorker.controller) return;
    newer = worker;
    newerWaits.set(true);
  };
  notice(registration.waiting);
  if (newer && (await alone)) takeNewer();
  registration.addEventListener('updatefound', () => {
    const { installing } = registration;
    installing?.addEventListener('statechange', () => {
      if (installing.state === 'installed') notice(installing);
    });
  });
  await navigator.storage.persist();
}

/** Takes the newer version now; the page is opened anew with it. */
export function takeNewer(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), {
    once: true,
  });
  newer?.postMessage('take over');
}

/** Whether no other tab shows the page; this one is counted from now on. */
async function isAlone(): Promise<boolean> {
  const name = 'bowlworth page';
  const { held = [] } = await navigator.locks.query();
  // held until the tab is closed
  void navigator.locks.request(name, { mode: 'shared' }, () => new Promise(() => undefined));
  return !held.some((lock) => lock.name === name);
}
