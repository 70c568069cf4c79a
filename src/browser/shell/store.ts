/** A value that pages look at and that something outside of them changes. */
import { useSyncExternalStore } from 'react';

export interface Store<T> {
  get(): T;
  set(value: T): void;
  listen(listener: () => void): () => void;
}

/** A store that begins with a value; listeners are told of every change. */
export function store<T>(first: T): Store<T> {
  let value = first;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      for (const listener of listeners) listener();
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** The store's value, kept up to date. */
export function useStore<T>(from: Store<T>): T {
  return useSyncExternalStore(
    (listener) => from.listen(listener),
    () => from.get(),
  );
}
