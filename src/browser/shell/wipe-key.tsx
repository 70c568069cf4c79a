/** Locks the touch of the screen for 20 seconds, so that it can be wiped; weighing goes on. */
import { useEffect, useState } from 'react';
import { Button } from 'react-aria-components';
import { texts } from './texts.js';

const wipeSeconds = 20;

/** The key, and the cover while it counts down. */
export function WipeKey() {
  const [left, setLeft] = useState(0);
  useEffect(() => {
    if (left === 0) return undefined;
    const timer = setTimeout(() => setLeft(left - 1), 1000);
    return () => clearTimeout(timer);
  }, [left]);
  return (
    <>
      <Button className="key" onPress={() => setLeft(wipeSeconds)}>
        {texts.pour.wipe}
      </Button>
      {left > 0 && (
        <div className="wiping" role="status">
          {texts.pour.wiping(left)}
        </div>
      )}
    </>
  );
}
