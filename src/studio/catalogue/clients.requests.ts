/** What may be sent about clients and their sensitivity tests. */
import type {
  HairDensity,
  HairLength,
  SensitivityResult,
} from '../../../shared/contract/clients.js';
import { Flag, Instant, OneOf, Text, Whole } from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { CatalogueListRequest } from './catalogue.requests.js';

export const hairLengths: readonly HairLength[] = ['short', 'medium', 'long', 'very long'];
export const hairDensities: readonly HairDensity[] = ['fine', 'medium', 'thick'];
const results: readonly SensitivityResult[] = ['no reaction', 'reaction'];

const absent = { optional: true, nullable: true } as const;

/** All that may be known of a client. */
class ClientDetails extends PostingRequest {
  @Text({ ...absent, max: 120, example: 'Ada Brook' })
  name?: string | null;

  @Text({ ...absent, max: 200 })
  contact?: string | null;

  @Text({ ...absent, max: 4000 })
  notes?: string | null;

  @Text({ ...absent, max: 300, description: 'One line, the first thing seen next time.' })
  nextTime?: string | null;

  @OneOf(hairLengths, absent)
  hairLength?: HairLength | null;

  @OneOf(hairDensities, absent)
  hairDensity?: HairDensity | null;

  @Flag({ ...absent, description: 'Yes or no; no date of birth is kept.' })
  sixteenOrOlder?: boolean | null;
}

export class NewClientRequest extends ClientDetails {
  @Whole({ optional: true, min: 1, max: 9_999_999, description: 'The next one unless told.' })
  number?: number;
}

export class ClientChangesRequest extends ClientDetails {
  @Flag({ optional: true, description: 'False brings the client back.' })
  retired?: boolean;
}

export class ClientListRequest extends CatalogueListRequest {
  @Text({ optional: true, max: 120, description: 'Part of the name, or the number.' })
  name?: string;
}

export class ClientBowlsRequest extends PageRequest {}

export class NewSensitivityTestRequest extends PostingRequest {
  @Text({ max: 80, description: 'The product line it was for.', example: 'Tidewater' })
  line!: string;

  @Instant()
  placedAt!: string;

  @Instant(absent)
  readAt?: string | null;

  @OneOf(results, absent)
  result?: SensitivityResult | null;
}

export class SensitivityReadingRequest {
  @Instant()
  readAt!: string;

  @OneOf(results)
  result!: SensitivityResult;
}
