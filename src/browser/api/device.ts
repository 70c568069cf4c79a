/**
 * What this device keeps of one studio, on disk in IndexedDB: the queue, the sheets of the bowls,
 * answers for when nobody answers. All that is written in one turn is one transaction.
 */
import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { store, type Store } from '../shell/store.js';
import type { KeptPosting } from './queue.js';

/** An answer of the service that was kept, and when it was given. */
export interface KeptAnswer {
  readonly path: string;
  readonly body: unknown;
  /** The only day on which it may be read; null: until there is a newer one. */
  readonly day: string | null;
  /** What may be read after that day. */
  readonly lasting?: unknown;
}

interface Kept extends DBSchema {
  queue: {
    key: number;
    value: Omit<KeptPosting, 'seq'> & { seq?: number };
    indexes: { id: string };
  };
  sheets: { key: string; value: { readonly id: string } };
  answers: { key: string; value: KeptAnswer };
}

const names = ['queue', 'sheets', 'answers'] as const;
type Names = ('queue' | 'sheets' | 'answers')[];

/** A transaction over all that is kept; only its own requests may be awaited inside. */
export type Writing = IDBPTransaction<Kept, Names, 'readwrite'>;
type Work = (writing: Writing) => Promise<unknown> | undefined;

export class Device {
  /** This device cannot keep what is done; the reason for a person who looks. */
  readonly trouble: Store<string> = store('');
  private database: Promise<IDBPDatabase<Kept> | undefined> = Promise.resolve(undefined);
  private open: string | undefined;
  private opening: Promise<void> = Promise.resolve();
  private due: Work[] = [];
  private writing: Promise<void> | undefined;
  private readonly readers: (() => Promise<void>)[] = [];

  /** Registers who reads anew when the kept things of a studio are opened. */
  onOpen(read: () => Promise<void>): void {
    this.readers.push(read);
  }

  /** The studio whose things are open. */
  get studio(): string | undefined {
    return this.open;
  }

  /** Opens what is kept of a studio, and lets go of another one's. */
  openStudio(studioId: string): Promise<void> {
    if (this.open === studioId) return this.opening;
    const before = this.database;
    this.open = studioId;
    this.database = this.connect(`bowlworth ${studioId}`);
    void before.then((database) => database?.close());
    this.opening = (async () => {
      for (const read of this.readers) await read();
    })();
    return this.opening;
  }

  /** All of one kind, in the order of their keys. */
  async all<Name extends Names[number]>(name: Name): Promise<Kept[Name]['value'][]> {
    const database = await this.database;
    return database ? database.getAll(name) : [];
  }

  /** The kept answer to a path. */
  async answer(path: string): Promise<KeptAnswer | undefined> {
    return (await this.database)?.get('answers', path);
  }

  /**
   * Writes on disk, in one transaction with all else that is written in this turn. Settled when
   * it is on disk, or when the trouble has been told: work goes on in memory then.
   */
  write(work: Work): Promise<void> {
    this.due.push(work);
    this.writing ??= Promise.resolve().then(() => this.flush());
    return this.writing;
  }

  private async flush(): Promise<void> {
    const works = this.due;
    this.due = [];
    this.writing = undefined;
    try {
      const database = await this.database;
      if (!database) return;
      const writing = database.transaction([...names] as Names, 'readwrite', {
        durability: 'strict',
      });
      // an aborted transaction is told once, by the await below
      writing.done.catch(() => undefined);
      for (const work of works) await work(writing);
      await writing.done;
    } catch (error) {
      this.trouble.set(error instanceof Error ? error.message : String(error));
    }
  }

  private async connect(name: string): Promise<IDBPDatabase<Kept> | undefined> {
    try {
      const database = await openDB<Kept>(name, 1, {
        upgrade(made) {
          made
            .createObjectStore('queue', { keyPath: 'seq', autoIncrement: true })
            .createIndex('id', 'id', { unique: true });
          made.createObjectStore('sheets', { keyPath: 'id' });
          made.createObjectStore('answers', { keyPath: 'path' });
        },
        blocking: (_, __, event) => (event.target as IDBDatabase).close(),
        terminated: () => {
          this.database = this.connect(name);
        },
      });
      this.trouble.set('');
      return database;
    } catch (error) {
      this.trouble.set(error instanceof Error ? error.message : String(error));
      return undefined;
    }
  }
}

/** What is kept on this device. */
export const device = new Device();
