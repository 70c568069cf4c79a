/** Products, suppliers, services, vessels, formulas as they travel. Decimals are text. */
import type { OnTopSetting } from './pricing.js';
import type { StockUnit } from '../amount.js';
import type { ProductKind } from '../mix.js';
import type { Q } from './quantity.js';

export interface PackView {
  id: string;
  label: string;
  /** In the product's own unit. */
  quantity: string;
  unit: StockUnit;
  /** 14 digits. */
  gtin: string | null;
  /** The supplier's number for it. */
  orderCode: string | null;
  emptyWeight: Q<'g'> | null;
  /** In the studio's currency; managers and owners only. */
  listPrice?: string | null;
}

export interface ProductView {
  id: string;
  name: string;
  kind: ProductKind;
  unit: StockUnit;
  line: string | null;
  /** Of a developer, in vol. */
  strength: string | null;
  /** Of a developer: as printed on the bottle, else 0.3 x vol. */
  percent: string | null;
  /** g/ml */
  density: string | null;
  gramsPerPiece: string | null;
  /** What one pump or capsule holds, in the product's own unit. */
  dose: Q | null;
  openLifeDays: number | null;
  /** From the product's own directions, since the first contact of powder and developer. */
  workingMinutes: number | null;
  /** The most developer, in vol, that the product's directions name on and off the scalp. */
  scalpCeiling: string | null;
  offScalpCeiling: string | null;
  supplierId: string | null;
  packs: PackView[];
  reorder: {
    point: string | null;
    leadTimeDays: number | null;
    serviceLevel: string | null;
    keepSealed: number | null;
  };
  /** True in the answer to a change that had to count 1 ml as 1 g. */
  assumedDensity?: boolean;
  /** Poured before anybody entered it; its name is still to be given. */
  namedLater: boolean;
  retiredAt: string | null;
}

export interface SupplierView {
  id: string;
  name: string;
  leadTimeDays: number | null;
  minimumOrder: string | null;
  freight: string | null;
  freeFreightFrom: string | null;
  /** 1 Monday … 7 Sunday. */
  orderDay: number | null;
  retiredAt: string | null;
}

export interface KitItem {
  productId: string;
  quantity: string;
  unit: StockUnit;
}

/** What of a kind is in the menu price: grams, or a number of bowls. */
export interface InThePriceItem {
  kind: ProductKind;
  grams?: string;
  bowls?: string;
}

export interface ServiceView {
  id: string;
  name: string;
  /** In the studio's currency and price mode; not shown to a bench. */
  price?: string;
  handsOnMinutes: number;
  chairMinutes: number;
  /** Foils, gloves, capes that go with every visit for it. */
  kit: KitItem[];
  inThePrice: InThePriceItem[];
  /** How product on top is charged, in place of the studio's rule; not shown to a bench. */
  onTop?: OnTopSetting[];
  retiredAt: string | null;
}

export interface VesselView {
  id: string;
  label: string;
  mark: string | null;
  tare: Q<'g'>;
  /** Weight of the brush that goes with it. */
  brush: Q<'g'> | null;
  retiredAt: string | null;
}

export interface PurposeView {
  id: string;
  name: string;
  retiredAt: string | null;
}

export interface FormulaView {
  id: string;
  /** Null: the studio's own. */
  clientId: string | null;
  name: string;
  purpose: string | null;
  /** A request to plan a mix. */
  plan: Record<string, unknown>;
  /** The same as it was poured. */
  poured: Record<string, unknown> | null;
  minutesOnHair: number | null;
  /** One line for the next visit. */
  nextTime: string | null;
  retiredAt: string | null;
}
