/** The sheets of this bench: shown by pages, changed by the bowl in hand, kept on the device. */
import { store, useStore, type Store } from '../shell/store.js';
import type { Sheet } from './sheet.js';

/** Where sheets outlive a reload. */
export interface Keeper {
  read(): readonly Sheet[];
  write(sheets: readonly Sheet[]): void;
}

const place = 'bowlworth.sheets';

const onThisDevice: Keeper = {
  read() {
    try {
      return JSON.parse(localStorage.getItem(place) ?? '[]') as Sheet[];
    } catch {
      return [];
    }
  },
  write(sheets) {
    localStorage.setItem(place, JSON.stringify(sheets));
  },
};

/** The sheets by bowl. */
export class Sheets {
  private readonly all: Store<ReadonlyMap<string, Sheet>>;

  constructor(private readonly keeper: Keeper = onThisDevice) {
    this.all = store(new Map(keeper.read().map((sheet) => [sheet.id, sheet])));
  }

  get(id: string): Sheet | undefined {
    return this.all.get().get(id);
  }

  /** Puts a sheet, new or changed; a settled one is not kept beyond this page. */
  put(sheet: Sheet): void {
    this.keep(new Map(this.all.get()).set(sheet.id, sheet));
  }

  remove(id: string): void {
    const rest = new Map(this.all.get());
    rest.delete(id);
    this.keep(rest);
  }

  /** All sheets, kept up to date. */
  useAll(): readonly Sheet[] {
    return [...useStore(this.all).values()];
  }

  use(id: string): Sheet | undefined {
    return useStore(this.all).get(id);
  }

  private keep(sheets: ReadonlyMap<string, Sheet>): void {
    this.keeper.write([...sheets.values()].filter((sheet) => sheet.settled === null));
    this.all.set(sheets);
  }
}

/** The sheets of this page. */
export const sheets = new Sheets();
