/** The scale of this bench in one strip: which one, how it is, and how to choose another. */
import { useEffect } from 'react';
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { instrumentSentences } from '../../../shared/weighing/sentences.js';
import { useSession } from '../people/session.js';
import { preferences, prefer } from '../shell/preferences.js';
import { texts } from '../shell/texts.js';
import { benchScale } from './bench-scale.js';
import { readsScalesItself, sourcesFor } from './sources.js';
import { useSourceStatus, useWeighing } from './weighing-state.js';

/** The strip; it opens by itself what this device used last. */
export function ScaleStrip() {
  const demo = useSession().data?.studio.demo ?? false;
  const { source, trouble } = useSourceStatus();
  const instrument = useWeighing((weighing) => weighing.instrument);
  const own = useWeighing((weighing) => weighing.ownDisplay?.toFixed());
  const offered = sourcesFor(demo);
  useOpenedAlone(offered, demo);
  const { scale } = texts;
  return (
    <div className="scale-strip">
      <DialogTrigger>
        <Button className="key">
          {source ? `${scale.title}: ${scale.names[source.name]}` : scale.choose}
        </Button>
        <Popover className="sheet">
          <Dialog>
            {({ close }) => (
              <>
                <Heading slot="title">{scale.title}</Heading>
                <p>{scale.choose}</p>
                <ul className="plain">
                  {offered.map(({ name, make }) => (
                    <li key={name}>
                      <Button
                        className="line-key"
                        onPress={() => {
                          prefer({ scale: name });
                          void benchScale.use(make());
                          close();
                        }}
                      >
                        {scale.names[name]}
                        {source?.name === name ? ` – ${scale.open}` : ''}
                      </Button>
                    </li>
                  ))}
                </ul>
                {!readsScalesItself() && <p className="quiet">{scale.cannot}</p>}
              </>
            )}
          </Dialog>
        </Popover>
      </DialogTrigger>
      {source && source.name !== 'keypad' && own !== undefined && (
        <span className="quiet">{scale.ownDisplay(own)}</span>
      )}
      {!source && !readsScalesItself() && <span className="quiet">{scale.cannot}</span>}
      {source?.mayBook === false && <span className="quiet">{texts.practice}</span>}
      <span role="status">
        {trouble && scale.troubles[trouble]}
        {source && !trouble && instrument !== 'weighing' && instrumentSentences[instrument]}
      </span>
    </div>
  );
}

/** Opens what this device used last, where that needs nobody's choice. */
function useOpenedAlone(offered: ReturnType<typeof sourcesFor>, demo: boolean): void {
  useEffect(() => {
    const last = offered.find(({ name }) => name === preferences().scale);
    const opensAlone = last?.opensAlone ?? false;
    if (last && opensAlone && benchScale.status.get().state === 'closed') {
      void benchScale.use(last.make());
    }
  }, [demo]);
}
