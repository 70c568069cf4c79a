/** The sheets of this bench: shown by pages, changed by the bowl in hand, kept on the device. */
import { device, type Device } from '../api/device.js';
import { tabs, type Tabs } from '../api/tabs.js';
import { store, useStore, type Store } from '../shell/store.js';
import type { Sheet } from './sheet.js';

/**
 * The sheets by bowl. What is put is known at once; pages show it when it is on disk, together
 * with what was put into the outbox in the same turn. All tabs of the device see the same.
 */
export class Sheets {
  private readonly known = new Map<string, Sheet>();
  private readonly shown: Store<ReadonlyMap<string, Sheet>> = store(new Map());

  constructor(
    private readonly kept: Device = device,
    private readonly others: Tabs = tabs,
  ) {
    kept.onOpen(() => this.begin());
    others.hear('sheet', (sheet) => this.hear(sheet as Sheet));
    others.hear('sheet-gone', (id) => this.drop(id as string));
  }

  get(id: string): Sheet | undefined {
    return this.known.get(id);
  }

  /** All sheets that are known. */
  all(): readonly Sheet[] {
    return [...this.known.values()];
  }

  /** Puts a sheet, new or changed; a settled one is not kept beyond this page. */
  put(sheet: Sheet): void {
    this.known.set(sheet.id, sheet);
    const written = this.kept.write((writing) => {
      const sheets = writing.objectStore('sheets');
      return sheet.settled === null ? sheets.put(sheet) : sheets.delete(sheet.id);
    });
    void written.then(() => {
      if (this.known.get(sheet.id) !== sheet) return;
      this.show();
      this.others.tell('sheet', sheet);
    });
  }

  remove(id: string): void {
    this.drop(id);
    void this.kept.write((writing) => writing.objectStore('sheets').delete(id));
    this.others.tell('sheet-gone', id);
  }

  /** Reads one anew from the device: another tab had it in hand until now. */
  async readAnew(id: string): Promise<void> {
    const kept = (await this.kept.all('sheets')).find((sheet) => sheet.id === id);
    if (kept) this.hear(kept as Sheet);
  }

  /** All sheets, kept up to date. */
  useAll(): readonly Sheet[] {
    return [...useStore(this.shown).values()];
  }

  use(id: string): Sheet | undefined {
    return useStore(this.shown).get(id);
  }

  private async begin(): Promise<void> {
    this.known.clear();
    for (const sheet of await this.kept.all('sheets')) this.known.set(sheet.id, sheet as Sheet);
    this.show();
  }

  private hear(sheet: Sheet): void {
    this.known.set(sheet.id, sheet);
    this.show();
  }

  private drop(id: string): void {
    this.known.delete(id);
    this.show();
  }

  private show(): void {
    this.shown.set(new Map(this.known));
  }
}

/** The sheets of this page. */
export const sheets = new Sheets();
