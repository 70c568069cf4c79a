/** What the calls about bowls are asked with. */
import type { Amount, StockUnit } from '../../../shared/amount.js';
import type { Decimal } from '../../../shared/decimal.js';
import type { Contact } from '../../../shared/mix.js';
import {
  DecimalNumber,
  Flag,
  Id,
  Instant,
  OneOf,
  Part,
  Parts,
  Quantity,
  Text,
  Whole,
} from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import type { Bearer, BowlStage, LeftoverReason } from './bowl-state.js';
import { MixPlanRequest } from './mix-plan.requests.js';

export const leftoverReasons = ['left over', 'spilled', 'mixed wrong', 'stopped'] as const;

export class OpenBowlRequest extends PostingRequest {
  @Id({ optional: true, description: 'None: a strand test, training.' })
  visitId?: string;

  @Text({ max: 60, example: 'hairline' })
  purpose!: string;

  @OneOf(['scalp', 'off-scalp'], { optional: true })
  contact?: Contact;

  @Part(() => MixPlanRequest, { optional: true })
  plan?: MixPlanRequest;

  @Id({ optional: true })
  formulaId?: string;

  @Id({ optional: true })
  vesselId?: string;

  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  tare?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g'], above: '0', max: '20000' })
  maxTotal?: Amount<StockUnit>;

  @Text({ optional: true, max: 40, example: 'triangle' })
  mark?: string;

  @Instant({ optional: true })
  plannedAt?: string;

  @Id({ optional: true })
  sizedBy?: string;

  @Id({ optional: true })
  mixedBy?: string;

  @Id({ optional: true })
  appliedBy?: string;
}

class ScaleRequest {
  @DecimalNumber({ optional: true, above: '0', max: '100', description: 'g', example: '1' })
  interval?: Decimal;

  @Flag({ optional: true })
  stable?: boolean;

  @Whole({ optional: true, max: 600_000 })
  windowMs?: number;

  @Text({ optional: true, max: 40 })
  source?: string;
}

export class ReplanRequest extends MixPlanRequest {
  @Instant({ optional: true, description: 'When it was planned anew.' })
  plannedAt?: string;

  @Instant({ optional: true, description: 'The device’s clock when it sent this.' })
  sentAt?: string;
}

export class PourRequest extends PostingRequest {
  @Id()
  productId!: string;

  @DecimalNumber({ above: '0', max: '99999999999', places: 3, example: '30' })
  quantity!: Decimal;

  @OneOf(['g', 'ml', 'piece'])
  unit!: StockUnit;

  @Instant()
  pouredAt!: string;

  @Flag({ optional: true })
  estimated: boolean = false;

  @Part(() => ScaleRequest, { optional: true })
  scale?: ScaleRequest;

  @Flag({ optional: true, description: 'That’s all of it, though short of the notch.' })
  finished: boolean = false;

  @Flag({ optional: true, description: 'There is no more of this product.' })
  ranOut: boolean = false;
}

export class WeighingRequest extends PostingRequest {
  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  net?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  gross?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  tare?: Amount<StockUnit>;

  @Instant()
  at!: string;
}

export class SettlementRequest extends PostingRequest {
  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  leftover?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  gross?: Amount<StockUnit>;

  @Quantity({ optional: true, units: ['g'], min: '0', max: '20000' })
  tare?: Amount<StockUnit>;

  @DecimalNumber({
    optional: true,
    min: '0',
    max: '1',
    description: 'Not weighed: about this share was left.',
    example: '0.1',
  })
  leftoverShare?: Decimal;

  @Instant()
  settledAt!: string;

  @OneOf(leftoverReasons, { optional: true })
  why: LeftoverReason = 'left over';

  @OneOf(['visit', 'studio'], { optional: true })
  borneBy?: Bearer;

  @Flag({ optional: true })
  estimated: boolean = false;
}

export class RecordRequest extends PostingRequest {
  @Part(() => OpenBowlRequest)
  bowl!: OpenBowlRequest;

  @Parts(() => PourRequest, { min: 0, max: 100 })
  pours!: PourRequest[];

  @Parts(() => WeighingRequest, { optional: true, min: 0, max: 50 })
  weighings: WeighingRequest[] = [];

  @Part(() => SettlementRequest, { optional: true })
  settlement?: SettlementRequest;
}

export class DivisionRequest extends PostingRequest {
  @Quantity({ units: ['g'], above: '0', max: '20000', description: 'What is poured over.' })
  quantity!: Amount<StockUnit>;

  @Part(() => OpenBowlRequest, { description: 'The bowl it is poured into.' })
  into!: OpenBowlRequest;

  @Instant()
  at!: string;
}

export class ScoopedBackRequest extends PostingRequest {
  @Id()
  pourId!: string;

  @DecimalNumber({ above: '0', max: '20000', places: 3 })
  quantity!: Decimal;

  @OneOf(['g', 'ml', 'piece'])
  unit!: StockUnit;

  @Instant()
  at!: string;
}

export class OtherProductRequest extends PostingRequest {
  @Id()
  pourId!: string;

  @Id({ description: 'What it really was.' })
  productId!: string;
}

export class MoveRequest extends PostingRequest {
  @Id()
  visitId!: string;
}

export class ReversalRequest extends PostingRequest {
  @Id({ optional: true, description: 'The pour or weighing; none: the settlement.' })
  of?: string;
}

export class CautionRequest extends PostingRequest {
  @Text({ max: 60, example: 'powder_dust' })
  code!: string;

  @Text({ max: 200, optional: true })
  answer: string = 'Noted';

  @Instant()
  at!: string;

  @Id({ optional: true, description: 'Who saw it; who is signed in, unless told.' })
  notedBy?: string;
}

export class BowlListRequest extends PageRequest {
  @OneOf(['planned', 'open', 'settled', 'void'], { optional: true })
  state?: BowlStage;

  @Id({ optional: true })
  visitId?: string;
}
