/** Products over HTTP; prices are shown to and set by managers and owners. */
import { Body, Controller, Get, HttpCode, Inject, Patch, Post, Query } from '@nestjs/common';
import { Call, Tag } from '../../platform/http/answers.js';
import { PathId } from '../../platform/http/id-pipe.js';
import { DryRequest, DryRun } from '../../platform/http/posting-request.js';
import { By } from '../../platform/http/right-guard.js';
import { Right, type Caller } from '../../platform/http/rights.js';
import {
  inPage,
  pageExample,
  productAbsent,
  productExample,
  productNulls,
} from './catalogue.examples.js';
import {
  ManyProductsRequest,
  NewProductRequest,
  ProductChangesRequest,
  ProductListRequest,
} from './products.requests.js';
import { ProductsService } from './products.service.js';

const oneProduct = { example: productExample, nullable: productNulls, optional: productAbsent };

@Tag('products')
@Controller('api/v1/products')
export class ProductsController {
  constructor(@Inject(ProductsService) private readonly products: ProductsService) {}

  @Get()
  @Right('bench')
  @Call({
    summary: 'The products of the studio with their packs, newest first',
    example: pageExample(productExample),
    nullable: ['/next', ...inPage(productNulls)],
    optional: inPage(productAbsent),
  })
  list(@By() caller: Caller, @Query() request: ProductListRequest) {
    return this.products.list(caller, request);
  }

  @Post()
  @Right('bench')
  @Call({ summary: 'A new product; prices and suppliers by a manager', status: 201, ...oneProduct })
  add(@By() caller: Caller, @Body() request: NewProductRequest) {
    return this.products.add(caller, request);
  }

  @Post('many')
  @Right('manager')
  @Call({
    summary: 'Many new products, all or none',
    status: 201,
    example: { items: [productExample], dry: true },
    nullable: inPage(productNulls),
    optional: ['/dry', ...inPage(productAbsent)],
  })
  addMany(
    @By() caller: Caller,
    @Body() request: ManyProductsRequest,
    @DryRun() { dry }: DryRequest,
  ) {
    return this.products.addMany(caller, request, dry);
  }

  @Get(':id')
  @Right('bench')
  @Call({ summary: 'One product', ...oneProduct })
  show(@By() caller: Caller, @PathId() id: string) {
    return this.products.show(caller, id);
  }

  @Patch(':id')
  @Right('manager')
  @Call({ summary: 'What is sent of a product changes; packs as a whole list', ...oneProduct })
  change(@By() caller: Caller, @PathId() id: string, @Body() request: ProductChangesRequest) {
    return this.products.change(caller, id, request);
  }

  @Post(':id/retire')
  @HttpCode(200)
  @Right('manager')
  @Call({ summary: 'A product leaves the lists and stays in history', ...oneProduct })
  retire(@By() caller: Caller, @PathId() id: string) {
    return this.products.retire(caller, id);
  }
}
