/** What may be sent about bookings, their rules and closed days. */
import type { NamePlace } from '../../../shared/booking-words.js';
import { Day, Flag, Id, Instant, OneOf, Parts, Text, Values } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { readId } from '../../platform/http/reading.js';

/** A file, as {"text": …} or as it is with its own content type. */
export class FileRequest {
  @Text({
    max: 4_000_000,
    description: 'An iCalendar file (RFC 5545), or a table with the columns start, what, who …',
    example: 'start,what,who\n2026-03-05 10:00,Half head of lights,Ada Brook\n',
  })
  text!: string;
}

export class ImportOptions {
  @Flag({ optional: true, description: 'Answer as if, store nothing.' })
  dry: boolean = false;

  @OneOf(['first', 'last', 'none'], {
    optional: true,
    description: 'Where titles name the client: “Ada Brook - Lights”; first unless told.',
  })
  named: NamePlace = 'first';

  @Flag({
    optional: true,
    description: 'The file is all of the diary: what is to come and not in it was called off.',
  })
  whole: boolean = false;

  @Text({ optional: true, max: 60, description: 'Which diary, where there are several.' })
  diary: string = 'diary';
}

export class BookingListRequest {
  @Day({ optional: true, description: 'Today unless told; at a bench always.' })
  from?: string;

  @Day({ optional: true, description: 'Exclusive; the day after `from` unless told.' })
  to?: string;
}

export class BeginRequest extends PostingRequest {
  @Instant({ description: 'When the visit begins.' })
  startedAt!: string;
}

export class RuleRequest {
  @Text({ max: 100, description: 'Words of the diary, found as whole words in any case.' })
  words!: string;

  @Values(
    readId,
    { type: 'string', format: 'uuid' },
    {
      min: 0,
      max: 10,
      description: 'The services that they mean; none: not a visit.',
    },
  )
  serviceIds!: string[];
}

export class RulesRequest {
  @Parts(() => RuleRequest, { min: 0, max: 300, description: 'All rules, in their order.' })
  rules!: RuleRequest[];
}

export class ClosureRequest {
  @Id({ optional: true })
  id?: string;

  @Day({ description: 'The first closed day.' })
  from!: string;

  @Day({ optional: true, description: 'The last closed day; the first one unless told.' })
  to?: string;

  @Text({ optional: true, min: 0, max: 100 })
  name: string = '';
}
