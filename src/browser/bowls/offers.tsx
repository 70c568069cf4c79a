/** After too much: what can be done about it, the chosen one marked; the page follows at once. */
import type { OfferKind } from '../../../shared/rebalancing.js';
import { Choice } from '../shell/choice.js';
import { texts } from '../shell/texts.js';
import type { Next } from './next.js';

/** The offers, first the one that is followed unless another is tapped. */
export function Offers({ next, onChoose }: { next: Next; onChoose: (kind: OfferKind) => void }) {
  return (
    <section className="offers">
      <Choice
        label={texts.pour.offers}
        value={next.taken?.kind}
        options={next.offers.map(({ kind, text }) => ({ value: kind, text }))}
        onChoose={onChoose}
      />
    </section>
  );
}
