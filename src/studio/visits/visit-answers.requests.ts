/** What may be sent and asked about the answers before a visit's first bowl. */
import type { SensitivityWord } from '../../../shared/contract/visits.js';
import { Flag, Id, Instant, OneOf, Text } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

const sensitivityWords: readonly SensitivityWord[] = [
  'none',
  'under 48 h',
  'not read',
  'no reaction',
  'reaction',
];

export class VisitAnswersRequest extends PostingRequest {
  @Flag({ optional: true, description: 'No rash; nothing sensitive, irritated or damaged.' })
  scalpSound?: boolean;

  @Flag({ optional: true, description: 'To hair colour or a black-henna tattoo.' })
  earlierReaction?: boolean;

  @Flag({ optional: true, description: 'Henna or metallic salts on this hair before.' })
  hennaOrMetal?: boolean;

  @Flag({ optional: true })
  sixteenOrOlder?: boolean;

  @OneOf(sensitivityWords, { optional: true, description: 'How the test for this line stands.' })
  sensitivityTest?: SensitivityWord;

  @Instant()
  at!: string;

  @Id({ optional: true, description: 'Who asked; who is signed in, unless told.' })
  askedBy?: string;
}

export class VisitCautionsRequest {
  @Text({ optional: true, max: 80, description: 'The line of colour that will be used.' })
  line?: string;
}
