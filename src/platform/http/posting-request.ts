/** What every creating or posting call may carry besides its own fields. */
import { Query } from '@nestjs/common';
import { Flag, Id, Instant } from './fields.js';

/** Extend it for the body of a call that creates something. */
export class PostingRequest {
  @Id({ optional: true, description: 'Made by the caller; the same id is answered once.' })
  id?: string;

  @Instant({ optional: true, description: 'The device’s clock when it sent this.' })
  sentAt?: string;
}

class DryRequest {
  @Flag({ optional: true, description: 'Answer as if, store nothing.' })
  dry: boolean = false;
}

export { DryRequest };

/** `?dry=true` of a posting call: `@DryRun() { dry }: DryRequest`. */
export function DryRun(): ParameterDecorator {
  return Query();
}
