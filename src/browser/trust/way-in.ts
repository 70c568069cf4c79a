/** Whether this device gets in over https yet, asked again until it does. */
import { useEffect, useState } from 'react';

/** What the computer says about its way in for tablets. */
export interface WayIn {
  readonly urls: readonly string[];
  readonly rootFingerprint: string | null;
}

const againMs = 2000;

/** Undefined until it is known. */
export function useWayIn(): WayIn | undefined {
  const [way, setWay] = useState<WayIn>();
  useEffect(() => {
    fetch('/tablets.json')
      .then((answer) => answer.json() as Promise<WayIn>)
      .then(setWay, () => undefined); // the page says what it can without
  }, []);
  return way;
}

/** The https address of this page's computer, under the name it was called by. */
export function secureAddress(way: WayIn | undefined): string | undefined {
  const known = way?.urls[0];
  if (known === undefined) return undefined;
  const address = new URL(known);
  address.hostname = location.hostname;
  return address.origin;
}

/** True as soon as the browser believes the certificate at this address. */
export function useTrusted(address: string | undefined): boolean | undefined {
  const [trusted, setTrusted] = useState<boolean>();
  useEffect(() => {
    if (address === undefined || trusted) return undefined;
    let left = false;
    let waking: ReturnType<typeof setTimeout>;
    const ask = async () => {
      // its answer may not be read from here; that there is one is enough
      const options: RequestInit = { mode: 'no-cors', cache: 'no-store' };
      const known = await fetch(`${address}/health/live`, options).then(
        () => true,
        () => false,
      );
      if (left) return;
      setTrusted(known);
      if (!known) waking = setTimeout(() => void ask(), againMs);
    };
    void ask();
    return () => {
      left = true;
      clearTimeout(waking);
    };
  }, [address, trusted]);
  return trusted;
}
