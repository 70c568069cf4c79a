/** What was left over and the right size of bowls, over HTTP. */
import { Controller, Get, Inject, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { SizesService } from './sizes.service.js';
import { sizeExample, sizeShape, wasteExample, wasteShape } from './waste.examples.js';
import { SizeRequest, WasteRequest } from './waste.requests.js';
import { WasteService } from './waste.service.js';

@Tag('left over')
@Controller('api/v1')
export class WasteController {
  constructor(
    @Inject(WasteService) private readonly waste: WasteService,
    @Inject(SizesService) private readonly sizes: SizesService,
  ) {}

  @Get('waste')
  @Right('stylist')
  @Call({
    summary: 'What was left over of what was mixed; a stylist sees what she sized herself',
    example: wasteExample,
    ...wasteShape,
  })
  leftOver(@By() caller: Caller, @Query() request: WasteRequest) {
    return this.waste.leftOver(caller, request);
  }

  @Get('sizes')
  @Right('bench')
  @Call({
    summary: 'The size a bowl should have, by what like heads took',
    example: sizeExample,
    ...sizeShape,
  })
  size(@By() caller: Caller, @Query() request: SizeRequest) {
    return this.sizes.size(caller, request);
  }
}
