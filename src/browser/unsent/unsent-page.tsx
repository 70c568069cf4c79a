/** What is not sent, what was refused and needs a look, and when something was sent last. */
import { useState } from 'react';
import { Button, FileTrigger } from 'react-aria-components';
import { fileOf, entriesOf, NotReadIn } from '../api/queue-file.js';
import { outbox } from '../api/outbox.js';
import type { KeptPosting } from '../api/queue.js';
import { useSession } from '../people/session.js';
import { deviceNow, momentInWords } from '../shell/clock.js';
import { canOpenAway } from '../shell/keep-page.js';
import { saveFile } from '../shell/save-file.js';
import { useStore } from '../shell/store.js';
import { texts } from '../shell/texts.js';
import { Tray } from './tray.js';

const { outbox: words } = texts;
const shown = 40;

/** The page: the tray on the left, the line and its file on the right. */
export default function UnsentPage() {
  const { waiting, sent } = useStore(outbox.state);
  const last = outbox.lastSentAt();
  return (
    <>
      <h1>
        {words.title}{' '}
        <small>{last === undefined ? words.neverSent : words.lastSent(momentInWords(last))}</small>
      </h1>
      <div className="two-pages">
        <Tray />
        <section className="page" aria-labelledby="not-sent">
          <h2 id="not-sent">{words.notSent}</h2>
          {waiting.length === 0 && <p className="quiet">{words.allSent}</p>}
          <Entries postings={waiting} />
          <FileKeys />
          <p className="quiet">{canOpenAway() ? words.opensWithout : words.cannotOpen}</p>
          <h2>{words.sent}</h2>
          <Entries postings={sent.toReversed()} />
        </section>
      </div>
    </>
  );
}

/** Entries as lines of the book; of many the first. */
function Entries({ postings }: { postings: readonly KeptPosting[] }) {
  const more = postings.length - shown;
  return (
    <>
      <ul className="plain">
        {postings.slice(0, shown).map(({ id, what, writtenAt }) => (
          <li key={id}>
            {what} <span className="quiet">{momentInWords(writtenAt)}</span>
          </li>
        ))}
      </ul>
      {more > 0 && <p className="quiet">{words.more(more)}</p>}
    </>
  );
}

/** The whole queue as a file, and back. */
function FileKeys() {
  const studio = useSession().data?.studio;
  const { waiting, refused } = useStore(outbox.state);
  const [said, say] = useState('');
  if (!studio) return null;
  const readIn = async (file: File | undefined) => {
    if (!file) return;
    try {
      say(words.readInDone(await outbox.readIn(entriesOf(await file.text(), studio.id))));
    } catch (error) {
      if (!(error instanceof NotReadIn)) throw error;
      say(error.studio === undefined ? words.notAFile : words.otherStudio(error.studio));
    }
  };
  return (
    <>
      <div className="keys">
        <Button
          className="key"
          isDisabled={waiting.length + refused.length === 0}
          onPress={() => saveFile(fileName(), fileOf(studio, outbox.all(), deviceNow()))}
        >
          {words.save}
        </Button>
        <FileTrigger
          acceptedFileTypes={['application/json']}
          onSelect={(files) => void readIn(files?.[0])}
        >
          <Button className="key">{words.readIn}</Button>
        </FileTrigger>
      </div>
      <p role="status">{said}</p>
      <p className="quiet">{words.saveWhy}</p>
    </>
  );
}

function fileName(): string {
  return `bowlworth-entries-${deviceNow().slice(0, 10)}.json`;
}
