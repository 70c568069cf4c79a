/** What may be sent and asked about quotes. */
import type { HairDensity, HairLength } from '../../../shared/contract/clients.js';
import { Day, Id, OneOf, Parts } from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

export class QuotedServiceRequest {
  @Id()
  serviceId!: string;
}

export class QuoteRequest extends PostingRequest {
  @Parts(() => QuotedServiceRequest, { max: 20 })
  services!: QuotedServiceRequest[];

  @Id({ optional: true })
  clientId?: string;

  @OneOf(['short', 'medium', 'long', 'very long'], {
    optional: true,
    description: 'As noted of the client, unless told.',
  })
  hairLength?: HairLength;

  @OneOf(['fine', 'medium', 'thick'], { optional: true })
  hairDensity?: HairDensity;

  @Day({ optional: true, description: 'The last day that it holds; 30 days, unless told.' })
  validUntil?: string;
}

export class QuoteListRequest extends PageRequest {
  @Id({ optional: true })
  clientId?: string;
}
