/** What has not reached the service yet, and what the tray holds; quiet when all is sent. */
import { device } from '../api/device.js';
import { reach } from '../api/calls.js';
import { outbox } from '../api/outbox.js';
import { addressOf } from './place.js';
import { useStore } from './store.js';
import { texts } from './texts.js';

const { outbox: words } = texts;

/** One line in the head; nothing where all is sent and the service answers. */
export function OutboxLine() {
  const { waiting, refused, unknownHere } = useStore(outbox.state);
  const { away } = useStore(reach);
  const trouble = useStore(device.trouble);
  const said = trouble !== '' || unknownHere || away;
  return (
    <div className={said ? 'outbox says' : 'outbox'}>
      <span role="status">
        {trouble !== '' && `${words.cannotKeep(trouble)} `}
        {unknownHere && `${words.unknownHere} `}
        {away && `${words.away} `}
      </span>
      {((said && waiting.length > 0) || refused.length > 0) && (
        <a className="key" href={addressOf('unsent')}>
          {refused.length > 0 ? words.look(refused.length) : words.waiting(waiting.length)}
        </a>
      )}
    </div>
  );
}
