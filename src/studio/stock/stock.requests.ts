/** What may be sent about the shelf: what arrives, counts, what is taken, corrections. */
import type { Amount, StockUnit } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import {
  Day,
  DecimalNumber,
  Flag,
  Id,
  Instant,
  OneOf,
  Parts,
  Quantity,
  Text,
  Whole,
} from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

const mostQuantity = '99999999';
const quantity = { places: 3, above: '0', max: mostQuantity };
const money = { min: '0', max: '999999999' };

/** A line of something that arrives. */
export class ArrivalLineRequest {
  @Id()
  productId!: string;

  @Whole({ optional: true, max: 100_000, description: 'Packs that were paid.', example: 2 })
  packs?: number;

  @Text({ optional: true, max: 80, description: 'Which pack; not needed where there is one.' })
  packLabel?: string;

  @DecimalNumber({ optional: true, ...quantity, description: 'Instead of packs, in stock unit.' })
  quantity?: Decimal;

  @DecimalNumber({ optional: true, ...money, description: 'Price of the whole line.' })
  cost?: Decimal;

  @Day({ optional: true, description: 'Its last good day.' })
  expiresOn?: string;
}

export class OpeningRequest extends PostingRequest {
  @Instant({ optional: true, description: 'Now, unless told.' })
  openedAt?: string;

  @Flag({ optional: true, description: 'It is what is there now: what was poured is added.' })
  asCounted: boolean = false;

  @Parts(() => ArrivalLineRequest, { max: 500 })
  lines!: ArrivalLineRequest[];
}

export class DeliveryLineRequest extends ArrivalLineRequest {
  @DecimalNumber({ optional: true, ...money, description: 'The list price, unless told.' })
  packPrice?: Decimal;

  @Whole({ optional: true, max: 100_000, description: 'Packs that came free.' })
  freePacks?: number;

  @Text({ optional: true, max: 80 })
  lotCode?: string;
}

export class DeliveryRequest extends PostingRequest {
  @Id({ optional: true })
  supplierId?: string;

  @Id({ optional: true })
  orderId?: string;

  @Day({ optional: true })
  orderedOn?: string;

  @Day()
  deliveredOn!: string;

  @Instant({ optional: true, description: 'Where a count of that day makes it matter.' })
  deliveredAt?: string;

  @Text({ optional: true, max: 80 })
  invoiceNo?: string;

  @DecimalNumber({ optional: true, ...money })
  freight?: Decimal;

  @DecimalNumber({ optional: true, ...money })
  otherCost?: Decimal;

  @DecimalNumber({ optional: true, ...money })
  discount?: Decimal;

  @DecimalNumber({ optional: true, ...money, description: 'Tax that you do not get back.' })
  nonRecoverableTax?: Decimal;

  @Parts(() => DeliveryLineRequest, { max: 500 })
  lines!: DeliveryLineRequest[];
}

export class OpenPackRequest {
  @Quantity({ min: '0', max: mostQuantity, units: ['g'], description: 'As the scale shows it.' })
  gross!: Amount<'g'>;

  @Quantity({ optional: true, min: '0', max: mostQuantity, units: ['g'] })
  emptyPack?: Amount<'g'>;
}

export class CountLineRequest {
  @Id()
  productId!: string;

  @Quantity({ optional: true, min: '0', max: mostQuantity, description: 'All that is there.' })
  counted?: Amount<StockUnit>;

  @Whole({ optional: true, max: 100_000, description: 'Unopened packs.' })
  fullPacks?: number;

  @Text({ optional: true, max: 80 })
  packLabel?: string;

  @Parts(() => OpenPackRequest, { optional: true, min: 0, max: 50 })
  open?: OpenPackRequest[];
}

export class CountRequest extends PostingRequest {
  @Instant()
  countedAt!: string;

  @Text({ optional: true, max: 400 })
  note?: string;

  @Parts(() => CountLineRequest, { max: 500 })
  lines!: CountLineRequest[];
}

/** So much of a product, in any unit it can be turned into. */
export class TakenLineRequest {
  @Id()
  productId!: string;

  @DecimalNumber(quantity)
  quantity!: Decimal;

  @OneOf(['g', 'ml', 'piece'])
  unit!: StockUnit;
}

export class LotLineRequest extends TakenLineRequest {
  @Id({ optional: true, description: 'Only this lot; else in the order in which lots are drawn.' })
  lotId?: string;
}

export class DiscardRequest extends PostingRequest {
  @Parts(() => LotLineRequest, { max: 500 })
  lines!: LotLineRequest[];

  @OneOf(['expired', 'damaged', 'spilled'])
  why!: 'expired' | 'damaged' | 'spilled';

  @Instant()
  at!: string;

  @Text({ optional: true, max: 400 })
  note?: string;
}

export class UseRequest extends PostingRequest {
  @Id({ optional: true })
  visitId?: string;

  @Text({ optional: true, max: 60, example: 'strand test' })
  purpose?: string;

  @Instant()
  usedAt!: string;

  @Parts(() => TakenLineRequest, { max: 500 })
  lines!: TakenLineRequest[];
}

export class SupplierReturnRequest extends PostingRequest {
  @Parts(() => LotLineRequest, { max: 500 })
  lines!: LotLineRequest[];

  @Instant()
  at!: string;

  @Text({ optional: true, max: 400 })
  note?: string;
}

export class CostLineRequest {
  @Id({ optional: true, description: 'One lot: with `cost`, what all of it cost.' })
  lotId?: string;

  @DecimalNumber({ optional: true, ...money })
  cost?: Decimal;

  @Id({ optional: true, description: 'All of it that has no cost: with `unitCost`.' })
  productId?: string;

  @DecimalNumber({ optional: true, above: '0', max: '999999999' })
  unitCost?: Decimal;
}

export class CostCorrectionRequest extends PostingRequest {
  @Instant({ optional: true, description: 'Now, unless told.' })
  at?: string;

  @Text({ optional: true, max: 400 })
  note?: string;

  @Parts(() => CostLineRequest, { max: 500 })
  lines!: CostLineRequest[];
}

export class ReversalRequest extends PostingRequest {
  @Text({ optional: true, max: 400 })
  note?: string;
}
