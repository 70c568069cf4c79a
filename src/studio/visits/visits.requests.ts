/** What may be sent about visits. */
import type { VisitKind } from '../../../shared/contract/visits.js';
import type { Decimal } from '../../../shared/decimal.js';
import { Day, DecimalNumber, Flag, Id, Instant, OneOf, Parts } from '../../platform/http/fields.js';
import { PageRequest } from '../../platform/http/paging.js';
import { PostingRequest } from '../../platform/http/posting-request.js';

export const visitKinds: readonly VisitKind[] = [
  'client',
  'redo',
  'model',
  'training',
  'test',
  'own staff',
];

export class VisitServiceRequest {
  @Id()
  serviceId!: string;

  @DecimalNumber({
    optional: true,
    min: '0',
    max: '999999',
    description: 'Another price than the menu has; managers and owners.',
  })
  price?: Decimal;
}

export class NewVisitRequest extends PostingRequest {
  @Id({ optional: true, description: 'None: a walk-in, named later.' })
  clientId?: string;

  @Id({ optional: true, description: 'Who serves; who is signed in, unless told.' })
  personId?: string;

  @Parts(() => VisitServiceRequest, { optional: true, min: 0, max: 30 })
  services: VisitServiceRequest[] = [];

  @OneOf(visitKinds, { optional: true })
  kind: VisitKind = 'client';

  @Id({ optional: true, description: 'The visit that this one does again.' })
  redoOf?: string;

  @Instant()
  startedAt!: string;
}

export class VisitChangesRequest {
  @Id({ optional: true, nullable: true })
  clientId?: string | null;

  @Id({ optional: true, nullable: true })
  personId?: string | null;

  @Parts(() => VisitServiceRequest, { optional: true, min: 0, max: 30 })
  services?: VisitServiceRequest[];

  @OneOf(visitKinds, { optional: true })
  kind?: VisitKind;

  @Id({ optional: true, nullable: true })
  redoOf?: string | null;
}

export class ReopenRequest extends PostingRequest {
  @Flag({
    optional: true,
    description: 'Work by the studio’s rules and rates at the next closing, not by the old ones.',
  })
  newTerms: boolean = false;
}

export class VisitListRequest extends PageRequest {
  @Day({ optional: true })
  from?: string;

  @Day({ optional: true, description: 'Exclusive.' })
  to?: string;

  @Id({ optional: true })
  clientId?: string;

  @Id({ optional: true })
  personId?: string;

  @OneOf(['open', 'closed'], { optional: true })
  state?: 'open' | 'closed';
}
