/** The line of postings on disk, as all tabs of a device see it. */
import { hoursBefore, deviceNow } from '../shell/clock.js';
import type { Device, Writing } from './device.js';
import { inOrder, sentBefore, type KeptPosting } from './queue.js';
import type { Tabs } from './tabs.js';

/** A posting before it has its place in the line. */
export type NewPosting = Omit<KeptPosting, 'seq'>;

const shownForHours = 24;

export class Line {
  private postings: ReadonlyMap<string, KeptPosting> = new Map();
  private keeping = 0;

  /** @param changed told whenever something in the line is another than before */
  constructor(
    private readonly kept: Device,
    private readonly others: Tabs,
    private readonly changed: () => void,
  ) {
    others.hear('queue', (facts) => this.heard(facts as readonly KeptPosting[]));
    others.hear('queue-gone', (ids) => this.drop(ids as readonly string[]));
  }

  /** Reads the line of the studio that was opened; what was sent long ago is let go of. */
  async read(): Promise<void> {
    this.others.join(this.kept.studio ?? '');
    this.postings = new Map();
    const kept = (await this.kept.all('queue')) as KeptPosting[];
    this.heard(kept);
    const old = sentBefore(kept, hoursBefore(deviceNow(), shownForHours));
    await this.remove(old.map(({ id }) => id));
  }

  /** True while something is on its way to the disk. */
  get isKeeping(): boolean {
    return this.keeping > 0;
  }

  get(id: string): KeptPosting | undefined {
    return this.postings.get(id);
  }

  /** Everything, in order. */
  all(): readonly KeptPosting[] {
    return inOrder([...this.postings.values()]);
  }

  /** Puts postings at the end, on disk; one whose id is there already is left out. */
  async add(postings: readonly NewPosting[]): Promise<void> {
    this.keeping += 1;
    const added: KeptPosting[] = [];
    await this.kept.write(async (writing) => {
      for (const posting of postings) {
        if (await record(writing, posting.id)) continue;
        const fresh = { ...posting };
        delete (fresh as { seq?: number }).seq;
        added.push({ ...fresh, seq: await writing.objectStore('queue').add(fresh) });
      }
    });
    if (this.kept.trouble.get() !== '' && added.length === 0) {
      const last = this.all().at(-1)?.seq ?? 0;
      added.push(...postings.map((posting, index) => ({ ...posting, seq: last + index + 1 })));
    }
    this.keeping -= 1;
    this.show(added);
  }

  /** Writes a posting that is in the line already. */
  async put(posting: KeptPosting): Promise<void> {
    await this.kept.write((writing) => writing.objectStore('queue').put(posting));
    this.show([posting]);
  }

  async remove(ids: readonly string[]): Promise<void> {
    if (ids.length === 0) return;
    await this.kept.write(async (writing) => {
      for (const id of ids) {
        const found = await record(writing, id);
        if (found) await writing.objectStore('queue').delete(found.seq);
      }
    });
    this.forget(ids);
  }

  /** Takes out what was never tried. Returns false where it may have arrived. */
  async takeBack(id: string): Promise<boolean> {
    let taken = false;
    await this.kept.write(async (writing) => {
      const found = await record(writing, id);
      taken = found !== undefined && found.state === 'waiting' && !found.tried;
      if (taken && found) await writing.objectStore('queue').delete(found.seq);
    });
    if (taken) this.forget([id]);
    return taken;
  }

  /** Notes on disk that one is being sent; undefined where it was taken back meanwhile. */
  async claim(posting: KeptPosting): Promise<KeptPosting | undefined> {
    let claimed: KeptPosting | undefined = { ...posting, tried: true };
    if (posting.tried || this.kept.trouble.get() !== '') return claimed;
    await this.kept.write(async (writing) => {
      const found = await record(writing, posting.id);
      claimed = found?.state === 'waiting' ? { ...found, tried: true } : undefined;
      if (claimed) await writing.objectStore('queue').put(claimed);
    });
    if (claimed) this.heard([claimed]);
    else this.drop([posting.id]);
    return claimed;
  }

  private show(postings: readonly KeptPosting[]): void {
    this.heard(postings);
    this.others.tell('queue', postings);
  }

  private forget(ids: readonly string[]): void {
    this.drop(ids);
    this.others.tell('queue-gone', ids);
  }

  private heard(postings: readonly KeptPosting[]): void {
    const next = new Map(this.postings);
    for (const posting of postings) next.set(posting.id, posting);
    this.postings = next;
    this.changed();
  }

  private drop(ids: readonly string[]): void {
    const next = new Map(this.postings);
    for (const id of ids) next.delete(id);
    this.postings = next;
    this.changed();
  }
}

/** Without what the service said of it. */
export function plain(posting: KeptPosting): KeptPosting {
  const { id, method, path, body, what, seq, state, writtenAt, tried } = posting;
  return { id, method, path, body, what, seq, state, writtenAt, tried };
}

async function record(writing: Writing, id: string): Promise<KeptPosting | undefined> {
  return (await writing.objectStore('queue').index('id').get(id)) as KeptPosting | undefined;
}
