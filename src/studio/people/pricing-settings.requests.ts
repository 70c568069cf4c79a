/** What may be sent of the studio's rules of price, and as they are stored. */
import type {
  CommissionOn,
  OnTopSetting,
  PricingSettings,
} from '../../../shared/contract/pricing.js';
import { canonical, type Decimal } from '../../../shared/decimal.js';
import type { ProductKind } from '../../../shared/mix.js';
import { Day, DecimalNumber, OneOf, Part, Parts, Text } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { MalformedRequest } from '../../platform/http/unreadable.js';

const share = { min: '0', max: '1' } as const;
const amount = { min: '0', max: '999999' } as const;
const kinds: readonly ProductKind[] = [
  'lightener',
  'developer',
  'toner',
  'permanent',
  'direct',
  'additive',
  'care',
];

export class TaxRequest {
  @Text({ max: 40, example: 'VAT' })
  label!: string;

  @DecimalNumber({ ...share, description: 'A share: 0.23 for 23 %.', example: '0.23' })
  rate!: Decimal;
}

class StudioCommissionRequest {
  @DecimalNumber({ ...share, example: '0.1' })
  share!: Decimal;

  @OneOf(['gross', 'net', 'net_less_product'])
  on!: CommissionOn;
}

class CardFeeRequest {
  @DecimalNumber({ ...share, description: 'Of what is paid by card.', example: '0.015' })
  share!: Decimal;

  @DecimalNumber({ optional: true, ...amount, description: 'For each payment.' })
  fixed?: Decimal;

  @OneOf(['studio', 'person'], { optional: true, description: 'Who bears it on a tip.' })
  onTip: 'studio' | 'person' = 'studio';
}

export class OnTopRequest {
  @OneOf(kinds)
  kind!: ProductKind;

  @Text({ optional: true, max: 60 })
  label?: string;

  @OneOf(['bowl', 'gram', 'cost'], { optional: true })
  by: OnTopSetting['by'] = 'bowl';

  @DecimalNumber({
    ...amount,
    description: 'A bowl, a gram, or a markup on its cost (a share); always without tax.',
  })
  rate!: Decimal;
}

export class PricingChangesRequest {
  @OneOf(['inclusive', 'exclusive'], { optional: true, description: 'Tax within, or on top.' })
  priceMode?: PricingSettings['priceMode'];

  @Parts(() => TaxRequest, {
    optional: true,
    nullable: true,
    min: 0,
    max: 5,
    description: 'An empty list where no tax is due.',
  })
  taxes?: TaxRequest[] | null;

  @OneOf(['invoice', 'line'], { optional: true })
  taxBasis?: PricingSettings['taxBasis'];

  @OneOf(['half_up', 'half_even'], { optional: true })
  rounding?: PricingSettings['rounding'];

  @DecimalNumber({ optional: true, nullable: true, above: '0', max: '1000' })
  priceStep?: Decimal | null;

  @DecimalNumber({ optional: true, ...amount, example: '0.25' })
  overheadPerChairMinute?: Decimal;

  @DecimalNumber({ optional: true, nullable: true, ...amount, description: 'Of people without.' })
  hourRate?: Decimal | null;

  @Part(() => StudioCommissionRequest, { optional: true, nullable: true })
  commission?: StudioCommissionRequest | null;

  @Part(() => CardFeeRequest, { optional: true, nullable: true })
  cardFee?: CardFeeRequest | null;

  @Parts(() => OnTopRequest, { optional: true, min: 0, max: 20 })
  onTop?: OnTopRequest[];

  @OneOf(['applied', 'mixed'], { optional: true, description: 'Which grams are charged on top.' })
  measuredOn?: PricingSettings['measuredOn'];
}

export class RulesVersionRequest extends PostingRequest {
  @Day({ description: 'From which day on; today or later.' })
  startsOn!: string;

  @Part(() => PricingChangesRequest)
  pricing!: PricingChangesRequest;
}

/**
 * The fields that were sent, as they are stored; the others stay.
 * @throws Problem `malformed_request` for two rules of one kind, or two taxes of one name
 */
export function changedPricing(changes: PricingChangesRequest): Partial<PricingSettings> {
  refuseTwice(changes.taxes?.map((tax) => tax.label) ?? [], '/pricing/taxes', 'label');
  refuseTwice(changes.onTop?.map((rule) => rule.kind) ?? [], '/pricing/onTop', 'kind');
  const { priceMode, taxBasis, rounding, measuredOn } = changes;
  const stored: { [K in keyof PricingSettings]?: PricingSettings[K] | undefined } = {
    ...{ priceMode, taxBasis, rounding, measuredOn },
    taxes: changes.taxes?.map(({ label, rate }) => ({ label, rate: canonical(rate) })),
    priceStep: changes.priceStep && canonical(changes.priceStep),
    overheadPerChairMinute:
      changes.overheadPerChairMinute && canonical(changes.overheadPerChairMinute),
    hourRate: changes.hourRate && canonical(changes.hourRate),
    commission: changes.commission && {
      share: canonical(changes.commission.share),
      on: changes.commission.on,
    },
    cardFee: changes.cardFee && {
      share: canonical(changes.cardFee.share),
      fixed: changes.cardFee.fixed ? canonical(changes.cardFee.fixed) : '0',
      onTip: changes.cardFee.onTip,
    },
    onTop: changes.onTop?.map(({ kind, label, by, rate }) => ({
      ...{ kind, by, rate: canonical(rate) },
      ...(label === undefined ? {} : { label }),
    })),
  };
  if (changes.taxes === null) stored.taxes = null;
  const given = Object.entries(stored).filter(([, value]) => value !== undefined);
  return Object.fromEntries(given);
}

function refuseTwice(names: readonly string[], at: string, field: string): void {
  const index = names.findIndex((name, place) => names.indexOf(name) !== place);
  if (index < 0) return;
  throw new MalformedRequest([
    {
      pointer: `${at}/${index}/${field}`,
      code: 'twice',
      detail: `"${String(names[index])}" is there already. Give it once.`,
    },
  ]);
}
