/** Every kind of file that can be imported. */
import { clientImport } from './clients.js';
import { deliveryImport } from './deliveries.js';
import { formulaImport } from './formulas.js';
import type { ImportKind, LedgerDestination } from './kind.js';
import { priceImport } from './prices.js';
import { productImport } from './products.js';
import { serviceImport } from './services.js';
import { supplierImport } from './suppliers.js';
import { usageImport } from './usage.js';

/** A new kind is entered here. */
export const importKinds: readonly ImportKind<LedgerDestination>[] = [
  supplierImport,
  productImport,
  priceImport,
  serviceImport,
  clientImport,
  formulaImport,
  deliveryImport,
  usageImport,
];
