/** How a bench's scale stands, over HTTP; its readings come over the WebSocket of this address. */
import { Controller, Get, Inject } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { benchScaleExample } from './scales.examples.js';
import { ScalesService } from './scales.service.js';

@Tag('scales')
@Controller('api/v1/scales')
export class ScalesController {
  constructor(@Inject(ScalesService) private readonly scales: ScalesService) {}

  @Get(':id')
  @Right('bench')
  @Call({
    summary: 'How the scale of a bench stands; as a WebSocket: its readings as they come',
    example: benchScaleExample,
    nullable: ['/trouble', '/reading'],
    optional: ['value', 'unit', 'stable', 'atZero', 'interval'].map((name) => `/reading/${name}`),
  })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.scales.show(caller, id);
  }
}
