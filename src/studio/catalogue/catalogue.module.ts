/** Products, suppliers, services, vessels, purposes, formulas, clients and their tests. */
import { Module } from '@nestjs/common';
import { BulkService } from './bulk.service.js';
import { ClientsController } from './clients.controller.js';
import { ClientsService } from './clients.service.js';
import { FormulasController } from './formulas.controller.js';
import { FormulasService } from './formulas.service.js';
import { MenuController } from './menu.controller.js';
import { MenuService } from './menu.service.js';
import { ProductsController } from './products.controller.js';
import { ProductsService } from './products.service.js';
import { PurposesController } from './purposes.controller.js';
import { PurposesService } from './purposes.service.js';
import { SensitivityTestsController } from './sensitivity-tests.controller.js';
import { SensitivityTestsService } from './sensitivity-tests.service.js';
import { ServicesController } from './services.controller.js';
import { ServicesService } from './services.service.js';
import { SuppliersController } from './suppliers.controller.js';
import { SuppliersService } from './suppliers.service.js';
import { VesselsController } from './vessels.controller.js';
import { VesselsService } from './vessels.service.js';

const services = [
  ProductsService,
  SuppliersService,
  ServicesService,
  MenuService,
  VesselsService,
  PurposesService,
  FormulasService,
  ClientsService,
  SensitivityTestsService,
  BulkService,
];

@Module({
  controllers: [
    ProductsController,
    SuppliersController,
    ServicesController,
    MenuController,
    VesselsController,
    PurposesController,
    FormulasController,
    ClientsController,
    SensitivityTestsController,
  ],
  providers: services,
  exports: services,
})
export class CatalogueModule {}
