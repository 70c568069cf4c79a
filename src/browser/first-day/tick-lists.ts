/** Lists to tick: what a studio usually has on its shelf, many products in a few taps. */
import { canonical, type Decimal } from '../../../shared/decimal.js';
import type { StockUnit } from '../../../shared/amount.js';
import type { ProductKind } from '../../../shared/mix.js';
import { readFigure } from '../shell/figures.js';
import { packLabel, type ProductDraft } from './drafts.js';
import { words } from './texts.js';

/** Something to tick; its strength in vol where it is a developer. */
interface Tick {
  readonly id: string;
  readonly strength?: string;
  /** How much is in its pack, where it is not as usual in the list. */
  readonly quantity?: string;
}

export interface TickList {
  readonly id: keyof typeof words.lists.names;
  readonly kind: ProductKind;
  readonly unit: StockUnit;
  /** tub, bottle, tube, box */
  readonly vessel: keyof typeof words.lists.vessels;
  readonly quantity: string;
  readonly ticks: readonly Tick[];
  /** Shades, or products of one's own, typed one after the other. */
  readonly typed: boolean;
}

/** Sizes and strengths: common practice, no source. All of them can be typed over. */
export const tickLists: readonly TickList[] = [
  {
    ...{ id: 'developers', kind: 'developer', unit: 'ml', vessel: 'bottle', quantity: '1000' },
    ticks: ['5', '6', '10', '13', '20', '30', '40'].map((strength) => ({ id: strength, strength })),
    typed: true,
  },
  {
    ...{ id: 'lighteners', kind: 'lightener', unit: 'g', vessel: 'tub', quantity: '500' },
    ticks: [{ id: 'powder' }, { id: 'clay' }, { id: 'cream' }],
    typed: true,
  },
  {
    ...{ id: 'toners', kind: 'toner', unit: 'g', vessel: 'tube', quantity: '60' },
    ticks: [{ id: 'clear' }],
    typed: true,
  },
  {
    ...{ id: 'permanents', kind: 'permanent', unit: 'g', vessel: 'tube', quantity: '60' },
    ticks: [],
    typed: true,
  },
  {
    ...{ id: 'additives', kind: 'additive', unit: 'ml', vessel: 'bottle', quantity: '250' },
    ticks: [{ id: 'bond' }, { id: 'oil' }],
    typed: true,
  },
  {
    ...{ id: 'sundries', kind: 'sundry', unit: 'piece', vessel: 'box', quantity: '500' },
    ticks: [{ id: 'foils' }, { id: 'gloves', quantity: '100' }, { id: 'capes', quantity: '50' }],
    typed: true,
  },
];

/** What is ticked and typed in one list. */
export interface Ticked {
  readonly ticks: readonly string[];
  /** Name of the line, as on the pack. */
  readonly line: string;
  readonly quantity: string;
  readonly emptyGrams: string;
  /** One's own, separated by commas. */
  readonly typed: string;
}

export type AllTicked = Readonly<Partial<Record<TickList['id'], Ticked>>>;

/** Nothing ticked in a list. */
export function untouched(list: TickList): Ticked {
  return { ticks: [], line: '', quantity: list.quantity, emptyGrams: '', typed: '' };
}

/** A product of a list, or what of it cannot be read. */
export type Listed =
  | { readonly draft: ProductDraft; readonly trouble?: undefined }
  | { readonly draft?: undefined; readonly trouble: string };

/** All products that the ticks and typed words of a list make. */
export function listed(list: TickList, ticked: Ticked): Listed[] {
  const ticks = list.ticks.filter(({ id }) => ticked.ticks.includes(id));
  const own = ticked.typed
    .split(/[,\n;]/)
    .map((text) => text.trim())
    .filter((text) => text !== '');
  if (ticks.length + own.length === 0) return [];
  const size = readFigure(ticked.quantity);
  const empty = ticked.emptyGrams.trim() === '' ? null : readFigure(ticked.emptyGrams);
  if (!size || size.isZero()) return [{ trouble: words.lists.sizeWrong(ticked.quantity) }];
  if (empty === undefined) return [{ trouble: words.lists.emptyWrong(ticked.emptyGrams) }];
  const usual = ticked.quantity === list.quantity;
  const made = ticks.map((tick): Listed => {
    const quantity = usual && tick.quantity !== undefined ? readFigure(tick.quantity) : size;
    const name = nameOfTick(tick);
    const more = tick.strength === undefined ? {} : { strength: tick.strength };
    return { draft: draftOf(list, ticked, { name, ...more }, quantity ?? size, empty) };
  });
  return [...made, ...own.map((text) => ofOwn(list, ticked, text, size, empty))];
}

/** "Developer 20 vol"; "Lightener powder" */
export function nameOfTick(tick: Tick): string {
  if (tick.strength !== undefined) return words.lists.developer(tick.strength);
  return words.lists.ticks[tick.id as keyof typeof words.lists.ticks];
}

function ofOwn(
  list: TickList,
  ticked: Ticked,
  text: string,
  size: Decimal,
  empty: Decimal | null,
): Listed {
  if (list.kind !== 'developer') {
    const name = words.lists.own(words.lists.singular[list.id], text);
    return { draft: draftOf(list, ticked, { name }, size, empty) };
  }
  const [, figure = '', sign] = /^(\d{1,3}(?:[.,]\d{1,3})?) ?(%|vol)?$/i.exec(text) ?? [];
  const strength = readFigure(figure);
  if (!strength) return { trouble: words.lists.strengthWrong(text) };
  const value = canonical(strength);
  const told =
    sign === '%'
      ? { name: words.lists.developerPercent(value), percent: value }
      : { name: words.lists.developer(value), strength: value };
  return { draft: draftOf(list, ticked, told, size, empty) };
}

function draftOf(
  list: TickList,
  { line }: Ticked,
  told: Pick<ProductDraft, 'name' | 'strength' | 'percent'>,
  size: Decimal,
  empty: Decimal | null,
): ProductDraft {
  const vessel = words.lists.vessels[list.vessel];
  return {
    ...told,
    name: [line.trim(), told.name].filter(Boolean).join(' ').slice(0, 120),
    kind: list.kind,
    unit: list.unit,
    line: line.trim().slice(0, 80),
    pack: {
      label:
        list.unit === 'piece'
          ? `${vessel} of ${canonical(size)}`
          : packLabel(size, list.unit, vessel),
      quantity: canonical(size),
      unit: list.unit,
      ...(empty ? { emptyGrams: canonical(empty) } : {}),
    },
  };
}
