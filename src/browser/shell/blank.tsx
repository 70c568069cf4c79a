/** After a minute without hands and without a bowl on the scale, the screen is blank. */
import { useEffect, useState } from 'react';
import { Button } from 'react-aria-components';
import { benchScale } from '../scales/bench-scale.js';
import { texts } from './texts.js';

const afterMs = 60_000;
const touches = ['pointerdown', 'keydown', 'pointermove'] as const;

/** Covers the page; a touch or a key uncovers it. */
export function Blank({ studio }: { studio: string }) {
  const [blank, setBlank] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout>;
    const wait = () => {
      clearTimeout(timer);
      timer = setTimeout(() => (benchScale.weighing.get().bowl ? wait() : setBlank(true)), afterMs);
    };
    wait();
    for (const touch of touches) addEventListener(touch, wait, { passive: true });
    return () => {
      clearTimeout(timer);
      for (const touch of touches) removeEventListener(touch, wait);
    };
  }, []);
  if (!blank) return null;
  return (
    <div className="blank" role="dialog" aria-modal="true" aria-label={studio}>
      <Button autoFocus className="line-key" onPress={() => setBlank(false)}>
        <strong>{studio}</strong>
        {texts.blank}
      </Button>
    </div>
  );
}
