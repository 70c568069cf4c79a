/** Every kind of file that can be imported. */
import { clientImport } from './clients.js';
import { formulaImport } from './formulas.js';
import type { ImportKind } from './kind.js';
import { priceImport } from './prices.js';
import { productImport } from './products.js';
import { serviceImport } from './services.js';
import { supplierImport } from './suppliers.js';

/** A new kind is entered here. */
export const importKinds: readonly ImportKind[] = [
  supplierImport,
  productImport,
  priceImport,
  serviceImport,
  clientImport,
  formulaImport,
];
