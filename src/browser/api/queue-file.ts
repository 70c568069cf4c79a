/** The queue as a file: taken from a broken device, read in on another one of the same studio. */
import type { KeptPosting } from './queue.js';

/** What a file of entries holds. */
export interface QueueFile {
  readonly bowlworth: 'entries';
  readonly version: 1;
  readonly studio: { readonly id: string; readonly name: string };
  readonly savedAt: string;
  readonly entries: readonly KeptPosting[];
}

/** Why a file cannot be read in. */
export class NotReadIn extends Error {
  override readonly name = 'NotReadIn';

  /** @param studio name of the other studio that it belongs to; undefined: it is no such file */
  constructor(readonly studio: string | undefined) {
    super(studio === undefined ? 'This is no file of entries.' : 'It is of another studio.');
  }
}

/** The text of a file: everything that is not sent. `savedAt` is RFC 3339. */
export function fileOf(
  studio: QueueFile['studio'],
  entries: readonly KeptPosting[],
  savedAt: string,
): string {
  const file: QueueFile = {
    bowlworth: 'entries',
    version: 1,
    studio: { id: studio.id, name: studio.name },
    savedAt,
    entries: entries.filter(({ state }) => state !== 'sent'),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

/**
 * The entries of a file, in their order.
 * @throws NotReadIn for other text, and for entries of another studio
 */
export function entriesOf(text: string, studioId: string): readonly KeptPosting[] {
  const file = parsed(text);
  if (!isQueueFile(file)) throw new NotReadIn(undefined);
  if (file.studio.id !== studioId) throw new NotReadIn(file.studio.name);
  return file.entries.toSorted((a, b) => a.seq - b.seq);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function isQueueFile(file: unknown): file is QueueFile {
  const { bowlworth, version, studio, entries } = (file ?? {}) as Partial<QueueFile>;
  return (
    bowlworth === 'entries' &&
    version === 1 &&
    typeof studio?.id === 'string' &&
    typeof studio.name === 'string' &&
    Array.isArray(entries) &&
    entries.every(isEntry)
  );
}

function isEntry(entry: unknown): entry is KeptPosting {
  const { id, method, path, body, what, seq, state, writtenAt, tried } = (entry ??
    {}) as Partial<KeptPosting>;
  const texts = [id, path, what, writtenAt].every((each) => typeof each === 'string');
  const known =
    ['POST', 'PUT'].includes(method ?? '') && ['waiting', 'refused'].includes(state ?? '');
  const inside = path?.startsWith('/') === true && !path.includes('..');
  return (
    texts && known && inside && typeof body === 'object' && body !== null && isOrder(seq, tried)
  );
}

function isOrder(seq: unknown, tried: unknown): boolean {
  return typeof seq === 'number' && typeof tried === 'boolean';
}
