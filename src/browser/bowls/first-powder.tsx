/** Before the first powder of the day: ventilate, tip slowly, gloves; noted once a day. */
import { Button } from 'react-aria-components';
import { beforePowder } from '../../../shared/caution-moments.js';
import { today } from '../shell/clock.js';
import { store, useStore, type Store } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import { visitTexts } from '../visits/texts.js';

const place = 'bowlworth.powder';
const notedOn: Store<string> = store(localStorage.getItem(place) ?? '');

/** The lines with their key, while powder is due and nobody has noted them on this device today. */
export function FirstPowder(props: { isPowderDue: boolean; onNoted: (code: string) => void }) {
  const day = useStore(notedOn);
  if (!props.isPowderDue || day === today()) return null;
  return (
    <section className="question" aria-label={visitTexts.powder.title}>
      <p>
        <strong>{visitTexts.powder.title}</strong>
      </p>
      {beforePowder.map(({ code, text }) => (
        <p key={code}>{text}</p>
      ))}
      <div className="keys">
        <Button
          className="key"
          onPress={() => {
            localStorage.setItem(place, today());
            notedOn.set(today());
            for (const { code } of beforePowder) props.onNoted(code);
          }}
        >
          {texts.noted}
        </Button>
      </div>
    </section>
  );
}
