/** Keeps on the device what the bench needs when nobody answers, and wipes it with the day. */
import { useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { FormulaView } from '../../../shared/contract/catalogue.js';
import { reach, Refused, send, Unreached } from '../api/calls.js';
import { stockUp, wipeYesterday, type ToKeep } from '../api/kept-answers.js';
import { openBowlsPath } from '../bowls/open-bowls.js';
import { bookAllLeftBehind } from '../bowls/left-behind.js';
import { cataloguePaths } from '../catalogue/catalogue.js';
import { forgetYesterdaysPeople } from '../people/here-today.js';
import { namesPath, useSession } from '../people/session.js';
import { visitsPath } from '../visits/visits.js';
import { today } from './clock.js';
import { useStore } from './store.js';

const everyMs = 120_000;
const dayLookMs = 60_000;
const knockMs = 5_000;

const { formulas, ...lasting } = cataloguePaths;

function wanted(): ToKeep[] {
  return [
    ...[...Object.values(lasting), namesPath].map((path) => ({ path })),
    { path: formulas, today: { leaves: ownFormulas } },
    { path: visitsPath(today()), today: {} },
    { path: openBowlsPath, today: {} },
  ];
}

/** Formulas of the studio may stay; those of clients go with the day. */
function ownFormulas(body: unknown): unknown {
  const { items } = body as { items: readonly FormulaView[] };
  return { items: items.filter(({ clientId }) => clientId === null), next: null };
}

/** What was kept before stays until the service gives it again. */
function bear(error: unknown): void {
  if (!(error instanceof Unreached || error instanceof Refused)) throw error;
}

/** Done by the frame, as long as it is there. */
export function useStocking(): void {
  const live = useSession().data?.live;
  const queries = useQueryClient();
  const { away } = useStore(reach);
  useEffect(() => reach.listen(() => void queries.invalidateQueries()), [queries]);
  useEffect(() => {
    if (!away) return undefined;
    const knocking = setInterval(() => void send('GET', '/session').catch(bear), knockMs);
    return () => clearInterval(knocking);
  }, [away]);
  useEffect(() => {
    void bookAllLeftBehind();
    const look = () => {
      forgetYesterdaysPeople();
      void wipeYesterday();
    };
    look();
    const looking = setInterval(look, dayLookMs);
    return () => clearInterval(looking);
  }, []);
  useEffect(() => {
    if (!live) return undefined;
    const keep = () => void stockUp(wanted()).catch(bear);
    keep();
    const keeping = setInterval(keep, everyMs);
    return () => clearInterval(keeping);
  }, [live]);
}
