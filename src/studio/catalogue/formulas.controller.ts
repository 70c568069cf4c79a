/** Saved formulas over HTTP; at a bench those of the studio and of clients who are here today. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import {
  formulaExample,
  formulaFree,
  formulaNulls,
  inPage,
  newFormulaExample,
  pageExample,
} from './catalogue.examples.js';
import {
  FormulaChangesRequest,
  FormulaListRequest,
  NewFormulaRequest,
} from './formulas.requests.js';
import { FormulasService } from './formulas.service.js';

const oneFormula = { example: formulaExample, nullable: formulaNulls, free: formulaFree };

@Tag('formulas')
@Controller('api/v1/formulas')
export class FormulasController {
  constructor(@Inject(FormulasService) private readonly formulas: FormulasService) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'Formulas of a client, else the studio’s own, newest first',
    example: pageExample(formulaExample),
    nullable: ['/next', ...inPage(formulaNulls)],
    free: inPage(formulaFree),
  })
  list(@By() caller: Caller, @Query() request: FormulaListRequest) {
    return this.formulas.list(caller, request);
  }

  @Post()
  @Right('stylist')
  @Call({
    summary: 'A new formula',
    status: 201,
    example: newFormulaExample,
    nullable: ['/clientId'],
  })
  add(@By() caller: Caller, @Body() request: NewFormulaRequest) {
    return this.formulas.add(caller, request);
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One formula', ...oneFormula })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.formulas.show(caller, id);
  }

  @Patch(':id')
  @Right('stylist')
  @Call({ summary: 'What is sent of a formula changes', ...oneFormula })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: FormulaChangesRequest) {
    return this.formulas.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('stylist')
  @Call({ summary: 'A formula leaves the lists and stays in history', ...oneFormula })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.formulas.retire(caller, id);
  }
}
