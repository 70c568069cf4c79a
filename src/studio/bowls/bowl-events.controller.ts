/** What else happens to a bowl, over HTTP. */
import { Body, Controller, Inject, Post } from '@nestjs/common';
import { Clock, deviceTimes } from '../../platform/clock.js';
import { Once, type OnceRequest } from '../../platform/database/once.js';
import type { Transaction } from '../../platform/database/transaction.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { acting } from './acting.js';
import { BowlEventsService } from './bowl-events.service.js';
import { bowlExample, bowlShape, pourExample, pourShape } from './bowls.examples.js';
import {
  CautionRequest,
  DivisionRequest,
  MoveRequest,
  OtherProductRequest,
  ReversalRequest,
  ScoopedBackRequest,
} from './bowls.requests.js';
import type { Acting } from './bowls.service.js';

const oneBowl = { status: 201, example: bowlExample, ...bowlShape() };
const cautionExample = {
  code: 'stays_with_client',
  text: 'What has been on a brush stays with its client.',
  manner: 'line',
};

@Tag('bowls')
@Controller('api/v1/bowls')
@Right('bench')
export class BowlEventsController {
  constructor(
    @Inject(BowlEventsService) private readonly events: BowlEventsService,
    @Inject(Once) private readonly once: Once,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  @Post(':id/division')
  @Call({
    summary: 'Part of it is poured into another bowl',
    status: 201,
    example: { from: bowlExample, into: bowlExample, cautions: [cautionExample] },
    nullable: [...bowlShape('/from').nullable, ...bowlShape('/into').nullable],
    optional: [...bowlShape('/from').optional, ...bowlShape('/into').optional],
  })
  divide(@By() caller: Caller, @PathId() id: string, @Body() request: DivisionRequest) {
    return this.answered(caller, `${id}/division`, request, (tx, by) =>
      this.events.divide(tx, id, request, this.at(request, request.at), by),
    );
  }

  @Post(':id/scooped-back')
  @Call({ summary: 'Back into its tub, before powder and developer met', ...oneBowl })
  scoopBack(@By() caller: Caller, @PathId() id: string, @Body() request: ScoopedBackRequest) {
    return this.answered(caller, `${id}/scooped-back`, request, (tx, by) =>
      this.events.scoopBack(tx, id, request, this.at(request, request.at), by),
    );
  }

  @Post(':id/other-product')
  @Call({
    summary: 'It was another product: taken back and entered anew',
    status: 201,
    example: pourExample,
    optional: pourShape(),
  })
  otherProduct(@By() caller: Caller, @PathId() id: string, @Body() request: OtherProductRequest) {
    return this.answered(caller, `${id}/other-product`, request, (tx, by) =>
      this.events.otherProduct(tx, id, request, by),
    );
  }

  @Post(':id/move')
  @Call({ summary: 'It belongs to another visit', ...oneBowl })
  move(@By() caller: Caller, @PathId() id: string, @Body() request: MoveRequest) {
    return this.answered(caller, `${id}/move`, request, (tx, by) =>
      this.events.move(tx, id, request, by),
    );
  }

  @Post(':id/void')
  @Call({ summary: 'Called off before the first pour', ...oneBowl })
  callOff(@By() caller: Caller, @PathId() id: string, @Body() request: PostingRequest) {
    return this.answered(caller, `${id}/void`, request, (tx, by) =>
      this.events.callOff(tx, id, by),
    );
  }

  @Post(':id/reversal')
  @Right('stylist')
  @Call({ summary: 'Undo the settlement, a weighing or a pour', ...oneBowl })
  reverse(@By() caller: Caller, @PathId() id: string, @Body() request: ReversalRequest) {
    return this.answered(caller, `${id}/reversal`, request, (tx, by) =>
      this.events.reverse(tx, id, request, by),
    );
  }

  @Post(':id/cautions')
  @Call({ summary: 'A caution was seen', ...oneBowl })
  note(@By() caller: Caller, @PathId() id: string, @Body() request: CautionRequest) {
    return this.answered(caller, `${id}/cautions`, request, (tx, by) =>
      this.events.note(tx, id, request, this.at(request, request.at), by),
    );
  }

  private answered<T>(
    caller: Caller,
    path: string,
    request: OnceRequest,
    work: (tx: Transaction, by: Acting) => Promise<T>,
  ) {
    const by = acting(caller, this.clock.now());
    return this.once.answer(caller.studioId, `POST /bowls/${path}`, request, (tx) => work(tx, by));
  }

  private at(request: OnceRequest, written: string): string {
    return deviceTimes(request.sentAt, this.clock.now())(written).at;
  }
}
