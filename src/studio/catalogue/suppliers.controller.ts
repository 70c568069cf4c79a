/** Suppliers over HTTP: their terms are for managers and owners. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import { inPage, pageExample, supplierExample, supplierNulls } from './catalogue.examples.js';
import {
  CatalogueListRequest,
  NewSupplierRequest,
  SupplierChangesRequest,
} from './catalogue.requests.js';
import { SuppliersService } from './suppliers.service.js';

const oneSupplier = { example: supplierExample, nullable: supplierNulls };

@Tag('suppliers')
@Controller('api/v1/suppliers')
export class SuppliersController {
  constructor(@Inject(SuppliersService) private readonly suppliers: SuppliersService) {}

  @Get()
  @Right('manager')
  @Call({
    summary: 'The suppliers of the studio, newest first',
    example: pageExample(supplierExample),
    nullable: ['/next', ...inPage(supplierNulls)],
  })
  list(@By() caller: Caller, @Query() request: CatalogueListRequest) {
    return this.suppliers.list(caller, request);
  }

  @Post()
  @Right('manager')
  @Call({ summary: 'A new supplier', status: 201, ...oneSupplier })
  add(@By() caller: Caller, @Body() request: NewSupplierRequest) {
    return this.suppliers.add(caller, request);
  }

  @Get(':id')
  @Right('manager')
  @Call({ summary: 'One supplier', ...oneSupplier })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.suppliers.show(caller, id);
  }

  @Patch(':id')
  @Right('manager')
  @Call({ summary: 'What is sent of a supplier changes', ...oneSupplier })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: SupplierChangesRequest) {
    return this.suppliers.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('manager')
  @Call({ summary: 'A supplier leaves the lists and stays in history', ...oneSupplier })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.suppliers.retire(caller, id);
  }
}
