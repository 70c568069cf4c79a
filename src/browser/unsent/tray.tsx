/** The tray: what the service refused, with its sentence; nothing leaves it by itself. */
import { useState } from 'react';
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { outbox, type RefusedPosting } from '../api/outbox.js';
import { fileOf } from '../api/queue-file.js';
import { useSession } from '../people/session.js';
import { deviceNow, momentInWords } from '../shell/clock.js';
import { saveFile } from '../shell/save-file.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';

const { outbox: words } = texts;

/** The entries that need a look, each with what can be done about it. */
export function Tray() {
  const { refused, held } = useStore(outbox.state);
  const [aside, setAside] = useState<RefusedPosting>();
  const waitFor = (id: string) => [...held.values()].filter((each) => each === id).length;
  return (
    <section className="page" aria-labelledby="needs-look">
      <h2 id="needs-look">{words.needsLook}</h2>
      <p className="quiet">{refused.length === 0 ? words.noneRefused : words.why}</p>
      <ul className="plain lines">
        {refused.map((posting) => (
          <li key={posting.id} className="day-line">
            <p>
              <strong>{posting.what}</strong>{' '}
              <span className="quiet">{words.doneAt(momentInWords(posting.writtenAt))}</span>
            </p>
            <p>{posting.reason}</p>
            {waitFor(posting.id) > 0 && <p>{words.waits(waitFor(posting.id))}</p>}
            <div className="keys">
              <Button
                className="key strong"
                aria-label={words.againOf(posting.what)}
                onPress={() => void outbox.tryAgain(posting.id)}
              >
                {words.again}
              </Button>
              <Button
                className="key"
                aria-label={words.asideOf(posting.what)}
                onPress={() => setAside(posting)}
              >
                {words.aside}
              </Button>
            </div>
          </li>
        ))}
      </ul>
      {aside && <AskAside posting={aside} onDone={() => setAside(undefined)} />}
    </section>
  );
}

/** Setting aside takes a yes, and leaves a file. */
function AskAside({ posting, onDone }: { posting: RefusedPosting; onDone: () => void }) {
  const studio = useSession().data?.studio;
  const yes = () => {
    if (studio) saveFile(`bowlworth-${posting.id}.json`, fileOf(studio, [posting], deviceNow()));
    void outbox.setAside(posting.id);
    onDone();
  };
  return (
    <ModalOverlay className="veil" isOpen isDismissable={false}>
      <Modal className="interrupting">
        <Dialog role="alertdialog">
          <Heading slot="title">{words.asideTitle}</Heading>
          <p>
            <strong>{posting.what}</strong>
          </p>
          <p>{words.asideWhy}</p>
          <div className="keys">
            <Button autoFocus className="key" onPress={onDone}>
              {texts.cancel}
            </Button>
            <Button className="key strong" onPress={yes}>
              {words.asideYes}
            </Button>
          </div>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
