/** The bowl in the hand of this tab: taken up, taken over from another tab, put aside. */
import { useEffect, useRef, useState } from 'react';
import { device } from '../api/device.js';
import { tabs } from '../api/tabs.js';
import { useProducts, useStudio, useVessels } from '../catalogue/catalogue.js';
import { benchScale } from '../scales/bench-scale.js';
import { useSourceStatus } from '../scales/weighing-state.js';
import { BowlInHand } from './bowl-in-hand.js';
import { bookLeftBehind, inHand } from './left-behind.js';
import type { KnownHere } from './next.js';
import { sheets } from './sheets.js';

/** The hand, or where the bowl is instead. */
export interface Taken {
  readonly hand: BowlInHand | undefined;
  /** Another tab of this device has it in hand; `takeOver` puts it aside there. */
  readonly elsewhere: boolean;
  readonly takeOver: () => void;
}

type Place = 'asking' | 'here' | 'elsewhere';

/** Takes a bowl in hand, as long as the page is open and its scale is the same. */
export function useHand(id: string, ready: boolean): Taken {
  const products = useProducts().byId;
  const studio = useStudio();
  const vessels = useVessels();
  const known = useRef<KnownHere>({ products, vessels, country: undefined });
  known.current = { products, vessels, country: studio?.country ?? undefined };
  const { source, state } = useSourceStatus();
  const [hand, setHand] = useState<BowlInHand>();
  const aside = useRef<() => void>(undefined);
  const { place, takeOver } = usePlaceOf(id, () => aside.current?.());
  const opened = state === 'open' ? source : undefined;
  const begins = ready && place === 'here' && products.size > 0 && studio !== undefined;
  useEffect(() => {
    if (!begins) return undefined;
    bookLeftBehind(id);
    const taken = new BowlInHand(id, sheets, benchScale, () => known.current);
    setHand(taken);
    const putAside = () => {
      if (aside.current !== putAside) return;
      aside.current = undefined;
      taken.putAside();
      setHand(undefined);
    };
    aside.current = putAside;
    return putAside;
  }, [id, begins, opened]);
  return { hand: place === 'here' ? hand : undefined, elsewhere: place === 'elsewhere', takeOver };
}

/** Whether this tab has the bowl; `putAside` is done before another tab gets it. */
function usePlaceOf(id: string, putAside: () => void) {
  const [place, setPlace] = useState<Place>('asking');
  const [taking, take] = useState(0);
  const latest = useRef(putAside);
  latest.current = putAside;
  useEffect(() => {
    let left = false;
    let release = () => {};
    const asked = async () => {
      latest.current();
      setPlace('elsewhere');
      // what was put aside is on disk before the bowl is given away
      await device.write(() => undefined);
    };
    const ask = taking === 0 ? tabs.hold(inHand(id), asked) : tabs.takeOver(inHand(id), asked);
    void ask.then(async (held) => {
      if (!held) return setPlace('elsewhere');
      release = held.release;
      if (left) return release();
      await sheets.readAnew(id);
      return setPlace('here');
    });
    return () => {
      left = true;
      void device.write(() => undefined).then(() => release());
    };
  }, [id, taking]);
  return { place, takeOver: () => take((times) => times + 1) };
}
