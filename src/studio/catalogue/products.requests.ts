/** What may be sent about products and their packs. */
import { stockUnits, type Amount, type StockUnit } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import { productKinds } from '../../../shared/product-card.js';
import {
  DecimalNumber,
  Flag,
  Id,
  OneOf,
  Part,
  Parts,
  Quantity,
  Text,
  Whole,
} from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { CatalogueListRequest, mostMoney } from './catalogue.requests.js';

const absent = { optional: true, nullable: true } as const;
const anyUnit = 'A unit by its UCUM code, such as g, kg, ml, l, [oz_av], [foz_us], or piece.';

export class MeasureRequest {
  @DecimalNumber({ min: '0', max: '1000000', example: '38' })
  quantity!: Decimal;

  @Text({ max: 20, description: anyUnit, example: 'g' })
  unit!: string;
}

export class PackRequest {
  @Id({ optional: true, description: 'The pack to keep; else one of the same label, else new.' })
  id?: string;

  @Text({ max: 80, example: '500 g tub' })
  label!: string;

  @DecimalNumber({ above: '0', max: '1000000', example: '500' })
  quantity!: Decimal;

  @Text({ ...absent, max: 20, description: `The product’s own unless told. ${anyUnit}` })
  unit?: string | null;

  @Text({ ...absent, max: 40, description: 'Digits under the bar code.', example: '5901234123457' })
  gtin?: string | null;

  @Text({ ...absent, max: 60, description: 'The supplier’s number for it.' })
  orderCode?: string | null;

  @Part(() => MeasureRequest, { ...absent, description: 'Weight of the empty pack.' })
  emptyWeight?: MeasureRequest | null;

  @DecimalNumber({ ...absent, min: '0', max: mostMoney, description: 'Managers and owners only.' })
  listPrice?: Decimal | null;
}

export class ReorderRequest {
  @DecimalNumber({ ...absent, min: '0', max: '10000000', places: 3 })
  point?: Decimal | null;

  @Whole({ ...absent, max: 365 })
  leadTimeDays?: number | null;

  @DecimalNumber({ ...absent, above: '0', max: '0.999999', example: '0.95' })
  serviceLevel?: Decimal | null;

  @Whole({ ...absent, max: 10_000, description: 'Keep so many packs sealed.' })
  keepSealed?: number | null;
}

/** What a product may say besides what it must. */
class ProductDetails extends PostingRequest {
  @Text({ ...absent, max: 80, example: 'Tidewater' })
  line?: string | null;

  @DecimalNumber({ ...absent, description: 'Of a developer, in vol.', places: 3 })
  strength?: Decimal | null;

  @DecimalNumber({ ...absent, description: 'As printed; 0.3 x vol unless told.', places: 4 })
  percent?: Decimal | null;

  @Flag({ optional: true, description: 'The bottle was read again and it says so.' })
  confirmStrength?: boolean;

  @DecimalNumber({ ...absent, description: 'g/ml', places: 5, example: '1.02' })
  density?: Decimal | null;

  @DecimalNumber({ ...absent, above: '0', max: '100000', places: 3 })
  gramsPerPiece?: Decimal | null;

  @Quantity({ ...absent, above: '0', max: '10000', description: 'What one pump holds.' })
  dose?: Amount<StockUnit> | null;

  @Whole({ ...absent, min: 1, max: 3650 })
  openLifeDays?: number | null;

  @Whole({ ...absent, min: 1, max: 600, description: 'From the product’s own directions.' })
  workingMinutes?: number | null;

  @DecimalNumber({ ...absent, places: 3, description: 'vol; from the product’s directions.' })
  scalpCeiling?: Decimal | null;

  @DecimalNumber({ ...absent, places: 3, description: 'vol; from the product’s directions.' })
  offScalpCeiling?: Decimal | null;

  @Id(absent)
  supplierId?: string | null;

  @Part(() => ReorderRequest, { optional: true })
  reorder?: ReorderRequest;
}

export class NewProductRequest extends ProductDetails {
  @Text({ max: 120, example: 'Developer 20 vol' })
  name!: string;

  @OneOf(productKinds, { example: 'developer' })
  kind!: ProductKind;

  @OneOf(stockUnits, { example: 'ml' })
  unit!: StockUnit;

  @Parts(() => PackRequest, { optional: true, min: 0, max: 50 })
  packs: PackRequest[] = [];

  @Flag({ optional: true, description: 'Poured before it was entered; a new name ends it.' })
  namedLater?: boolean;
}

export class ProductChangesRequest extends ProductDetails {
  @Text({ optional: true, max: 120 })
  name?: string;

  @OneOf(productKinds, { optional: true, description: 'Fixed at the first movement.' })
  kind?: ProductKind;

  @OneOf(stockUnits, { optional: true, description: 'Fixed at the first movement.' })
  unit?: StockUnit;

  @Parts(() => PackRequest, { optional: true, min: 0, max: 50, description: 'All packs.' })
  packs?: PackRequest[];

  @Flag({ optional: true, description: 'False brings it back.' })
  retired?: boolean;
}

export class ManyProductsRequest extends PostingRequest {
  @Parts(() => NewProductRequest, { min: 1, max: 500 })
  products!: NewProductRequest[];
}

export class ProductListRequest extends CatalogueListRequest {
  @OneOf(productKinds, { optional: true })
  kind?: ProductKind;

  @Text({ optional: true, max: 80 })
  line?: string;

  @Text({ optional: true, max: 40, description: 'Digits under the bar code of a pack.' })
  gtin?: string;

  @Text({ optional: true, max: 120, description: 'Part of the name.' })
  name?: string;
}
