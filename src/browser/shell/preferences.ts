/** What this device prefers: light or dark, grams or ounces, which hand, which scale. */
import { useSyncExternalStore } from 'react';

export const themes = ['device', 'light', 'dark'] as const;
export const units = ['g', 'oz'] as const;
export const hands = ['right', 'left'] as const;

export interface Preferences {
  readonly theme: (typeof themes)[number];
  readonly unit: (typeof units)[number];
  readonly hand: (typeof hands)[number];
  /** Name of the scale source that was chosen last. */
  readonly scale: string | undefined;
  /** The first day is over: its pages are reached from the shelf. */
  readonly firstDayDone: boolean;
}

const usual: Preferences = {
  theme: 'device',
  unit: 'g',
  hand: 'right',
  scale: undefined,
  firstDayDone: false,
};
const place = 'bowlworth.preferences';
const listeners = new Set<() => void>();
let current: Preferences = read();

function read(): Preferences {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? '{}') as Partial<Preferences>;
    return { ...usual, ...kept };
  } catch {
    return usual;
  }
}

/** The preferences of this device. */
export function preferences(): Preferences {
  return current;
}

/** Changes some of them, on this device only. */
export function prefer(change: Partial<Preferences>): void {
  current = { ...current, ...change };
  localStorage.setItem(place, JSON.stringify(current));
  wearTheme();
  for (const listener of listeners) listener();
}

/** Puts theme and hand on the document. */
export function wearTheme(): void {
  const { dataset } = document.documentElement;
  if (current.theme === 'device') delete dataset['theme'];
  else dataset['theme'] = current.theme;
  dataset['hand'] = current.hand;
}

/** The preferences, kept up to date. */
export function usePreferences(): Preferences {
  return useSyncExternalStore(listen, preferences);
}

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
