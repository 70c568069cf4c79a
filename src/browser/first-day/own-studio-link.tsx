/** The way out of the invented studio, and into a service without any: a studio of one's own. */
import { useQuery } from '@tanstack/react-query';
import type { OpeningView } from '../../../shared/contract/people.js';
import { send } from '../api/calls.js';
import { addressOf } from '../shell/place.js';
import { texts } from '../shell/texts.js';

/** Whether the first studio of one's own can be opened, and from here. */
export function useOpening(): OpeningView | undefined {
  return useQuery({
    queryKey: ['opening'],
    staleTime: 60_000,
    queryFn: async () => (await send('GET', '/opening')) as OpeningView,
  }).data;
}

/** Shown as long as there is no studio of one's own. */
export function OwnStudioLink({ className }: { className: string }) {
  const possible = useOpening()?.possible ?? false;
  if (!possible) return null;
  return (
    <a className={className} href={addressOf('open-studio')}>
      {texts.openOwn}
    </a>
  );
}
