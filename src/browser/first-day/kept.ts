/** What is typed and not sent yet: kept on this device, so that leaving a page loses nothing. */
import { useState } from 'react';

const place = (name: string) => `bowlworth.typed.${name}`;

/** What was kept under a name; `first` where there is nothing, or nothing that can be read. */
function readKept<T>(name: string, first: T): T {
  try {
    const text = localStorage.getItem(place(name));
    return text === null ? first : (JSON.parse(text) as T);
  } catch {
    return first;
  }
}

/** Forgets what was kept under a name. */
export function forgetKept(name: string): void {
  localStorage.removeItem(place(name));
}

/** State that outlives the page. Nothing secret belongs in it. */
export function useKept<T>(name: string, first: T): [T, (next: T | ((before: T) => T)) => void] {
  const [value, setValue] = useState(() => readKept(name, first));
  const keep = (next: T | ((before: T) => T)) =>
    setValue((before) => {
      const after = typeof next === 'function' ? (next as (before: T) => T)(before) : next;
      localStorage.setItem(place(name), JSON.stringify(after));
      return after;
    });
  return [value, keep];
}
