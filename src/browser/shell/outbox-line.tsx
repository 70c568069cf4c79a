/** What has not reached the service yet, and the tray of what it refused. */
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { outbox } from '../api/outbox.js';
import { useStore } from './store.js';
import { texts } from './texts.js';

/** One line in the head; nothing where all is sent. */
export function OutboxLine() {
  const { waiting, refused, away } = useStore(outbox.state);
  return (
    <div className="outbox">
      <span role="status">
        {away && waiting.length > 0 ? texts.outbox.waiting(waiting.length) : ''}
      </span>
      {refused.length > 0 && (
        <DialogTrigger>
          <Button className="key">{texts.outbox.look(refused.length)}</Button>
          <Popover className="sheet">
            <Dialog>
              <Heading slot="title">{texts.outbox.title}</Heading>
              <p>{texts.outbox.why}</p>
              <ul className="plain">
                {refused.map((posting) => (
                  <li key={posting.id}>
                    <strong>{posting.what}</strong>
                    <p>{posting.reason}</p>
                    <Button className="key" onPress={() => outbox.tryAgain(posting.id)}>
                      {texts.tryAgain}
                    </Button>
                  </li>
                ))}
              </ul>
            </Dialog>
          </Popover>
        </DialogTrigger>
      )}
    </div>
  );
}
