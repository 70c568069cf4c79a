/** Every step of the schema in order, and every entity: what the database is opened with. */
import { Studio0001 } from '../migrations/0001-studio.js';
import { People0002 } from '../migrations/0002-people.js';
import { Catalogue0003 } from '../migrations/0003-catalogue.js';
import { VisitsAndBowls0004 } from '../migrations/0004-visits-and-bowls.js';
import { Ledger0005 } from '../migrations/0005-ledger.js';
import { Requests0006 } from '../migrations/0006-requests.js';
import { Pricing0007 } from '../migrations/0007-pricing.js';
import { Purchasing0008 } from '../migrations/0008-purchasing.js';
import { PricingHistory0009 } from '../migrations/0009-pricing-history.js';
import { VersionsOfPrice0010 } from '../migrations/0010-versions-of-price.js';
import { Bookings0011 } from '../migrations/0011-bookings.js';
import { AnswersAndChecks0013 } from '../migrations/0013-answers-and-checks.js';
import { FirstDay0015 } from '../migrations/0015-first-day.js';
import { ClientEntity } from './studio/catalogue/client.entity.js';
import { FormulaEntity } from './studio/catalogue/formula.entity.js';
import { PackEntity } from './studio/catalogue/pack.entity.js';
import { ProductEntity } from './studio/catalogue/product.entity.js';
import { PurposeEntity } from './studio/catalogue/purpose.entity.js';
import { SensitivityTestEntity } from './studio/catalogue/sensitivity-test.entity.js';
import { ServiceEntity } from './studio/catalogue/service.entity.js';
import { SupplierEntity } from './studio/catalogue/supplier.entity.js';
import { VesselEntity } from './studio/catalogue/vessel.entity.js';
import { BenchEntity, PersonEntity } from './studio/people/people.entity.js';
import type { SchemaStep } from './platform/database/migrate.js';

/** A new file in migrations/ is entered here; a test holds this list against the folder. */
export const schemaSteps: readonly SchemaStep[] = [
  new Studio0001(),
  new People0002(),
  new Catalogue0003(),
  new VisitsAndBowls0004(),
  new Ledger0005(),
  new Requests0006(),
  new Pricing0007(),
  new Purchasing0008(),
  new PricingHistory0009(),
  new VersionsOfPrice0010(),
  new Bookings0011(),
  new AnswersAndChecks0013(),
  new FirstDay0015(),
];

/** A new entity is entered here; a test holds all of them against the tables. */
export const entities = [
  PersonEntity,
  BenchEntity,
  SupplierEntity,
  ProductEntity,
  PackEntity,
  ServiceEntity,
  VesselEntity,
  PurposeEntity,
  ClientEntity,
  SensitivityTestEntity,
  FormulaEntity,
];
