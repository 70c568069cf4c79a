/** Price sheets over HTTP. */
import { Controller, Get, Inject, Query } from '@nestjs/common';
import { Problem } from '../../../shared/problems/problem.js';
import type { Target } from '../../../shared/pricing-target.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { PriceSheetsService } from './price-sheets.service.js';
import { sheetExample, sheetShape } from './pricing.examples.js';
import { PriceSheetRequest } from './pricing.requests.js';

@Tag('pricing')
@Controller('api/v1/visits')
@Right('manager')
export class PriceSheetsController {
  constructor(@Inject(PriceSheetsService) private readonly sheets: PriceSheetsService) {}

  @Get(':id/price-sheet')
  @Call({
    summary: 'What a visit was charged, what it cost, what is left, line by line',
    example: sheetExample,
    ...sheetShape(),
  })
  show(@By() caller: Caller, @PathId() id: string, @Query() request: PriceSheetRequest) {
    return this.sheets.show(caller, id, targetIn(request));
  }

  @Get(':id/price-sheets')
  @Call({
    summary: 'Every final sheet of a visit, the newest first; none is ever changed',
    example: { rows: [sheetExample] },
    ...sheetShape('/rows'),
  })
  all(@By() caller: Caller, @PathId() id: string) {
    return this.sheets.all(caller, id);
  }
}

/** @throws Problem `one_target` for more than one */
function targetIn(request: PriceSheetRequest): Target | undefined {
  const { margin, contributionPerHour, productMarkup } = request;
  const targets: Target[] = [
    ...(margin ? [{ margin }] : []),
    ...(contributionPerHour ? [{ contributionPerHour }] : []),
    ...(productMarkup ? [{ productMarkup }] : []),
  ];
  if (targets.length > 1) throw new Problem('one_target', {});
  return targets[0];
}
